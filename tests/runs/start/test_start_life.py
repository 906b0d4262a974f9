"""An engine's start in time: its books by another sum, its chance, its sparks, its starter."""

from __future__ import annotations

import math

import numpy as np
import pytest
from tests.runs.start.books import DEG, RPM, engine, summed, torques

from firstfire.errors import Stopped
from firstfire.runs.sparked import spark_timing
from firstfire.runs.spun import starter_line
from firstfire.runs.start.asked import Asked
from firstfire.runs.start.kick_back import kick_back
from firstfire.runs.start.life import Life
from firstfire.runs.start.marks import marks_after


@pytest.mark.parametrize("name", ["wren", "plover", "heron"])
def test_energy_over_a_start_with_burns_closes(name):
    """Starter and gas give what friction and load take and the shaft holds, to 1e-3 of friction's.

    Before it is let go by the sum with its rotor, after by that without.
    """
    plain = engine(name, use__stood="0 s")
    life = Life(plain, Asked(seconds=1.0, after=0.5, seed=3))
    lived, shaft = life.lived(), life.shaft
    spun = lived.spun
    assert len(lived.burns) > 10
    gas, friction, load, moved = torques(plain, life.spec, spun)
    driven = spun.rotor if shaft.rotor else spun.speed
    starter = shaft.starter_stall * (1 - driven / shaft.starter_free)
    if shaft.starter_one_way:
        starter = np.maximum(starter, 0.0)
    let_go = int(np.searchsorted(spun.time, lived.let_go, "right"))
    takes = summed(friction, spun.angle)
    assert takes > 5.0

    on = slice(0, let_go)
    given = summed((starter * driven)[on], spun.time[on])
    given += summed((gas - friction - load)[on], spun.angle[on])
    held = 0.5 * (shaft.inertia + moved) * spun.speed**2 + 0.5 * shaft.rotor * spun.rotor**2
    assert abs(given - held[let_go - 1]) < 1e-3 * takes

    back = np.flatnonzero(spun.speed < 0.0)
    off = slice(let_go - 1, back[0] if back.size else None)
    bare = shaft.inertia if shaft.rotor else shaft.inertia - plain.starter.inertia
    held = 0.5 * (bare + moved[off]) * spun.speed[off] ** 2
    given = summed((gas - friction - load)[off], spun.angle[off])
    assert abs(given - (held[-1] - held[0])) < 1e-3 * takes


def test_equal_seeds_are_equal_to_the_last_bit_and_others_tell_another_story():
    plain = engine("plover")
    one, same, other, mean = (
        Life(plain, Asked(seconds=0.5, after=0.3, seed=seed)).lived() for seed in (5, 5, 6, None)
    )
    assert np.array_equal(one.spun.speed, same.spun.speed)
    assert one.sparks == same.sparks
    first = slice(0, 200)
    assert np.array_equal(one.spun.speed[first], other.spun.speed[first])
    assert one.spun.speed[-1] != other.spun.speed[-1]
    assert mean.spun.speed[-1] not in (one.spun.speed[-1], other.spun.speed[-1])


def test_what_becomes_of_a_copy_changes_nothing_in_the_first():
    plain = engine("plover")
    life = Life(plain, Asked(seconds=0.5, after=0.2, seed=2))
    while life.now < 0.3:
        life.step()
    other = life.again()
    other.turn_at(0.5 * other.speed)
    other.lived()
    untouched = Life(plain, Asked(seconds=0.5, after=0.2, seed=2)).lived()
    ended = life.lived()
    assert np.array_equal(ended.spun.speed, untouched.spun.speed)
    assert ended.sparks == untouched.sparks


def test_a_strong_burn_is_quicker_and_presses_higher():
    def peak(strong):
        asked = Asked(seconds=0.4, after=0.0, charged=True, strong=strong)
        return Life(engine("plover"), asked).lived().spun.pressure[:, 0].max()

    assert peak(-1.28) < 0.97 * peak(0.0) < 0.95 * peak(1.28)


def test_a_spark_comes_where_it_was_asked_less_its_latency():
    """By the sensor's edge: late by the angle turned within 0.1 ms."""
    plain = engine("wren")
    lived = Life(plain, Asked(seconds=0.8, after=0.0, advance=12 * DEG)).lived()
    assert len(lived.sparks) > 3
    for spark in lived.sparks:
        assert spark.asked == pytest.approx(-12 * DEG, abs=1e-6)
        late = spark.angle - spark.asked
        assert late == pytest.approx(plain.spark.latency * spark.speed, rel=0.02)


