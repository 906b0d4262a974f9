"""Idling by itself, revving freely: torque in balance, order of throttle and speed, refusals."""

from __future__ import annotations

import math
from pathlib import Path

import pytest

import firstfire as ff
from firstfire.engine.read import with_values
from firstfire.engine.resolve import PlainEngine, resolve
from firstfire.errors import OutsideValidity
from firstfire.loads.driven import load_torque
from firstfire.runs.bout import held
from firstfire.runs.free_rev import FASTEST, free_speed
from firstfire.runs.idling import throttled
from firstfire.runs.point import OperatingPoint, operating_point, spark_angle
from firstfire.runs.root import Bracket, near_root
from firstfire.runs.run import EventResult
from firstfire.runs.spread import Trials

RPM = math.pi / 30
ENGINE = Path(__file__).parent.parent / "strangers" / "5_metal_wren.toml"
# The search stops within 2 % of what turning takes; the cycle it ends on repeats to a like share.
BALANCED = 0.03


@pytest.fixture(scope="module")
def wide_open(engine: ff.Engine, trials: Trials) -> EventResult:
    return ff.run(engine, "full_throttle", trials=trials, drawn=1)


@pytest.fixture(scope="module")
def idle(engine: ff.Engine, trials: Trials, wide_open: EventResult) -> EventResult:
    return ff.run(engine, "idle", wide_open, trials=trials, drawn=1)


def idling(plain: PlainEngine) -> OperatingPoint:
    speed = plain.use.idle_speed
    spark = spark_angle(plain, speed, starting=False)
    return held(plain, "idle", "idle", speed, spark, 600.0).point


def test_an_idle_turns_itself_and_nothing_more(idle: EventResult) -> None:
    (point,) = idle.points
    assert point.event == "idle"
    assert point.speed == idle.engine.use.idle_speed
    assert abs(point.brake_torque) < BALANCED * point.friction.mean_torque
    assert point.misfires == ()
    assert point.walls_worked_out
    assert idle.bouts[0].horizon == 600.0
    assert len(idle.spreads) == 1


def test_it_idles_nearly_shut_at_a_fraction_of_the_charge(
    idle: EventResult, wide_open: EventResult
) -> None:
    """Idling small engines fill to 0.15 to 0.4 and make 1 to 3 bar imep (common practice)."""
    (point,), full = idle.points, wide_open.points[0]
    figures = point.fired.cycle.cylinders[0]
    assert point.throttle is not None
    assert 0.001 < point.throttle < 0.2
    assert 0.1 < figures.volumetric_efficiency < 0.45
    assert point.peaks[0].mean < 0.5 * full.peaks[0].mean
    # More burned gas stays in a small charge.
    assert figures.residual_fraction > full.fired.cycle.cylinders[0].residual_fraction


def test_the_search_found_a_root(idle: EventResult) -> None:
    """A tenth further shut it lacks torque, a tenth further open it has some to spare."""
    (point,) = idle.points
    assert point.throttle is not None
    spare = [
        operating_point(
            throttled(idle.engine, share * point.throttle), "idle", "idle", point.speed,
            point.walls, point.spark, start=point.fired.cycle.state, guess=point.fired.burns,
            with_peaks=False,
        ).brake_torque
        for share in (0.9, 1.1)
    ]  # fmt: skip
    assert spare[0] < 0 < spare[1]


def test_alone_it_idles_at_the_same_throttle(
    engine: ff.Engine, trials: Trials, idle: EventResult
) -> None:
    alone = ff.run(engine, "idle", trials=trials, drawn=1)
    assert alone.points[0].throttle == pytest.approx(idle.points[0].throttle, rel=0.05)
    # Its own slopes are of the throttled gas, not of full throttle's.
    assert alone.gas_changes.keys() == idle.gas_changes.keys()


def test_what_it_drives_opens_the_throttle(engine: ff.Engine, idle: EventResult) -> None:
    loaded = resolve(
        with_values(
            engine,
            {"load.kind": "generator", "load.torque": "0.5 N*m", "load.torque_at": "3000 rpm"},
        )
    )
    point = idling(loaded)
    drag = load_torque(loaded, point.speed)
    # A generator's torque grows with speed: at 1500 rpm half of what it takes at 3000.
    assert drag == pytest.approx(0.25)
    assert point.brake_torque == pytest.approx(drag, abs=BALANCED * (1 + drag))
    assert (point.throttle or 0.0) > (idle.points[0].throttle or 1.0)


