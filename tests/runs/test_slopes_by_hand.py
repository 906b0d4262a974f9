"""What each input does to a factor, and engines drawn from that, by round numbers."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from types import SimpleNamespace

import numpy as np
import pytest
from tests.loads.small_engines import gas_cycle

from firstfire.engine.unknowns import Unknown
from firstfire.formulas.normal import NINETY
from firstfire.runs import at, ensemble, one_by_one, run, spread, wholly
from firstfire.runs.drawn import MIXTURE_AT_START, SPEED, SPEED_SPREAD, Draw
from firstfire.runs.ensemble import Ensemble, Response, _worth_following
from firstfire.runs.fate import NEVER, Fate
from firstfire.runs.gas_change import BothWays, all_at_once
from firstfire.runs.one_by_one import crossing
from firstfire.runs.spread import FLOW, same_mechanism
from firstfire.runs.uneven import TURN, other_way, same_way, uneven

ONE = all_at_once([])


@dataclass(frozen=True)
class Figures:
    peak_pressure: float
    inlet_shut: float = 0.5
    spat_back: float = 0.1
    work: float = 10.0


@dataclass(frozen=True)
class Cycle:
    cylinders: tuple
    mean_gas_torque: float = 5.0
    state: str = "state"
    curves: object = None


@dataclass(frozen=True)
class Fired:
    cycle: Cycle
    burns: tuple = ("lit",)
    spec: str = "network"


@dataclass(frozen=True)
class Rubs:
    mean_torque: float
    rod_ends: tuple = ((1, 2), (3, 4))


@dataclass(frozen=True)
class Peak:
    mean: float
    strong: float
    rare: float


@dataclass(frozen=True)
class Point:
    event: str
    fired: Fired
    speed: float = 100.0
    spark: float | None = None
    peaks: tuple = (Peak(30.0, 34.0, 40.0), Peak(20.0, 24.0, 30.0))
    walls: tuple = ("one", "other")
    friction: Rubs = Rubs(2.0)
    name: str = "named"
    throttle: float | None = None


@dataclass(frozen=True)
class Bout:
    point: Point
    gases: tuple
    histories: tuple = ("one", "other")
    horizon: float = 0.0


def bout(event="cranking", cylinders=(Figures(30.0), Figures(20.0)), **point):
    return Bout(Point(event, Fired(Cycle(cylinders)), **point), (gas_cycle(2e5), gas_cycle(2e5)))


# Cylinders that are alike and don't breathe alike.
def twin(*cylinders):
    return SimpleNamespace(cylinders=cylinders or ("alike", "alike"))


def test_peaks_a_tenth_apart_are_uneven():
    assert uneven(twin(), (Figures(30.0), Figures(33.1)))
    assert not uneven(twin(), (Figures(30.0), Figures(32.9)))
    assert not uneven(twin("one", "other"), (Figures(30.0), Figures(60.0)))
    assert same_way((Figures(3.0), Figures(2.0)), (Figures(9.0), Figures(1.0)))
    assert not same_way((Figures(3.0), Figures(2.0)), (Figures(1.0), Figures(9.0)))


def test_turned_round_each_has_what_the_other_had():
    found = other_way(bout())
    assert found.histories == ("other", "one")
    assert found.point.walls == ("other", "one")
    assert [peak.mean for peak in found.point.peaks] == [20.0, 30.0]
    assert found.point.friction.rod_ends == ((3, 4), (1, 2))
    assert [one.peak_pressure for one in found.point.fired.cycle.cylinders] == [20.0, 30.0]


# An engine run wholly.
def test_a_drawn_engine_is_run_at_its_own_speed_from_the_centres_state(monkeypatch):
    """Two deviations quicker: 1.24² = 1.5376 times."""
    asked = []
    monkeypatch.setattr(wholly, "speed_again", lambda of, point, full: (of, point, full))
    monkeypatch.setattr(wholly, "bout_at", lambda *of, **more: asked.append((of, more)) or "run")
    centre, full = bout("first_fire"), bout("full_throttle")
    draw = Draw({TURN: -1.0, SPEED: 2.0}, {})
    assert wholly.wholly(twin(), "plain", centre, draw, [full, bout("idle")]) == "run"
    ((plain, event, speed, name), more) = asked[0]
    assert (plain, event, name) == ("plain", "first_fire", "named")
    assert speed == ("plain", centre.point, [full.point])
    assert more == {"start": "state", "quicker": pytest.approx(1.5376)}


def test_a_first_combustion_is_left_to_its_starter(monkeypatch):
    asked = {}
    monkeypatch.setattr(at, "first_fired", lambda *of, **more: asked.update(lit=(of, more)))
    monkeypatch.setattr(at, "spark_angle", lambda _, speed, starting: (speed, starting))
    monkeypatch.setattr(at, "held", lambda *of, **_: asked.update(held=of))
    at.bout_at("plain", "first_fire", 90.0, quicker=1.5)
    of, more = asked["lit"]
    assert of == ("plain", "")
    assert more == {"event": "first_fire", "quicker": 1.5, "stop": None}
    at.bout_at("plain", "full_throttle", 314.15927)
    assert asked["held"] == (
        "plain", "full_throttle", "full throttle 3000 rpm", 314.15927, (314.15927, False), 600.0
    )  # fmt: skip


# Slopes.
@pytest.mark.parametrize(
    ("after", "sign", "slope"),
    [(1.1, 1, math.log(1.1 / 2)), (4.0, -1, -math.log(2.0)), (0.0, 1, 0.0), (math.inf, 1, 0.0)],
)
def test_a_slope_is_of_the_logarithm(after, sign, slope):
    slopes = {"rod.tear": []}
    spread._note(slopes, {"rod.tear": 2.0}, {"rod.tear": after}, sign)
    assert slopes["rod.tear"] == [pytest.approx(slope)]


def test_what_is_not_judged_anew_has_no_slope():
    slopes = {"rod.tear": [], "pin.bend": []}
    spread._note(slopes, {"rod.tear": 2.0, "pin.bend": math.inf}, {"pin.bend": 1.0})
    assert slopes == {"rod.tear": [0.0], "pin.bend": [0.0]}


@pytest.mark.parametrize(
    ("path", "same"),
    [("doubt.flow", True), ("materials.petg.strength_in_plane", True), ("rod.length", False),
     ("materials.petg.density", False), ("liner.fit_interference", True),
     ("head.fasteners.torque", True), ("cylinders.2.valves.exhaust.seat_interference", True)],
)  # fmt: skip
def test_what_leaves_the_mechanism_as_it_is(path, same):
    assert same_mechanism(path) is same


def test_a_deviation_is_the_root_of_the_squares():
    """0.06 and 0.08, the latter of strength: 0.1; less than a hundredth tells nothing."""
    slopes = {"rod.tear": (-0.06, 0.08, 0.009)}
    one = spread.Spread(("a", "b", "c"), slopes, (1,))
    assert one.deviation("rod.tear") == pytest.approx(math.sqrt(0.01 + 0.009**2))
    assert one.strength_deviation("rod.tear") == pytest.approx(0.08)
    assert one.telling == {"rod.tear": (("b", 0.08), ("a", -0.06))}


@pytest.fixture
def centre(monkeypatch):
    """A bout of two cylinders at 4 s; each way's factor is told by what it was judged with."""
    held = replace(bout("full_throttle", spark=-0.3), horizon=600.0)
    plain = SimpleNamespace(cylinders=(1, 2))
    monkeypatch.setattr(spread, "judged_peak", lambda of, row, at: (of is held) * (30 + row + at))
    monkeypatch.setattr(spread, "loads_at", lambda of, engine, peaks: (of.point, engine, peaks))
    monkeypatch.setattr(spread, "temperatures", lambda of, row, at: (of.histories[row], at))
    monkeypatch.setattr(spread, "moment", lambda *to: to)
    monkeypatch.setattr(
        spread, "ways", lambda at: (SimpleNamespace(id=f"way {at[2]}", factor=at, judged=True),)
    )
    monkeypatch.setattr(spread, "readers", lambda _: {"materials.petg.modulus": (Judged(),)})
    monkeypatch.setattr(spread, "watched", lambda of, asked: asked.add("by walls") or of)
    monkeypatch.setattr(spread, "exhaust_changed", lambda *to: to)
    monkeypatch.setattr(spread, "warmed", lambda *to, **more: ((to, more), (to, more)))

    class Judged:
        def applies(self, _):
            return True

        def __call__(self, at):
            return SimpleNamespace(id=f"asked {at[2]}", factor=at, judged=True)

    return spread._Centre(held, plain, 4.0), held, plain


