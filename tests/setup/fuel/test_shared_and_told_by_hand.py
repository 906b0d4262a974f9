"""How one injector's fuel is parted, and what is told of an engine's fuel, by hand."""

from __future__ import annotations

import math
from types import SimpleNamespace

import pytest

import firstfire as ff
from firstfire.engine.read import with_values
from firstfire.engine.resolve import resolve
from firstfire.formulas.shared_feed import Draw
from firstfire.setup.fuel import shared, text, words
from firstfire.setup.fuel.chapter import fuel_told
from firstfire.setup.fuel.cold import ColdFacts, Density, Times
from firstfire.setup.fuel.feed import FeedFacts
from firstfire.setup.fuel.injector import InjectorFacts, Pulse
from firstfire.setup.fuel.liquid import Liquid
from firstfire.setup.fuel.mixer import Drawing, MixerFacts
from firstfire.setup.fuel.shared import Feeding
from firstfire.verdict.numbers import THIN

TURN = 2.0 * math.pi


def test_timed_pulses_end_where_they_arrive(monkeypatch):
    """2 and 3 mg at 1 g/s are 2 and 3 ms: at 500 rad/s 1 and 1.5 rad before 6 and 9."""
    asked = {}

    def mixtures(draws, begins, lasts):
        asked["timed"] = draws, begins, lasts
        return (1.0, 1.0)

    def untimed(draws, whole):
        asked["untimed"] = draws, whole
        return (0.5, 1.5)

    monkeypatch.setattr(shared, "_window", lambda plain, row: (plain, row))
    monkeypatch.setattr(shared, "_mixtures", mixtures)
    monkeypatch.setattr(shared, "_untimed", untimed)
    at = SimpleNamespace(air=(4e-5, 5e-5), fuel=(2e-6, 3e-6), speed=500.0)
    found = shared.feeding("plain", at, (6.0, 9.0), 1e-3)
    draws = [Draw("plain", 0, 4e-5), Draw("plain", 1, 5e-5)]
    assert asked["timed"] == (draws, pytest.approx([5.0, 7.5]), pytest.approx([1.0, 1.5]))
    assert asked["untimed"] == (draws, pytest.approx(2.5))
    assert found == Feeding((1.0, 1.0), (0.5, 1.5), False)


def test_a_cylinder_draws_while_its_inlet_is_open_or_by_suction_half_a_turn(monkeypatch):
    """The second fires 3 rad after the first."""
    inlet = SimpleNamespace(opens=6.0, duration=4.0)
    monkeypatch.setattr(shared, "firing_angles", lambda _: (0.0, 3.0))
    monkeypatch.setattr(shared, "spans", lambda parts: parts)
    plain = SimpleNamespace(cylinders=({"inlet": inlet}, {"inlet": inlet}))
    assert shared._window(plain, 1) == pytest.approx((9.0, 4.0))
    sucked = SimpleNamespace(cylinders=({}, {}))
    assert shared._window(sucked, 1) == pytest.approx((TURN + 3.0, math.pi))


def test_mixtures_are_fuel_over_air_against_the_mean(monkeypatch):
    """A pulse of 2 is halved, one of 6 goes by quarters: 2.5 and 5.5 to airs of 1 and 3.

    All of it is 8 over 4, so 2: 1.25 and 5.5/6.
    """
    parted = {(1.0, 2.0): (0.5, 0.5), (2.0, 6.0): (0.25, 0.75)}
    monkeypatch.setattr(shared, "shares", lambda begin, long, _: parted[begin, long])
    draws = [Draw(0.0, 1.0, 1.0), Draw(3.0, 1.0, 3.0)]
    assert shared._mixtures(draws, [1.0, 2.0], [2.0, 6.0]) == pytest.approx((1.25, 5.5 / 6))


