"""Over the top or not: against energy by hand, by property, and for the demo engines."""

import math
from pathlib import Path

import numpy as np
import pytest

import firstfire as ff
from firstfire.engine.read import with_values
from firstfire.engine.resolve import resolve
from firstfire.runs.bout import turned
from firstfire.runs.over_the_top import helped_over
from firstfire.runs.shaft import CYCLE, STEPS, Shaft
from firstfire.runs.turning_over import speed_before_top, turned_over

ENGINES = Path(__file__).resolve().parents[2] / "engines"
RPM = math.pi / 30


def shaft(against, stall=5.0, free=100.0, inertia=2e-3, stroke=math.inf, overruns=True):
    steps = (np.arange(STEPS) + 0.5) * CYCLE / STEPS
    return Shaft(np.vectorize(against)(steps), stall, free, inertia, stroke, overruns)


def hump(angle):
    """A compression of 10 N·m at its height, 6.4 J, before 360° and given back after it."""
    return 10 * math.sin(angle) if math.pi < angle < 3 * math.pi else 0.0


def test_energy_of_a_coasting_shaft():
    """½ I ω² falls by what is taken: 3 N·m over one radian, exactly."""
    coasting = shaft(lambda _: 3.0, stroke=0.0)
    steps = round(1 / (CYCLE / STEPS))
    along, done = coasting.march(0.0, 80.0, steps)
    assert done == steps
    taken = 3.0 * steps * CYCLE / STEPS
    assert 0.5 * 2e-3 * (80.0**2 - along[-1] ** 2) == pytest.approx(taken, rel=1e-9)


def test_a_coasting_shaft_stands_when_its_energy_is_used_up():
    """6.4 J at 2e-3 kg·m² and 80 rad/s: 2.13 rad against 3 N·m, to a step of 2°."""
    along, done = shaft(lambda _: 3.0, stroke=0.0).march(0.0, 80.0, STEPS)
    assert done * CYCLE / STEPS == pytest.approx(6.4 / 3, abs=CYCLE / STEPS)
    assert not along[done:].any()


def test_a_starter_runs_up_to_the_speed_where_it_gives_what_is_taken():
    """5 N·m at a stand, none at 100 rad/s: against 2 N·m it settles at 60 rad/s."""
    along, _ = shaft(lambda _: 2.0).march(0.0, 0.0, 20 * STEPS)
    assert along[-1] == pytest.approx(60.0, rel=1e-3)


def test_a_peak_above_the_stall_torque_is_passed_on_stored_energy_alone():
    """The hump takes 20 J from bottom to top: peak 10 N·m against 5 N·m at a stand."""
    compression = shaft(lambda a: -hump(a))
    start = math.pi
    half = STEPS // 4
    assert compression.march(start, 0.0, half)[1] < half
    # By hand: 20 J less at most 5 N·m over π leaves 4.3 J or more to be stored: 66 rad/s.
    assert compression.march(start, 60.0, half)[1] < half
    assert compression.march(start, 150.0, half)[1] == half


def test_a_one_way_clutch_lets_the_crank_run_ahead_and_a_rigid_bit_brakes_it():
    ahead, held = (
        shaft(lambda _: -4.0, overruns=one).march(0.0, 90.0, 9 * STEPS)[0][-1]
        for one in (True, False)
    )
    assert ahead > held > 100.0
    assert held == pytest.approx(180.0, rel=0.02)  # 5 (1 - ω/100) = -4


def cranked(name, **changes):
    engine = ff.read(ENGINES / f"{name}.toml")
    if changes:
        engine = with_values(engine, {k.replace("__", "."): v for k, v in changes.items()})
    plain = resolve(engine)
    return plain, turned(plain, "cranked", plain.use.cranking_speed).point


@pytest.fixture(scope="module")
def wren():
    return cranked("wren")


def test_wrens_drill(wren):
    """50 N·m at a stand are five times the peak: over from any stand.

    By hand: 10 bar on 12.6 cm² at a throw of 18 mm and a leverage of about 0.45 is 10 N·m.
    The shaft of 0.0214 kg·m², nearly all of it the drill's rotor, stores 15 J at 360 rpm.
    """
    over = turned_over(*wren)
    assert over.over
    assert over.from_rest
    assert over.peak_torque == pytest.approx(10.0, rel=0.15)
    assert over.stored_energy == pytest.approx(0.5 * 0.0214 * (360 * RPM) ** 2, rel=0.03)
    assert over.speed == pytest.approx(360 * RPM, rel=0.02)
    assert over.slowest < over.at_top < over.speed