def test_an_input_is_judged_with_the_gas_as_it_changes_it(centre):
    """Peaks of 34 and 35 by 1.1, the speed by 0.9; the mechanism's loads under these."""
    at, held, _ = centre
    change = tuple(replace(ONE, peak=1.1, speed=0.9) for _ in range(2))
    for row, (of, engine, number, seconds, peaks, felt, warm) in enumerate(
        at.changed("moved", change).values()
    ):
        assert (engine, number, seconds) == ("moved", row, 4.0)
        assert peaks == pytest.approx([37.4, 38.5])
        assert of.point.speed == pytest.approx(90.0)
        assert felt == (of.point, "moved", peaks)
        assert warm == (held.histories[row], 4.0)
    _, _, _, _, peaks, felt, _ = at.changed("moved", None)["way 0"]
    assert (peaks, felt) == ([34.0, 35.0], at.felt)
    assert at.changed("moved", ())["way 0"][5] == (held.point, "moved", [34.0, 35.0])


def test_walls_are_warmed_anew_where_they_feel_it(centre):
    """To a quarter more than the second judged: 5 s; heat a deviation up where no gas has it."""
    at, held, _ = centre
    heat = Unknown("doubt.wall_heat", "lognormal", 1.0, 0.5, 2.0, "", "")
    found = at.moved(heat, "moved", None, None)
    (engine, point, gases, seconds), more = found["way 0"][6][0]
    assert (engine, point, gases, seconds) == ("moved", held.point, held.gases, 5.0)
    assert more["heat"] == pytest.approx(1.5241, rel=1e-4)
    assert more["exhausts"] == ("moved", held.point, ())
    change = tuple(replace(ONE, peak=1.1) for _ in range(2))
    with_gas = at.moved(heat, "moved", change, None)["way 1"][6][0][1]
    assert (with_gas["heat"], with_gas["exhausts"][2]) == (1.0, change)