def test_pulses_that_nobody_times_are_tried_at_36_places_of_a_turn(monkeypatch):
    asked = []

    def mixtures(_draws, begins, lasts):
        asked.append((begins, lasts))
        return (begins[0], 1.0)

    monkeypatch.setattr(shared, "_mixtures", mixtures)
    low, high = shared._untimed([], 3.0)
    assert (low, high) == pytest.approx((0.0, TURN * 35 / 36))
    assert len(asked) == 36
    assert asked[9] == (pytest.approx([TURN / 4, TURN * 5 / 4]), pytest.approx([1.5, 1.5]))


@pytest.mark.parametrize(
    ("ends", "lasts", "over"),
    [
        ((1.0, 4.0), (1.0, 2.9), False),  # 3 rad lie between
        ((1.0, 4.0), (1.0, 3.1), True),
        ((4.0, 1.0), (3.1, 1.0), True),
        ((1.0, 4.0), (9.5, 1.0), False),  # and 4π - 3 = 9.57 from the second to the first
        ((1.0, 4.0), (9.6, 1.0), True),
        ((1.0,), (12.5,), False),  # 4π are 12.57
        ((1.0,), (12.6,), True),
    ],
)
def test_a_pulse_must_be_over_when_the_next_begins(ends, lasts, over):
    assert shared._overlap(ends, lasts) is over


@pytest.mark.parametrize(("timed", "uneven"), [((0.94, 1.0), True), ((0.96, 1.04), False)])
def test_a_twentieth_off_is_uneven(timed, uneven):
    assert Feeding(timed, (0.0, 2.0), False).uneven is uneven


@pytest.mark.parametrize(
    ("share", "said"),
    [
        (1.03, "3 % rich"),
        (0.97, "3 % lean"),
        (1.004, "right"),
        (0.996, "right"),
        (1.2, "20 % rich"),
    ],
)
def test_a_share_is_said_in_per_cent(share, said):
    assert words.mixed(share) == said


def pulse(kind="full", air=(4e-5, 6e-5), feeding=None, **put):
    at = SimpleNamespace(air=air, fuel=(2e-6, 3e-6), air_flow=3.21e-3)
    told = {
        "over": 3e5, "flow": 1e-3, "dead_time": 1e-3, "times": (3e-3, 4e-3), "low": 2.9e-3,
        "high": 3.1e-3, "duty": 0.35, "ends": (5.0, 9.0), "own_ends": (math.pi, TURN), **put,
    }  # fmt: skip
    point = SimpleNamespace(kind=kind, name=f"at {kind}", at=at)
    return Pulse(point, feeding=feeding, **told)


def injects(*pulses):
    return InjectorFacts(False, 2, 1.49e-3, 0.745e-3, 2.98e-3, None, 9.75, pulses, False)


def test_equal_pulses_are_rich_where_less_is_drawn():
    """40 and 60 mg of 50 on average: 5/4 and 5/6 of the mixture; 49 and 51 pass without a word."""
    (said,) = words.breathing_words(injects(pulse("cranking", (1e-5, 9e-5)), pulse()))
    assert "at at full: with equal pulses cylinder 1 25 % rich, cylinder 2 17 % lean." in said
    assert not list(words.breathing_words(injects(pulse(air=(4.9e-5, 5.1e-5)))))
    assert words._unlike(pulse(air=(4e-5, 6e-5))) == pytest.approx(0.2)
    assert words._unlike(pulse(air=(1e-5, 1e-5, 4e-5))) == pytest.approx(1.0)


def test_where_it_feeds_worst_is_told():
    """0.9 is further off than 1.06; the untimed span is over all points."""
    good = pulse("idle", feeding=Feeding((1.06, 0.94), (0.8, 1.3), False))
    bad = pulse("full", feeding=Feeding((0.9, 1.05), (0.9, 1.6), False))
    first, then = words.feeding_words(injects(good, bad))
    assert "unevenly at at full" in first
    assert "cylinder 1 10 % lean, cylinder 2 5 % rich" in first
    assert "0.8 to 1.6 times" in then
    assert not list(words.feeding_words(injects(pulse())))


