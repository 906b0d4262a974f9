"""One engine against another from made-up margins, and what metal costs; no engine is read."""

from __future__ import annotations

from dataclasses import dataclass
from types import SimpleNamespace
from typing import Any

import pytest

from firstfire.engine.records import Way
from firstfire.errors import Stopped
from firstfire.verdict.compare import compare as comparing
from firstfire.verdict.compare import metal as metals
from firstfire.verdict.compare import pairs
from firstfire.verdict.compare.pairs import _later, _moved, pair
from firstfire.verdict.compare.records import Column
from firstfire.verdict.facts.margin import Margin, RunTime


def way(ident, factor=1.0):
    part, _, failure = ident.partition("#")[0].partition(".")
    return Way(
        ident, part, failure, 100.0, 100.0 * factor, "N", False, "section", None, "", ""
    )  # fmt: skip


def margin(ident, factor, word="holds", event="idle", **more):
    return Margin(
        way(ident, factor or 0.0), event, "slow", 1.0, factor, None, None, word, 0.9, (), **more
    )  # fmt: skip


def limit(ident, seconds, **more):
    low, high = (None, None) if seconds is None else (seconds / 2, seconds * 2)
    parts = {"depth": None, "strength_left": None, "reported": False, **more}
    return RunTime("idle", "slow", way(ident), seconds, low, high, **parts)


def peak(strong):
    return SimpleNamespace(strong=strong)


def result(*margins, limits=(), ends=None, power=1000.0, odds=0.5, moving=(0.1,), strong=30e5):
    points = [
        SimpleNamespace(brake_power=power, spark=0.1, peaks=(peak(20e5), peak(strong))),
        SimpleNamespace(brake_power=0.0, spark=None, peaks=(peak(90e5),)),
    ]
    cylinders = [SimpleNamespace(reciprocating_mass=mass) for mass in moving]
    return SimpleNamespace(
        margins=margins, run_times=limits, points=points,
        plain=SimpleNamespace(cylinders=cylinders), geometry=SimpleNamespace(cylinders=cylinders),
        verdict=SimpleNamespace(odds=odds, ends_first=ends),
    )  # fmt: skip


@pytest.fixture(autouse=True)
def strongest(monkeypatch):
    monkeypatch.setattr(pairs, "strongest", lambda of: of.points[0])


def column(letter, of, mass=None, engine=None):
    return Column(letter, f"engine {letter}", engine, of, mass)


def test_a_number_has_moved_beyond_a_hundredth_of_the_larger():
    """0.12 of 2.06 has; 1 of 105.5 has not, less than 1.055, and 1.1 of it has."""
    assert _moved(1.94, 2.06, more_is="better") == "better"
    assert _moved(2.06, 1.94, more_is="better") == "worse"
    assert _moved(1.94, 2.06, more_is="worse") == "worse"
    assert _moved(104.5, 105.5, more_is="better") == "alike"
    assert _moved(104.4, 105.5, more_is="better") == "better"
    assert _moved(1.01, 1.04, more_is="better") == "alike"  # both are told as 1


def test_a_limit_comes_later_by_more_than_three_hundredths():
    """Three hundredths of 97.4 are 2.922: 2.8 is less, 3 is more."""
    assert _later(94.6, 97.4) == "alike"
    assert _later(94.4, 97.4) == "better"
    assert _later(97.4, 94.4) == "worse"
    assert (_later(9.0, None), _later(None, 9.0), _later(None, None)) == (
        "better", "worse", "alike"
    )  # fmt: skip


def test_each_way_is_held_against_the_same_way_where_it_is_worst():
    """Worst first; what is only told and what is a temperature's is left out."""
    before = result(
        margin("rod.tears", 1.2, "marginal"), margin("rod.tears", 3.0), margin("pin.bends", 2.0),
        margin("old.goes", 0.8, "fails"), margin("old.bends", 0.6, "fails"),
        margin("head.lifts", 1.5), margin("rod.told", 0.1, reported=True), margin("x.y", None),
    )  # fmt: skip
    after = result(
        margin("rod.tears", 1.3), margin("pin.bends", 1.0), margin("head.lifts", 1.504),
        margin("new.goes", 0.7, "fails"), margin("new.bends", 0.5, "fails"),
    )  # fmt: skip
    first, second = column("A", before), column("B", after)
    found = pair(first, second)
    assert (found.before, found.after) == (first, second)
    assert [(one.name, one.sense, one.before.factor, one.after.factor) for one in found.shifts] == [
        ("pin bends", "worse", 2.0, 1.0), ("rod tears", "better", 1.2, 1.3)
    ]  # fmt: skip
    assert [(one.name, one.before) for one in found.new] == [
        ("new bends", None),
        ("new goes", None),
    ]
    assert [(one.name, one.after) for one in found.gone] == [
        ("old bends", None),
        ("old goes", None),
    ]
    back = pair(second, first)
    assert [(one.name, one.sense) for one in back.shifts] == [
        ("pin bends", "better"), ("rod tears", "worse")
    ]  # fmt: skip


