"""The search for the least work that makes an engine hold, over odds that are added by hand.

Of a made-up engine 10 of 100 hold; a change adds its own hundredths, whatever else is changed.
"""

from __future__ import annotations

from types import SimpleNamespace

import pytest

from firstfire.engine.records import Raise, Way
from firstfire.errors import CatalogError, FirstfireError, Stopped
from firstfire.verdict.facts.margin import Margin, Raised
from firstfire.verdict.facts.over_life import Tried
from firstfire.verdict.improve import improve as searching
from firstfire.verdict.improve import limits
from firstfire.verdict.improve.improve import Step, _left, _Search, improve
from firstfire.verdict.improve.limits import Allowed, allowed

STOP, EVENTS = object(), ("events",)


def change(name):
    return Raise(f"do {name}", {f"rod.{name}": "1"}, name)


def margin(*offered, ident="rod.tear", factor=0.5, **more):
    way = Way(
        ident, "rod", "tears", 100.0, 100.0 * factor, "N", False, "section", None, "", "",
        raise_by=offered,
    )  # fmt: skip
    parts = {"word": "fails", "survival": 0.1, "ends": 0.5, **more}
    return Margin(way, "full_throttle", "full", 1.0, factor, None, None, depends_on=(), **parts)


@pytest.fixture
def made_up(monkeypatch):
    """An engine whose changes add to its odds; hours by the effort, which is the change's name."""
    seen = SimpleNamespace(adds={}, in_full={}, hours={}, asked=[], told=[], full=[])

    def odds(made, adds):
        return 0.1 + sum(adds[path.removeprefix("rod.")] for path in made)

    def with_values(engine, values, *, origin):
        assert (engine.made, origin) == ({}, "made to hold")
        return SimpleNamespace(name="changed", made=values)

    def check(engine, *, only, changes, stop, on_progress):
        assert (only, changes, stop) == (None, False, STOP)
        on_progress("idle", 0.5)
        seen.full.append(sorted(engine.made))
        now = odds(engine.made, seen.in_full or seen.adds)
        return SimpleNamespace(
            engine=engine, events=EVENTS, margins=seen.margins, verdict=SimpleNamespace(odds=now)
        )

    def over_life(engine, events, changes, stop):
        assert (events, stop) == (EVENTS, None)
        seen.asked.append((engine.name, sorted(changes)))
        now = odds({**engine.made, **changes}, seen.adds)
        raised = tuple(margin(*one.way.raise_by, factor=2 * now) for one in seen.margins)
        return Tried(raised, now, now - 1.0)

    def judged_over_life(events, margins):
        assert (events, margins) == (EVENTS, seen.margins)
        now = odds(seen.at.made, seen.adds)
        return Tried(tuple(margins), now, now - 1.0)

    def raised_by(engine, change, factor, after):
        assert (engine, after) == (seen.at, "")
        return Raised(change.text, change.set, factor, "", 0.0, seen.hours[change.effort], "")

    seen.at = SimpleNamespace(name="plain", made={})
    for name, gives in {
        "check": check, "over_life": over_life, "judged_over_life": judged_over_life,
        "raised_by": raised_by, "work": lambda one: one.hand_hours, "with_values": with_values,
        "shared_out": lambda work, count, **_: [work(at) for at in range(count)],
    }.items():  # fmt: skip
        monkeypatch.setattr(searching, name, gives)
    return seen


def test_what_gains_most_for_its_work_is_made_and_what_is_not_needed_taken_back(
    made_up, monkeypatch
):
    """20, 15 and 40 hundredths for half an hour, one and four: 40, 15 and 10 an hour.

    10, 30, 45, 85 of 100, of which 64 are asked. Without the first 65 are left, without the second
    70, without both 50: the second goes, of an hour, and not the first, of a half.
    """
    made_up.adds = {"a": 0.2, "b": 0.15, "c": 0.4}
    made_up.hours = {"a": 0.5, "b": 1.0, "c": 4.0}
    made_up.margins = [margin(*map(change, "cba"))]

    def on_the_way(engine, before, after, sets, stop):
        assert (engine, stop) == (made_up.at, STOP)
        assert (before.verdict.odds, after.verdict.odds) == pytest.approx((0.1, 0.7))
        assert sets == [{"rod.a": "1"}, {"rod.c": "1"}]
        return [(1, 0.5), (0, 0.7)]

    monkeypatch.setattr(searching, "on_the_way", on_the_way)
    told = []
    found = improve(
        made_up.at, target=0.64, stop=STOP, on_progress=lambda *one: told.append(one)
    )  # fmt: skip
    assert [one.change.text for one in found.steps] == ["do c", "do a"]
    assert [one.odds_before for one in found.steps] == pytest.approx([0.1, 0.5])
    assert [one.odds_after for one in found.steps] == pytest.approx([0.5, 0.7])
    # Told with twice the odds as its factor: 0.85 and 0.3 in the order they were made.
    assert [one.change.factor_after for one in found.steps] == pytest.approx([1.7, 0.6])
    assert found.changes == found.engine.made == {"rod.a": "1", "rod.c": "1"}
    assert (found.target, found.left, found.stopped) == (0.64, (), False)
    assert found.before.verdict.odds == pytest.approx(0.1)
    assert found.after.verdict.odds == pytest.approx(0.7)
    assert made_up.asked == [
        ("plain", one)
        for one in (
            ["rod.c"], ["rod.b"], ["rod.a"], ["rod.a", "rod.c"], ["rod.a", "rod.b"],
            ["rod.a", "rod.b", "rod.c"],  # the third step
            ["rod.b", "rod.c"], ["rod.a", "rod.c"], ["rod.a", "rod.b"],
            ["rod.a", "rod.b", "rod.c"],  # each taken back
            ["rod.a", "rod.c"], ["rod.c"],  # the second; then the first besides
            ["rod.c"], ["rod.a"], ["rod.a", "rod.c"],  # once more after a full check
        )
    ]  # fmt: skip
    # Checked in full at first, with both, and without either.
    assert made_up.full == [[], ["rod.a", "rod.c"], ["rod.a"], ["rod.c"]]
    assert told[:2] == [("step 1, checked in full: idle", 0.0), ("step 1, trying 3 changes", 0.1)]