COLD = ColdFacts(
    (Times(263.15, None), Times(303.15, 1.5)), (), (Density(283.15, 1.035),), 0.0125,
    None, None, None,
)  # fmt: skip


def feeds(**put):
    none = dict.fromkeys(FeedFacts.__dataclass_fields__)
    told = {"most": 1e-6, "throttle": 10e-3, "throttle_speed": 60.0, "throttle_narrow": 5e-3,
            "throttle_wide": 20e-3, "cleaner_area": 1e-3, **put}  # fmt: skip
    return FeedFacts(**{**none, **told})


def told_of(injector=None, mixer=None, **put):
    by = {"intake.mixture_by": "carburettor" if injector is None else "injector"}
    engine = with_values(ff.read("engines/wren.toml"), by)
    return SimpleNamespace(
        engine=engine, plain=resolve(engine), fuel=Liquid("petrol", False, 745.0, 0.6e-6, 350e3),
        points=SimpleNamespace(idle=None, why_no_idle="It can't idle."), injector=injector,
        mixer=mixer, feed=feeds(**put), cold=COLD, faults=(),
    )  # fmt: skip


def rows_of(found, width=80):
    """Each line of the text, its thin spaces as plain ones."""
    return [line.replace(THIN, " ") for line in text.fuel_text(found, width=width).split("\n")]


def test_an_injectors_text_says_flows_in_cubic_centimetres_a_minute():
    """1.49 g/s of 745 kg/m³ are 2 cm³/s, 120 a minute; half and twice of that are wanted."""
    lines = rows_of(told_of(injects(pulse("cranking"), pulse())), 200)
    flow = next(line for line in lines if line.startswith("  Flow held open"))
    assert flow[28:].startswith("120 cm³/min of petrol at ")
    wanted = next(line for line in lines if line.startswith("  Flow wanted"))
    assert wanted[28:].startswith("at least 60 cm³/min for power (on for 85 % of the cycle), ")
    assert wanted.endswith("at most 240 to repeat at idle")
    dead = next(line for line in lines if line.startswith("  Dead time"))
    assert dead[28:].startswith("1000 µs at ")
    assert dead.endswith(", 1000 at 9.75 cranked")


def test_an_injectors_rows_stand_in_columns():
    """2 mg in 3000 µs, 35 % of the cycle, ending 180° after its own top; the second at 360°."""
    lines = rows_of(told_of(injects(pulse())))
    place = next(n for n, line in enumerate(lines) if line.startswith("  at full"))
    head = lines[place - 2]
    assert lines[place] == f"  {'at full':<26}{'2':>7}{'3000':>8}{'2900-3100':>14}{'35':>6}   180°"
    assert lines[place + 1] == f"  {'  cylinder 2':<26}{'3':>7}{'4000':>8}{'':>14}{'':>6}   360°"
    for word, ends in (("fuel", 35), ("pulse", 43), ("span", 57), ("duty", 63)):
        assert head.index(word) + len(word) == ends
    assert max(map(len, lines)) <= 80


DRAWING = Drawing(
    SimpleNamespace(kind="full", name="full", at=SimpleNamespace(air_flow=3.21e-3)),
    77.0, 800.0, 1.5, 0.444e-3, 1.05,
)  # fmt: skip


def mixes(*drawings):
    return MixerFacts(
        False, 1, 10e-3, 8e-3, 14e-3, 0.5e-3, 0.49e-3, 0.51e-3, 0.5e-3, 0.3e-3, 0.3e-3, drawings
    )