def test_cylinders_are_told_apart_where_both_engines_have_as_many():
    """Two against one: the worst of two, whichever; two against two: each by itself."""
    twin = result(margin("rod.tears", 3.0), margin("rod.tears#2", 2.0), moving=(0.1, 0.2))
    single = result(margin("rod.tears", 1.0))
    (shift,) = pair(column("A", twin), column("B", single)).shifts
    assert (shift.id, shift.name, shift.before.factor) == ("rod.tears", "rod tears", 2.0)
    other = result(margin("rod.tears", 3.0), margin("rod.tears#2", 1.0), moving=(0.1, 0.2))
    (shift,) = pair(column("A", twin), column("B", other)).shifts
    assert (shift.id, shift.name) == ("rod.tears#2", "rod of cylinder 2 tears")
    assert pair(column("A", twin), column("B", other)).new == ()


def test_figures_go_from_the_first_engine_to_the_second():
    """Power up, the peak of a fired cycle up, odds down, the heavier piston lighter, prints too."""
    ends, later = limit("rod.tears", 10.0), limit("rod.tears", 20.0)
    before = result(ends=ends, power=1000.0, odds=0.9, moving=(0.1, 0.3), strong=30e5)
    after = result(ends=later, power=1200.0, odds=0.8, moving=(0.2, 0.1), strong=40e5)
    found = pair(column("A", before, 0.5), column("B", after, 0.4)).figures
    assert [(one.id, one.before, one.after, one.unit, one.sense) for one in found] == [
        ("run_time", 10.0, 20.0, "s", "better"), ("power", 1000.0, 1200.0, "W", "better"),
        ("peak_pressure", 30e5, 40e5, "Pa", "worse"), ("odds", 0.9, 0.8, "", "worse"),
        ("moving_mass", 0.3, 0.2, "kg", "better"), ("printed_mass", 0.5, 0.4, "kg", "better"),
    ]  # fmt: skip
    assert (found[0].before_span, found[0].after_span) == ((5.0, 20.0), (10.0, 40.0))
    assert len(pair(column("A", before), column("B", after, 0.4)).figures) == 5


def test_clocks_are_of_ways_that_both_engines_have_and_soonest_first():
    """One later, one never any more, one sooner; another that the second hasn't is left out."""
    idents = ("rod.tears", "pin.bends", "head.lifts")
    both = [margin(ident, 2.0) for ident in idents]
    before = result(
        *both, margin("old.goes", 2.0),
        limits=(
            limit("old.goes", 1.0), limit("told.skin", 2.0, reported=True),
            limit("rod.tears", 30.0), limit("rod.tears", 90.0), limit("pin.bends", 50.0),
            limit("head.lifts", 20.0),
        ),
    )  # fmt: skip
    after = result(*both, limits=(limit("head.lifts", 10.0), limit("rod.tears", 40.0)))
    found = pair(column("A", before), column("B", after)).clocks
    assert [(one.name, one.before, one.after, one.sense) for one in found] == [
        ("head lifts", 20.0, 10.0, "worse"), ("rod tears", 30.0, 40.0, "better"),
        ("pin bends", 50.0, None, "better"),
    ]  # fmt: skip
    assert (found[0].before_span, found[0].after_span) == ((10.0, 40.0), (5.0, 20.0))
    assert found[2].after_span is None


# Several, checked one after the other.
@dataclass(frozen=True)
class Checked:
    of: str
    engine: Any


@pytest.fixture
def checked(monkeypatch):
    """Each engine is a name; of two with the same first letter one check does."""
    seen = SimpleNamespace(checks=[], ends=None)

    def check(engine, *, stop, on_progress):
        if engine == seen.ends:
            raise Stopped("enough", "part of it")
        seen.checks.append(engine)
        on_progress("idle", 0.5)
        on_progress("", 1.5)
        return Checked(engine, None)

    monkeypatch.setattr(comparing, "check", check)
    monkeypatch.setattr(comparing, "_same_words", lambda a, b: a[0] == b[0])
    monkeypatch.setattr(comparing, "side_by_side", lambda columns: columns)
    return seen


ENGINES = [("one", "plain"), ("two", "other"), ("three", "plainer")]


def test_engines_are_checked_one_after_the_other_and_like_ones_once(checked):
    """Half of the second of three is half of one and a half: 0.5."""
    told = []
    found = comparing.compare(
        ENGINES, printed_masses=[1.0, 2.0, 3.0], on_progress=lambda *one: told.append(one)
    )
    assert checked.checks == ["plain", "other"]
    assert [(one.letter, one.label, one.engine, one.printed_mass) for one in found] == [
        ("A", "one", "plain", 1.0), ("B", "two", "other", 2.0), ("C", "three", "plainer", 3.0)
    ]  # fmt: skip
    assert [(one.result.of, one.result.engine) for one in found] == [
        ("plain", "plain"), ("other", "other"), ("plain", "plainer")
    ]  # fmt: skip
    assert [words for words, _ in told] == ["one: idle", "one", "two: idle", "two"]
    assert [share for _, share in told] == pytest.approx([0.5 / 3, 1 / 3, 1.5 / 3, 2 / 3])