@pytest.mark.parametrize(("adds", "why"), [(0.003, "was tried and helps nothing"), (0.005, "")])
def test_a_change_is_made_where_its_score_gains_more_than_four_thousandths(made_up, adds, why):
    made_up.adds, made_up.hours = {"a": adds}, {"a": 1.0}
    made_up.margins = [margin(change("a"))]
    found = improve(made_up.at, target=0.9, stop=STOP)
    assert [one.change.text for one in found.steps] == (["do a"] if why == "" else [])
    (left,) = found.left
    assert left.margin is made_up.margins[0]
    assert why in left.why
    assert (found.after is None) is (why != "")


def step(name, hours):
    raised = Raised(f"do {name}", {f"rod.{name}": "1"}, 1.0, "", 0.0, hours, "")
    return Step(margin(change(name)), raised, 0.0, 0.0)


def test_the_most_work_is_first_left_out_of_a_full_check(made_up):
    """Either is enough in full: 10 + 60 and 10 + 70 of 100, of which 65 are asked."""
    made_up.in_full, made_up.margins = {"a": 0.6, "b": 0.7}, []
    search = _Search(made_up.at, 0.65, Allowed(), None, STOP, None)
    cheap, dear = step("a", 1.0), step("b", 3.0)
    search.steps = [cheap, dear]
    search.checked = search.full(search.changed)
    search._spared_in_full()
    assert search.steps == [cheap]
    assert search.taken_back
    assert search.odds == pytest.approx(0.7)
    search.steps = [cheap, dear]
    search.target = 0.75
    search.checked = search.full(search.changed)
    search._spared_in_full()
    assert search.steps == [dear]


def test_a_search_that_is_stopped_keeps_its_steps(made_up, monkeypatch):
    made_up.adds, made_up.hours = {"a": 0.2}, {"a": 1.0}
    made_up.margins = [margin(change("a"))]
    once = searching.check

    def check(engine, **named):
        if engine.made:
            raise Stopped("enough")
        return once(engine, **named)

    monkeypatch.setattr(searching, "check", check)
    found = improve(made_up.at, target=0.9, stop=STOP)
    assert [one.odds_after for one in found.steps] == pytest.approx([0.3])
    assert (found.after, found.left, found.stopped) == (None, (), True)


def test_what_is_left_is_told_with_its_reason():
    """Each way once, if it fails, is marginal or ends one in a hundred."""
    a, b = change("a"), change("b")
    margins = [
        margin(a, ident="rod.tear#2"), margin(ident="rod.tear"), margin(ident="pin.bend"),
        margin(b, ident="body.burst", word="holds", ends=0.009),
        margin(b, ident="head.lift", word="holds", ends=0.01), margin(ident="x", ends=None),
        margin(a, b, ident="crank.shear"),
    ]  # fmt: skip
    kept = Allowed(keep=("rod.b",))
    key = repr([("rod.a", "1")])
    told = _left(SimpleNamespace(margins=margins), {key}, kept)
    assert [one.margin.way.id for one in told] == [
        "rod.tear#2", "pin.bend", "head.lift", "crank.shear"
    ]  # fmt: skip
    assert [one.why.partition(" ")[0] for one in told] == ["the", "no", "every", "the"]


# What may be changed.
def test_a_kept_section_stays_and_only_what_one_has_goes_in():
    """A kept word is part of the path, not the path of it."""
    kept = Allowed(keep=("crank", "bore"), have={"material": frozenset({"pla"})})
    assert not kept.allows({"crank.joint.kind": "spline"})
    assert not kept.allows({"cylinder.bore": "30 mm"})
    assert kept.allows({"rod.material": "pla", "rod.length": "80 mm"})
    assert not kept.allows({"rod.material": "petg"})


class Rows:
    """A catalog with two plastics and a screw."""

    keys = (("material", "pla"), ("material", "petg"), ("fastener", "m5"))

    def row(self, kind, word):
        if (kind, word) not in self.keys:
            raise CatalogError(word)
        return SimpleNamespace(key=word)

    def rows(self, kind):
        return [SimpleNamespace(key=key) for of, key in self.keys if of == kind]


def test_words_are_looked_up_in_the_file_and_in_the_catalog(monkeypatch):
    monkeypatch.setattr(limits, "kinds", lambda: ("material", "fastener"))
    found = allowed(["crank, bore"], ["pla", "m5,petg"], Rows())
    rows = {"material": frozenset({"pla", "petg"}), "fastener": frozenset({"m5"})}
    assert found == Allowed(("crank", "bore"), rows)
    with pytest.raises(FirstfireError) as refused:
        allowed(["boree"], ["petgg"], Rows())
    path, row = str(refused.value).splitlines()
    assert path.startswith('--keep "boree" is nothing that an engine file says. Nearest: bore')
    assert row == '--have "petgg" is nothing the catalog has. Nearest: petg.'