def test_a_venturis_text():
    """10 mm are π/4 of 100 mm², 78.5; 3.21 g/s stand under air, to the right of their column."""
    lines = rows_of(told_of(mixer=mixes(DRAWING)))
    assert "  Venturi                   10 mm (78.5 mm^2); from 8 mm to 14 mm would do".replace(
        "^2", "²"
    ) in [line.replace("^2", "²") for line in lines]
    row = next(line for line in lines if line.startswith("  full "))
    assert row == f"  {'full':<28}{'3.21':>7}{'77':>8}{'1.5':>8}{'0.44':>8}{'1.05':>9}"
    assert max(map(len, lines)) <= 80
    assert "Idle jet not judged: It can't idle." in " ".join(lines)


def test_a_feeds_text_is_in_minutes_and_whole_millimetres():
    lines = rows_of(
        told_of(mixer=mixes(DRAWING), tank_full=600.0, tank_idle=3000.0, head_wanted=0.0321)
    )
    tank = next(line for line in lines if line.startswith("  A full tank"))
    assert tank.endswith("10 min at full power, 50 at idle")
    head = next(line for line in lines if line.startswith("  Head"))
    assert head.endswith("33 mm at least. No pump")
    start = next(line for line in lines if line.startswith("  First charge"))
    assert start == "  First charge, times fuel  -10: over 4, 30: 1.50 °C"
    air = next(line for line in lines if line.startswith("  Air's density"))
    assert air == "  Air's density, times      10: 1.035 °C; +1.25 % a kPa"


def test_an_injectors_chapter_is_in_volumes_and_its_table_in_milligrams():
    """1.49 g/s of 745 kg/m³: 2 cm³/s, at least 1, at most 4."""
    idle = pulse("idle", times=(2e-3, 3e-3))
    chapter = fuel_told(told_of(injects(pulse(), idle)))
    power, steady = (next(one for one in chapter.numbers if one.id == ident)
                     for ident in ("flow_for_power", "flow_for_idle"))  # fmt: skip
    assert (power.value, power.limit, power.side) == (
        pytest.approx(2e-6), pytest.approx(1e-6), "at least",
    )  # fmt: skip
    assert (steady.value, steady.limit, steady.side) == (
        pytest.approx(2e-6), pytest.approx(4e-6), "at most",
    )  # fmt: skip
    assert "idle's fuel flows 1.00 ms" in steady.why
    rows = next(one for one in chapter.tables if one.caption == "Pulses").rows
    assert rows[:2] == (
        ("at full", "1", "2", "3000", "35 %", "180°"),
        ("at full", "2", "3", "4000", "35 %", "360°"),
    )
    bare = fuel_told(told_of(injects(pulse())))
    none = next(one for one in bare.numbers if one.id == "flow_for_idle")
    assert math.isnan(none.value)


def test_a_mixers_chapter_has_its_venturi_between_its_limits():
    chapter = fuel_told(told_of(mixer=mixes(DRAWING)))
    numbers = {one.id: one for one in chapter.numbers}
    assert (numbers["venturi"].value, numbers["venturi"].limit) == (10e-3, 8e-3)
    assert (numbers["venturi_widest"].value, numbers["venturi_widest"].limit) == (10e-3, 14e-3)
    assert (numbers["jet"].value, numbers["idle_jet"].value) == (0.5e-3, 0.3e-3)
    drawn = next(one for one in chapter.tables if one.caption.startswith("What the venturi"))
    assert drawn.rows == (("full", "77", "0.44", "1.05"),)


@pytest.mark.parametrize(
    ("count", "said"),
    [
        (0, "Nothing found that does not work. Every number is an estimate."),
        (1, "One thing does not work."),
        (3, "3 things do not work."),
    ],
)
def test_the_first_sentence_counts_what_does_not_work(count, said):
    found = told_of(mixer=mixes(DRAWING))
    found.faults = ("fault",) * count
    assert words.opening(found) == f"wren: petrol through a carburettor. {said}"


def test_cautions_name_the_fuel_valve_first_of_their_own():
    kept = [one.hazard for one in words.sheet_cautions(told_of(mixer=mixes(DRAWING)))]
    assert kept.index("fuel valve") < kept.index("priming")
    assert any(one.startswith("fuel: ") for one in kept)