def test_a_material_is_judged_by_those_who_ask_for_it(centre):
    at, _, _ = centre
    modulus = Unknown("materials.petg.modulus", "normal", 1.0, 0.5, 2.0, "", "")
    found = at.moved(modulus, "moved", None, None)
    assert list(found) == ["asked 0", "asked 1"]
    assert found["asked 1"][1:3] == ("moved", 1)
    flow = Unknown("rod.length", "normal", 1.0, 0.5, 2.0, "", "")
    assert at.moved(flow, "moved", None, None)["way 0"][5][1] == "moved"  # its mechanism too


def test_at_a_first_combustion_the_mixture_is_less_sure():
    mixture = Unknown("intake.equivalence_ratio", "normal", 1.05, 1.0, 1.1, "", "")
    assert spread._half(bout("first_fire"), mixture) == MIXTURE_AT_START
    assert spread._half(bout("cranking"), mixture) is None


def changed(monkeypatch, cylinders, *, event="cranking", spark=None, plain=None, **ways):
    """What an input does to the gas of two cylinders that peak at 30 and 20."""
    new = Fired(Cycle(cylinders))
    seen = []

    def runs(name, found):
        return lambda *of, **_: seen.append((name, *of)) or found

    monkeypatch.setattr(spread, "unfired_cycle", runs("turned", new))
    monkeypatch.setattr(spread, "burned_cycle", runs("held", new))
    gases = (replace(gas_cycle(4e5), speed=np.full(1441, 100 * math.pi)), gas_cycle(3e5))
    monkeypatch.setattr(spread, "gas_cycles", lambda point, of: gases if point.fired is new else of)
    lit = SimpleNamespace(point=replace(bout(event).point, fired=new), gases=gases)
    monkeypatch.setattr(
        spread, "first_fired", lambda *of, quicker, **_: seen.append(("lit", *of, quicker)) or lit
    )
    monkeypatch.setattr(
        spread, "exhaust_over",
        lambda *to, of=None: (1 + to[3], 1 + (to[3] if of is None else of)),
    )  # fmt: skip
    one = bout(event, spark=spark)
    found = spread._gas_change(one, 90.0, plain or twin("one", "other"), None)
    return found, seen, one.point