def test_herons_mains_drill_passes_a_peak_it_could_not_hold():
    """15 N·m at a stand, 18 to 19 N·m at the peak: 21 J against 15 N·m over half a turn, 47 J."""
    over = turned_over(*cranked("heron"))
    assert over.stall_torque < over.peak_torque
    assert over.over
    assert over.from_rest


def test_plovers_rope():
    """200 N on 22.5 mm: 4.5 N·m below the peak of 5.5; the wheel carries it, five turns a pull.

    0.7 m of rope on 45 mm are 4.95 turns and one compression a turn; it coasts on for some.
    """
    over = turned_over(*cranked("plover"))
    assert over.stall_torque == pytest.approx(4.5)
    assert over.stall_torque < over.peak_torque
    assert over.over
    assert 5 <= over.pulls <= 20


def test_sixty_newtons_needed_a_run_up():
    over = turned_over(*cranked("plover", starter__pull_force="60 N"))
    assert over.stall_torque == pytest.approx(1.35)
    assert over.over
    assert not over.from_rest


def test_a_rope_does_not_bring_wren_over_and_what_is_offered_does():
    plain, point = cranked("wren", starter__kind="rope")
    over = turned_over(plain, point)
    assert not over.over
    assert over.lacking_torque > 0
    assert (over.speed, over.slowest, over.at_top) == (0.0, 0.0, 0.0)
    # Judged as if something stronger turned it; no floor stands for a shaft that stopped.
    assert speed_before_top(plain, point) == point.speed
    offered = helped_over(plain, point)
    assert offered
    for change in offered:
        changed = with_values(
            with_values(ff.read(ENGINES / "wren.toml"), {"starter.kind": "rope"}), change.set
        )
        assert turned_over(resolve(changed), point).over


def test_the_torque_lacking_brings_it_over(wren):
    plain, point = cranked("wren", starter__kind="hand", use__cranking_speed="100 rpm")
    over = turned_over(plain, point)
    assert not over.over

    def with_torque(torque):
        stronger = plain.starter.model_copy(update={"stall_torque": torque})
        return turned_over(plain.model_copy(update={"starter": stronger}), point).over

    enough = over.stall_torque + over.lacking_torque
    assert with_torque(1.01 * enough)
    assert not with_torque(0.97 * enough)


def test_more_torque_or_inertia_never_slows_it_at_the_top(wren):
    plain, point = wren
    tops = []
    for torque in (12.0, 20.0, 35.0, 60.0):
        starter = plain.starter.model_copy(update={"stall_torque": torque, "inertia": 0.004})
        tops.append(turned_over(plain.model_copy(update={"starter": starter}), point).at_top)
    assert tops == sorted(tops)


def test_a_battery_that_sags_gives_less_at_a_stand(wren):
    """50 N·m at 450 rpm on 18 V are 0.1375 ohm: behind 0.0458 more, a third, it has 37.5 N·m."""
    plain, point = wren
    starter = plain.starter.model_copy(
        update={"stall_torque": 50.0, "no_load_speed": 450 * RPM, "ratio": 1.0,
                "battery_voltage": 18.0, "battery_resistance": 0.04584}
    )  # fmt: skip
    over = turned_over(plain.model_copy(update={"starter": starter}), point)
    assert over.stall_torque == pytest.approx(37.5, rel=1e-3)


def test_decompression_gives_a_run_up(wren):
    plain, point = wren
    weak = plain.starter.model_copy(update={"stall_torque": 4.0, "inertia": 0.0})
    engine = plain.model_copy(update={"starter": weak})
    assert not turned_over(engine, point).over
    heavy = plain.flywheel.model_copy(update={"inertia": 0.02})
    let_off = engine.model_copy(
        update={"starter": weak.model_copy(update={"decompression": True}), "flywheel": heavy}
    )
    assert turned_over(let_off, point).over