def test_a_clocked_spark_in_a_slowing_shaft_is_earlier_than_asked():
    """The clock goes on as fast as the last turn; the shaft, being pressed, does not."""
    plain = engine("wren", spark__timed_by="clock")
    life = Life(plain, Asked(seconds=1.2, after=0.0, advance=5 * DEG, charged=True))
    while not life.sparks:
        life.step()
    spark = life.sparks[0]
    assert spark.speed < 0.9 * life.last_turn
    assert spark.angle < spark.asked - 1 * DEG


def test_what_a_spark_goes_by_is_counted_in_order():
    """Top, bottom, and both sides of a tooth of each cylinder, none left out, over two cycles."""
    plain = engine("plover")
    timing, phases = spark_timing(plain), (0.0, 2 * math.pi)
    angle, seen = 0.1, []
    while angle < 0.1 + 8 * math.pi:
        marks = marks_after(angle, phases, phases, timing)
        assert all(mark.angle > angle for mark in marks)
        seen += marks
        angle = marks[0].angle
    seen = [mark for mark in seen if mark.angle < 0.1 + 8 * math.pi]
    for row, phase in enumerate(phases):
        for kind, count in (("top", 2), ("bottom", 2), ("begins", 4), ("ends", 4)):
            own = [one.angle for one in seen if one.cylinder == row and one.kind == kind]
            assert len(own) == count, kind
            if kind == "top":
                assert all((a - phase) % (4 * math.pi) == pytest.approx(2 * math.pi) for a in own)
            if kind == "bottom":
                assert all((a - phase) % (4 * math.pi) == pytest.approx(3 * math.pi) for a in own)


def test_a_rigid_starter_is_dragged_and_one_behind_a_clutch_is_not():
    """A burning engine passes its starter's own speed only where a clutch lets it."""
    asked = Asked(seconds=1.5, after=0.0)
    free = engine("wren").starter.no_load_speed
    lived = {
        coupling: Life(engine("wren", starter__coupling=coupling), asked).lived()
        for coupling in ("rigid", "one_way")
    }
    assert lived["one_way"].mean_speed(1.0) > 4.0 * free
    assert lived["one_way"].spun.rotor.max() < 1.001 * free
    # Dragged beyond it, a rigid one brakes: it runs faster than free, but stays near it.
    assert free < lived["rigid"].mean_speed(1.0) < 1.5 * free
    assert starter_line(engine("wren", starter__coupling="rigid")).rotor == 0.0


def test_a_heard_engine_is_let_go_and_a_rope_ends():
    plain = engine("plover")
    rope = Life(plain, Asked(seconds=9.0, after=0.1)).lived()
    length = 2 * plain.starter.pull_length / plain.starter.drum_diameter * plain.starter.ratio
    at = np.interp(rope.let_go, rope.spun.time, rope.spun.angle)
    # Seen at the next thing that happens, within a turn.
    assert length <= at - rope.spun.angle[0] < length + 2 * math.pi

    wren, wanted = engine("wren"), 900 * RPM
    heard = Life(wren, Asked(seconds=9.0, after=0.1, let_go_at=wanted)).lived()
    assert heard.let_go < 3.0
    for before in (0.3, 0.2, 0.1):
        assert heard.mean_speed(heard.let_go - before, heard.let_go) > wanted
    never = Life(wren, Asked(seconds=1.0, after=0.1)).lived()
    assert never.let_go == pytest.approx(1.0, abs=0.06)


def test_without_mixture_or_spark_nothing_burns():
    lean = Life(engine("plover"), Asked(seconds=0.3, after=0.0, mixture=0.3)).lived()
    assert lean.sparks
    assert not lean.burns
    assert {spark.missed for spark in lean.sparks} == {"lean"}
    late = Life(engine("plover"), Asked(seconds=0.3, after=0.1, fires_from=0.25)).lived()
    assert min(spark.seconds for spark in late.sparks) >= 0.25
    assert not any(spark.seconds < 0.25 for spark in late.burns)


def test_kick_back_asks_for_a_stop():
    plain = engine("plover")
    with pytest.raises(Stopped):
        kick_back(plain, starter_line(plain), lambda: True)