def test_a_change_of_the_gas_is_of_each_cylinders_own_peak_and_breath(monkeypatch):
    """33 over 30 and 15 over 20."""
    cylinders = (Figures(33.0, 0.7, 0.04), Figures(15.0, 0.4, 0.3))
    (first, second), seen, point = changed(monkeypatch, cylinders)
    assert (first.peak, second.peak) == pytest.approx((1.1, 0.75))
    assert (first.shut, second.shut) == pytest.approx((0.2, -0.1))
    assert (first.spat, second.spat) == pytest.approx((-0.06, 0.2))
    assert first.pressure == pytest.approx(np.full(721, 2.0))
    assert (first.exhaust, second.exhaust) == ((1, 1), (2, 2))
    assert seen == [("turned", twin("one", "other"), 90.0, point.walls)]


def test_lit_by_a_quicker_starter_and_held_with_the_points_own_spark(monkeypatch):
    cylinders, plain = (Figures(33.0), Figures(15.0)), twin("one", "other")
    _, seen, point = changed(monkeypatch, cylinders, event="first_fire", spark=-0.2)
    assert seen == [("lit", plain, point.name, pytest.approx(90.0 / point.speed))]
    _, seen, point = changed(monkeypatch, cylinders, event="full_throttle", spark=-0.3)
    assert seen == [("held", plain, "full_throttle", 90.0, -0.3, point.walls)]


def test_where_the_other_one_breathes_it_is_turned_round(monkeypatch):
    """Of twins alike that came to 15 and 33: the one that breathes is 33 over 30."""
    (first, second), _, _ = changed(monkeypatch, (Figures(15.0), Figures(33.0)), plain=twin())
    assert (first.peak, second.peak) == pytest.approx((1.1, 0.75))
    assert first.pressure == pytest.approx(np.full(721, 1.5))
    assert (first.exhaust, second.exhaust) == ((1, 2), (2, 1))


def test_a_quicker_first_combustion_is_of_one_deviation_each_way(monkeypatch):
    asked = []
    monkeypatch.setattr(spread, "_gas_change", lambda *of: asked.append(of[1:3]) or (ONE,))
    monkeypatch.setattr(spread, "shared_out", lambda work, count, **_: [*map(work, range(count))])
    trials = SimpleNamespace(centre="centre")
    found = spread._gas_changes(trials, bout("first_fire", spark=-0.2), {}, {}, {}, None)
    assert asked == [(pytest.approx(124.0), "centre"), (pytest.approx(100 / 1.24), "centre")]
    assert found == {SPEED: BothWays((ONE,), (ONE,))}
    assert pytest.approx(0.7 ** (-1 / NINETY), rel=0.01) == SPEED_SPREAD  # of a tired starter


# Engines drawn.
@pytest.fixture
def responding(monkeypatch):
    """A bout's answer to inputs moved, friction as a function of the changes says."""

    def of(one, changes, rubs=lambda _: 2.0, slower=None):
        trials = SimpleNamespace(centre=SimpleNamespace(doubt=SimpleNamespace(wall_heat=0.8)))
        monkeypatch.setattr(ensemble, "unknowns_of", lambda *to: () if to == (trials, one) else 0)
        monkeypatch.setattr(ensemble, "drawn_are_run", lambda *to: to != (trials.centre, one))
        monkeypatch.setattr(ensemble, "exhaust_changed", lambda *to: to)
        monkeypatch.setattr(ensemble, "warmed", lambda *to, **more: (to, more))

        def rubbed(plain, point, moved):
            assert (plain, point) == (PLAIN, one.point)
            return Rubs(rubs(moved))

        monkeypatch.setattr(ensemble, "rubbed", rubbed)
        monkeypatch.setattr(ensemble, "heat_network", lambda plain, row: (plain, row))
        monkeypatch.setattr(ensemble, "cold", lambda walls, air: (walls[1], air))
        return Response(trials, one, changes, slower)

    return of