def test_a_load_it_cannot_turn_is_said_in_words(engine: ff.Engine) -> None:
    heavy = resolve(
        with_values(
            engine,
            {"load.kind": "pump", "load.torque": "9 N*m", "load.torque_at": "1500 rpm"},
        )
    )
    with pytest.raises(OutsideValidity, match=r"can't idle at 1500 rpm.*wide open"):
        idling(heavy)


def test_a_propeller_takes_torque_with_the_square_of_speed(engine: ff.Engine) -> None:
    screwed = resolve(with_values(engine, {"load.kind": "propeller", "load.diameter": "300 mm"}))
    slow, fast = (load_torque(screwed, rpm * RPM) for rpm in (1500, 3000))
    assert fast == pytest.approx(4 * slow)
    # C_P 0.04 at half a diameter of pitch: 0.04 × 1.2 × 50³ × 0.3⁵ W at 3000 rpm (by hand 14.6 W).
    assert fast * 3000 * RPM == pytest.approx(14.6, rel=0.02)


UNKEPT = {"spark.limited_by": "nothing"}
"""A controller has a limiter by default, which would end a free rev before friction does."""


def test_it_revs_to_where_friction_takes_all_or_to_the_top(engine: ff.Engine) -> None:
    unkept = with_values(engine, UNKEPT)
    sure = Trials(unkept)
    sure.unknowns = ()  # the run at its centre alone is looked at
    free = ff.run(unkept, "free_rev", trials=sure, drawn=1)
    (point,) = free.points
    assert point.event == "free_rev"
    assert point.throttle is None
    assert point.speed > max(free.engine.use.full_throttle_speeds)
    assert free.bouts[0].horizon == 3.0
    if point.speed < FASTEST:
        assert abs(point.brake_torque) < 0.15 * point.friction.mean_torque
        assert free.notes == ()
    else:
        assert point.brake_torque > 0
        ((subject, why),) = free.notes
        assert "free rev" in subject
        assert "goes beyond" in why


def test_more_friction_revs_slower() -> None:
    plain = resolve(with_values(ff.read(ENGINE.parents[2] / "engines" / "plover.toml"), UNKEPT))
    stiff = plain.model_copy(
        update={
            "doubt": plain.doubt.model_copy(
                update={"friction": plain.doubt.friction.model_copy(update={"ring": 4.0})}
            )
        }
    )
    easy, hard = free_speed(plain), free_speed(stiff)
    assert easy.why == hard.why == "friction"
    assert hard.speed < 0.97 * easy.speed


def test_a_limiter_ends_it(engine: ff.Engine) -> None:
    limited = resolve(with_values(engine, {"spark.limit_speed": "4500 rpm"}))
    found = free_speed(limited)
    assert (found.why, found.speed) == ("limiter", pytest.approx(4500 * RPM))
    spark = spark_angle(limited, 6000 * RPM, starting=False)
    bout = held(limited, "free_rev", "free rev", 6000 * RPM, spark, 3.0)
    assert bout.point.speed == pytest.approx(4500 * RPM)


def test_a_root_with_a_jump_keeps_both_sides() -> None:
    calls = 0

    def jumps(x: float) -> float:
        nonlocal calls
        calls += 1
        return -1.0 if x < 0.3 else 2.0 + x

    found = near_root(jumps, Bracket(0.1, 1.0, -1.0, 3.0), small=0.01, narrow=0.05, most=20)
    assert found.at_low < 0 < found.at_high
    assert found.low < 0.3 <= found.high
    assert found.high - found.low <= 0.05 * found.high
    assert calls < 20


def test_a_cycle_that_begins_at_top_centre_peaks_as_traced() -> None:
    """An opposed twin's second cylinder fires where its cycle begins and ends, at one angle."""
    plain = resolve(ff.read(ENGINE.parents[2] / "engines" / "heron.toml"))
    point = idling(plain)
    for row, figures in enumerate(point.fired.cycle.cylinders):
        traced = float(point.fired.cycle.curves.pressure[:, row].max())
        assert traced <= figures.peak_pressure <= 1.02 * traced