def test_a_comparison_that_is_stopped_hands_back_what_is_finished(checked):
    """Of one its result; of two both; of none what the first had finished."""
    four = [*ENGINES[:2], ("four", "last")]
    for ends, told in (("last", ["one", "two"]), ("other", "plain"), ("plain", "part of it")):
        checked.ends = ends
        with pytest.raises(Stopped) as halted:
            comparing.compare(four, on_progress=lambda *_: None)
        partial = halted.value.partial
        if ends == "last":
            partial = [one.label for one in partial]
        assert (partial.of if ends == "other" else partial) == told


def test_the_first_is_held_against_each_other(monkeypatch):
    monkeypatch.setattr(comparing, "differences", lambda engines, plains: (*engines, *plains))
    monkeypatch.setattr(comparing, "pair", lambda first, other: (first.letter, other.letter))
    columns = [
        column(letter, SimpleNamespace(plain=f"plain {letter}"), engine=f"engine {letter}")
        for letter in "ABC"
    ]
    found = comparing.side_by_side(columns)
    assert found.pairs == (("A", "B"), ("A", "C"))
    assert found.differences == tuple(f"{what} {x}" for what in ("engine", "plain") for x in "ABC")


# What is of metal.
@dataclass(frozen=True)
class Hours:
    si: float
    si_low: float
    si_high: float


class Row(dict):
    texts = {"parts": "bar stock"}  # noqa: RUF012


class Catalog:
    def row(self, kind, key):
        assert (kind, key[:5]) == ("effort", "metal") or key == "turned_piston"
        return Row(hand_hours=Hours(3600.0, 1800.0, 7200.0))


def engine_of(piston, made="printed", wheel=0.01, **more):
    """Two cylinders with pistons of a material, all else of plastic."""
    part = SimpleNamespace(material="pla", made="printed")
    one = SimpleNamespace(
        piston=SimpleNamespace(material=piston, made=made), rod=part, liner=part, body=part,
        pin=part, head=part,
    )  # fmt: skip
    plain = {
        "cylinders": [one, one], "materials": {"pla": "plastic", "steel": "metal"},
        "crank": SimpleNamespace(
            material="pla", made="printed", crankpin_material="pla", built="pressed",
            journal=part,
        ),
        "case": part, "flywheel": SimpleNamespace(material="pla", thickness=wheel),
        "cam_drive": SimpleNamespace(wheel_material="pla"), **more,
    }  # fmt: skip
    return SimpleNamespace(**plain)


@pytest.fixture
def plastic(monkeypatch):
    monkeypatch.setattr(metals, "is_metal", lambda material: material == "metal")

    def differences(engines, plains):
        assert [one.name for one in engines] == ["plastic", "metal"]
        assert [one.cylinders[0].piston.material for one in plains] == ["pla", "steel"]
        paths = ("piston.material", "cylinders.2.piston.material", "rod.length", "x.follows")
        return [SimpleNamespace(path=path, own=path != "x.follows") for path in paths]

    monkeypatch.setattr(metals, "differences", differences)

    def of(piston, name, **more):
        engine = SimpleNamespace(name=name, catalog=Catalog())
        return Column("A", name, engine, SimpleNamespace(plain=engine_of(piston, **more)))

    return of


def test_a_metal_part_costs_its_hours_for_each_cylinder(plastic):
    """Two pistons of an hour, from a half to two: 2, 1 and 4 h; the rod's length is besides."""
    one, other = plastic("steel", "metal"), plastic("pla", "plastic")
    for both in ((one, other), (other, one)):
        (found,) = metals.metal(SimpleNamespace(before=both[0], after=both[1]))
        assert (found.metal, found.other, found.printed, found.besides) == (one, other, True, 1)
        (cost,) = found.costs
        assert (cost.part, cost.pieces, cost.parts) == ("piston", 2, "bar stock")
        assert (cost.seconds, cost.seconds_low, cost.seconds_high) == (7200.0, 3600.0, 14400.0)
    milled = plastic("pla", "plastic", made="milled")
    (found,) = metals.metal(SimpleNamespace(before=milled, after=one))
    assert not found.printed


def test_a_flywheel_counts_where_both_have_one(plastic, monkeypatch):
    steel = SimpleNamespace(material="steel", thickness=0.01)
    monkeypatch.setattr(metals, "differences", lambda *_: [])
    one = plastic("pla", "metal", flywheel=steel)
    with_one, without = plastic("pla", "plastic"), plastic("pla", "plastic", wheel=0.0)
    (found,) = metals.metal(SimpleNamespace(before=with_one, after=one))
    assert [cost.part for cost in found.costs] == ["flywheel"]
    assert metals.metal(SimpleNamespace(before=without, after=one)) == ()