PLAIN = SimpleNamespace(
    surroundings=SimpleNamespace(air_temperature=300.0), doubt=SimpleNamespace(wall_heat=1.2)
)


def test_walls_of_a_drawn_engine_are_warmed_by_its_own_gas(responding):
    """Heat of 1.2 over 0.8 where no change of the gas has it: 1.5 times."""
    centre = replace(bout("full_throttle", spark=-0.3), horizon=600.0)
    both = BothWays((ONE, ONE), None)
    for changes, heat in (({"leak.ring": both}, 1.5), ({"doubt.wall_heat": both}, 1.0)):
        draw = Draw(dict.fromkeys(changes, 1.0), {})
        found = responding(centre, changes).bout_of(PLAIN, draw)
        (plain, point, gases, long), more = found.histories
        assert (plain, point, gases, long) == (PLAIN, found.point, found.gases, 600.0)
        assert more["heat"] == pytest.approx(heat)
        assert more["exhausts"][:2] == (PLAIN, point)


def test_what_is_run_for_every_engine_is_run_with_its_own(responding, monkeypatch):
    answer = responding(bout("full_throttle"), {})
    answer.run = True
    monkeypatch.setattr(ensemble, "engine_at", lambda *to: to)
    monkeypatch.setattr(ensemble, "wholly", lambda *to: to)
    own = (answer.trials, (), "draw")
    assert answer.bout_of(PLAIN, "draw") == (answer.trials.centre, own, answer.bout, "draw")
    monkeypatch.setattr(ensemble, "by_piece", lambda *to: to)
    monkeypatch.setattr(ensemble, "fate", lambda *to: to)
    monkeypatch.setattr(ensemble, "seen", lambda *to: to)
    run, pieces, asked = answer.fate(PLAIN, "draw", "follow")
    assert (run[1], pieces, asked) == (own, (PLAIN, (), "draw"), "follow")
    assert answer.seen(PLAIN, "draw") == (run, pieces)


def test_a_drawn_engine_has_the_centres_gas_changed_by_each_input(responding):
    """1.1² of one input up by two, 0.95 of another; work of 10 J by 1.21 and of 12 J by 0.9."""
    up = tuple(replace(ONE, peak=1.1, work=w, speed=1.05, shut=0.1, spat=0.2) for w in (1.1, 1.0))
    down = tuple(replace(ONE, peak=0.9) for _ in range(2))
    other = tuple(replace(ONE, peak=0.95, work=w) for w in (1.0, 0.9))
    centre = bout(cylinders=(Figures(30.0), Figures(20.0, work=12.0)))
    changes = {"leak.ring": BothWays(up, down), "doubt.burn_phase": BothWays(other, down)}
    draw = Draw({"leak.ring": 2.0, "doubt.burn_phase": -1.0}, {})
    found = responding(centre, changes).bout_of(PLAIN, draw)
    assert [p.mean for p in found.point.peaks] == pytest.approx([30 * 1.1495, 20 * 1.1495])
    assert [p.strong for p in found.point.peaks] == pytest.approx([34 * 1.1495, 24 * 1.1495])
    assert [p.rare for p in found.point.peaks] == pytest.approx([40 * 1.1495, 30 * 1.1495])
    assert found.point.speed == pytest.approx(100 * 1.05**2)
    more = (10 * 0.21 - 12 * 0.1) / (4 * math.pi)
    assert found.point.fired.cycle.mean_gas_torque == pytest.approx(5.0 + more)
    (first, _) = found.point.fired.cycle.cylinders
    assert (first.inlet_shut, first.spat_back) == pytest.approx((0.7, 0.5))
    assert found.histories == ((0, 300.0), (1, 300.0))
    assert found.gases[0].speed[0] == pytest.approx(100 * math.pi * 1.05**2)


def test_an_idle_is_opened_for_what_rubs_more(responding):
    """2.5 N·m of gas and 0.5 more that rub ask for 1.2 of the work: 0.4 of a step of 1.5.

    What each step lets in rubs too here, 0.1 N·m a unit of peak: it is asked three times. An input
    that takes 0.04 of the work is made up for as well: 1.2 over 0.96 is 1.25.
    """
    less = tuple(replace(ONE, work=0.96) for _ in range(2))
    step = tuple(replace(ONE, work=1.5, peak=1.4) for _ in range(2))
    shut = tuple(replace(ONE, work=0.6, peak=0.7) for _ in range(2))
    centre = bout("idle")
    centre = replace(centre, point=replace(centre.point, fired=Fired(
        Cycle(centre.point.fired.cycle.cylinders, mean_gas_torque=2.5))))  # fmt: skip
    changes = {FLOW: BothWays(step, shut), "leak.ring": BothWays(less, None)}
    answer = responding(centre, changes, lambda moved: 2.4 + 0.1 * moved[0].peak)
    answer.warm = False
    found = answer.bout_of(PLAIN, Draw({FLOW: 1.7, "leak.ring": 1.0}, {}))
    peak = 1.0
    for _ in range(3):
        place = ((2.5 + 2.4 + 0.1 * peak - 2.0) / 2.5 / 0.96 - 1) / 0.5
        peak = 1.4**place
    assert found.point.peaks[0].mean == pytest.approx(30 * peak)
    assert found.point.friction.mean_torque == pytest.approx(2.4 + 0.1 * peak)


def test_a_free_rev_is_asked_for_its_work_and_what_rubs_over_the_centres(responding):
    """1.1 of the work, 3 N·m over 2."""
    asked = []

    def slow(own, point, work, rubs):
        asked.append((work, rubs))
        return [replace(one, speed=0.9) for one in own]

    work = tuple(replace(ONE, work=w) for w in (1.0, 1.2))
    centre = bout("free_rev")
    answer = responding(
        centre, {"leak.ring": BothWays(work, None)}, lambda _: 3.0, SimpleNamespace(changed=slow)
    )
    found = answer.bout_of(PLAIN, Draw({"leak.ring": 1.0}, {}))
    assert asked == [pytest.approx((1.1, 1.5))] * 2
    assert found.point.speed == pytest.approx(90.0)


def test_what_comes_near_or_may_in_three_deviations_is_followed():
    """0.5 and 0.7, lowest: a deviation of 0.1, so down to 0.2 and no further; 0.49 and 0.69."""
    far, near = ([[(0, 0.9), (10, low)] for low in lows] for lows in ((0.51, 0.71), (0.49, 0.69)))
    looked = [{"far": f, "near": n} for f, n in zip(far, near, strict=True)]
    assert set(_worth_following(looked)) == {"near"}


def test_columns_of_an_ensemble():
    fates = (Fate({"a": 0.3}, {"a": 9.0}, 1.0, 2.0), Fate({}, {}))
    draws = (Draw({"x": 1.0}, {"rod": 2.0}), Draw({"x": 3.0}, {"rod": 4.0}))
    found = Ensemble(draws, fates)
    assert found.logs("a") == pytest.approx([0.3, math.nan], nan_ok=True)
    assert found.seconds("a").tolist() == [9.0, math.inf]
    assert found.places(["x", "doubt.strength_scatter"], "rod").tolist() == [[1, 2], [3, 4]]


# One input at a time.
def test_where_something_passes_nought_downwards():
    asked = []

    def falls(place):
        asked.append(place)
        return 7.5 - place

    assert crossing(falls, 100, 20) == ((7, 0.5), (8, -0.5))
    assert asked == [0, 20, 10, 5, 7, 8]
    assert crossing(lambda place: -1.0 - place, 100, 20) == ((0, -1.0), (0, -1.0))
    assert crossing(lambda place: 98.5 - place, 99, 20) == ((98, 0.5), (99, -0.5))
    assert crossing(lambda place: 99.5 - place, 99, 20) is None


@pytest.mark.parametrize(
    ("log", "seconds", "tells"),
    [(0.5, 10.0, False), (0.5051, 10.0, True), (0.4951, 10.0, False), (0.5, 10.06, True),
     (0.5, 10.04, False), (0.5, 0.0, True), (0.5, NEVER, True)],
)  # fmt: skip
def test_what_moves_a_logarithm_by_a_two_hundredth_is_looked_at_again(log, seconds, tells):
    """10.04 s are 0.4 % more, 10.06 s 0.6."""
    centre, after = Fate({"a": 0.5}, {"a": 10.0}), Fate({"a": log}, {"a": seconds})
    assert one_by_one._tells([centre], [after]) is tells
    assert one_by_one._tells([centre], [Fate({}, {})])


def test_of_what_is_at_once_or_never_only_the_same_is_near():
    for same in (0.0, NEVER):
        centre = Fate({"a": 0.5}, {"a": same})
        assert not one_by_one._tells([centre], [centre])
        assert one_by_one._tells([centre], [Fate({"a": 0.5}, {"a": 1e-300})])


def test_the_usual_clocks_seconds_are_every_fourth_of_the_finer_and_the_last():
    assert one_by_one._usual(SimpleNamespace(seconds=range(10))) == (0, 4, 8, 9)
    assert one_by_one._usual(SimpleNamespace(seconds=range(9))) == (0, 4, 8)


def test_each_input_is_moved_to_either_side_by_one_and_a_half_deviations(monkeypatch):
    """Down only what told something up, or moves the gas."""
    told, quiet, gas = (Unknown(path, "normal", 10.0, 6.7102, 13.2898, "", "")
                        for path in ("rod.length", "rod.mass", "leak.ring"))  # fmt: skip
    trials = SimpleNamespace(unknowns=(told, quiet, gas), engine="engine", centre="centre")
    asked = []

    class Answer:
        def __init__(self, of, one, changes):
            assert (of, changes) == (trials, {"leak.ring": None})
            self.trials, self.bout = of, one

        def bout_of(self, plain, draw):
            asked.append((plain, dict(draw.shared)))
            return SimpleNamespace(plain=plain)

    def fated(following, ways):
        moved = following.plain != "centre" and following.plain[0] == "rod.length"
        return Fate({"a": 0.6 if moved else 0.5}, {"a": 9.0}, courses={"a": (0.5, 0.4, 0.3)})

    monkeypatch.setattr(one_by_one, "Smooth", Answer)
    monkeypatch.setattr(one_by_one, "moving", lambda *_: {"rod.length", "rod.mass", "leak.ring"})

    def moved_to(engine, centre, path, value):
        assert (engine, centre) == ("engine", "centre")
        return path, value

    def following(_, engines, finer):
        return SimpleNamespace(plain=engines[""], seconds=tuple(range(9 * finer // 4)))

    monkeypatch.setattr(one_by_one, "with_one", moved_to)
    monkeypatch.setattr(one_by_one, "Following", following)
    monkeypatch.setattr(one_by_one, "_fate", fated)
    monkeypatch.setattr(
        one_by_one, "shared_out", lambda work, count, **_: [*map(work, range(count))]
    )
    held = replace(bout("full_throttle"), horizon=600.0)
    (found,) = one_by_one.one_by_one(trials, [held], [{"leak.ring": None}], ["a"], 100.0)
    assert found.horizon == 100.0
    assert (set(found.up), set(found.down)) == (
        {"rod.length", "rod.mass", "leak.ring"}, {"rod.length", "leak.ring"}
    )  # fmt: skip
    values = {(plain[0], side): plain[1] for plain, draw in asked if plain != "centre"
              for side in draw.values()}  # fmt: skip
    assert values == {
        ("rod.length", 1.5): pytest.approx(13.0), ("rod.mass", 1.5): pytest.approx(13.0),
        ("leak.ring", 1.5): pytest.approx(13.0), ("rod.length", -1.5): pytest.approx(7.0),
        ("leak.ring", -1.5): pytest.approx(7.0),
    }  # fmt: skip
    assert found.seconds == (0, 4, 8)
    assert found.logs["a"].tolist() == [0.5, 0.4, 0.3]


def test_a_fate_through_a_bout(monkeypatch):
    """Falls by 0.1 a place from 1: gone after ten, on a clock of seconds."""

    class Judged:
        failure = None

    class Goes:
        seconds, coarse = tuple(float(s + 1) for s in range(17)), 5
        bout = SimpleNamespace(point=SimpleNamespace(event="full_throttle"))

        def at(self, second):
            return int(second) - 1

        def log_factor(self, way, judge, row, place):
            assert (way, judge, row, place < 17) == ("rod.tear", Judged, 0, True)
            return 1.04 - 0.1 * place

    monkeypatch.setattr(
        one_by_one, "ways_of", lambda _: [("rod.tear", Judged, 0), ("pin.bend", Judged, 0)]
    )
    found = one_by_one._fate(Goes(), {"rod.tear"})
    assert found.factors == {"rod.tear": pytest.approx(1.04)}
    assert found.seconds["rod.tear"] == pytest.approx(11 * (12 / 11) ** 0.4)
    assert found.courses["rod.tear"] == pytest.approx([1.04, 0.64, 0.24, -0.16, -0.56])


# A run of an event.
@pytest.mark.parametrize(("event", "state"), [("full_throttle", "at 280"), ("cranking", None)])
def test_a_point_is_started_from_the_nearest_like_it(monkeypatch, event, state):
    """Of 200, 280 and 400 rad/s the second is nearest to 300."""
    monkeypatch.setattr(run, "_fits", lambda point, plain: plain == "plain" and point.speed < 500)
    known = [
        replace(bout(of, speed=speed, name=""), point=Point(
            of, Fired(Cycle((), state=f"at {speed:.0f}")), speed))
        for of, speed in (("idle", 200.0), ("full_throttle", 280.0), ("free_rev", 400.0))
    ]  # fmt: skip
    assert run._nearest("plain", event, 300.0, known) == state


def test_an_idles_flow_is_its_throttle():
    """0.05 open: 1.4 times as far, and less far; never more than wholly."""
    plain = SimpleNamespace(model_copy=lambda update: update["intake"])
    plain.intake = SimpleNamespace(model_copy=lambda update: update["throttle_opening"])
    trials = SimpleNamespace(engine=None, unknowns=(), centre=plain, moved=lambda *_, **__: plain)
    flow = Unknown(FLOW, "normal", 1.0, 0.9, 1.1, "", "")
    one = run.Throttled(trials, 0.05)
    assert one.centre == 0.05
    assert one.moved(flow) == pytest.approx(0.07)
    assert one.moved(flow, back=True) == pytest.approx(0.05 / 1.4)
    assert run.Throttled(trials, 0.8).moved(flow) == 1.0
    assert one.moved(replace(flow, path="leak.ring")) == 0.05


def test_progress_rises_by_equal_shares(monkeypatch):
    """Two speeds and the engines drawn: thirds; of those the half is five sixths of all."""
    told = []

    def drawn(*_, on_progress, **__):
        on_progress(0.5)
        return ()

    monkeypatch.setattr(run, "_nearest", lambda *of: of[2])
    monkeypatch.setattr(run, "bout_at", lambda *of, start, **_: (*of, start))
    monkeypatch.setattr(run, "_spreads", lambda *of: ((), [{}], 0) if of[1] else None)
    monkeypatch.setattr(run, "ensembles", drawn)
    found = run.run(
        None, "full_throttle", on_progress=lambda *of: told.append(of),
        speeds=(100 * math.pi, 200 * math.pi), trials=SimpleNamespace(centre="plain"),
    )  # fmt: skip
    assert [what for what, _ in told] == [
        "full throttle 3000 rpm", "full throttle 6000 rpm", "spread of full throttle",
        "full throttle, other engines like it", "",
    ]  # fmt: skip
    assert [share for _, share in told] == pytest.approx([0, 1 / 3, 2 / 3, 5 / 6, 1])
    assert found.bouts == tuple(
        ("plain", "full_throttle", s, s) for s in (100 * math.pi, 200 * math.pi)
    )
