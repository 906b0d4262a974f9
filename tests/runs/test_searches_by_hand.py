"""Roots, throttles and free speeds that are looked for, along torques of straight lines."""

from __future__ import annotations

import math
from dataclasses import dataclass, field, replace
from types import SimpleNamespace

import numpy as np
import pytest
from tests.loads.small_engines import engine_of

from firstfire.errors import OutsideValidity
from firstfire.runs import falling_short, free_rev, idling, rubbed
from firstfire.runs.falling_short import Slower, slower
from firstfire.runs.free_rev import FASTEST, free_speed, highest
from firstfire.runs.gas_change import ANGLE, BothWays, all_at_once
from firstfire.runs.idling import Idle, first_opening
from firstfire.runs.root import Bracket, near_root
from firstfire.runs.rubbed import throttle


def asked_for(function, **how):
    """Places a root is looked for at."""
    seen = []

    def noted(x):
        seen.append(x)
        return function(x)

    bracket = Bracket(1.0, 2.0, function(1.0), function(2.0))
    found = near_root(noted, bracket, **{"small": 0.0, "narrow": 0.0, **how})
    return seen, found


# Of x² - 2 between 1 and 2 (the Illinois rule, M. Dowell and P. Jarratt, BIT 11, 1971): the chord
# meets nought at 4/3, where -2/9 is left; then at 1.4, where -0.04 is. The upper end has now
# stayed twice, so half its value is taken: (1.4 + 2 · 0.04) / 1.04.
BY_HAND = [4 / 3, 1.4, 1.48 / 1.04]


def test_the_end_that_stays_is_taken_by_half():
    seen, found = asked_for(lambda x: x * x - 2, most=3)
    assert seen == pytest.approx(BY_HAND)
    assert (found.low, found.high) == pytest.approx((1.4, 1.48 / 1.04))
    assert found.at_low == pytest.approx(-0.04)
    falling, _ = asked_for(lambda x: 2 - x * x, most=3)
    assert falling == pytest.approx(BY_HAND)


def test_so_is_the_lower_end():
    seen, _ = asked_for(lambda x: 2 - (3 - x) ** 2, most=4)
    assert seen[:3] == pytest.approx([3 - x for x in BY_HAND])
    # Now both ends have moved: the chord of 1.4, -0.04 and 1.42308, 0.02515 once more.
    at = (1.48 / 1.04) ** 2 - 2
    assert seen[3] == pytest.approx(3 - (1.4 * at + 0.04 * 1.48 / 1.04) / (at + 0.04))


def test_an_end_is_halved_again_for_each_time_it_stays():
    """x⁸ - 2 is flat below: by hand with the upper value 254 taken by 1, 1, 1/2, 1/4."""
    seen, _ = asked_for(lambda x: x**8 - 2, most=4)
    low, at_low, by_hand = 1.0, -1.0, []
    for weight in (1.0, 1.0, 0.5, 0.25):
        by_hand.append((low * 254 * weight - 2 * at_low) / (254 * weight - at_low))
        low, at_low = by_hand[-1], by_hand[-1] ** 8 - 2
    assert seen == pytest.approx(by_hand)


def test_it_ends_where_little_is_left_or_the_ends_are_near():
    assert asked_for(lambda x: x * x - 2, small=0.04001)[0] == pytest.approx(BY_HAND[:2])
    assert asked_for(lambda x: x * x - 2, narrow=0.31)[0] == pytest.approx(BY_HAND[:2])
    assert asked_for(lambda x: x * x - 2, narrow=0.34)[0] == pytest.approx(BY_HAND[:1])


@dataclass(frozen=True)
class Point:
    speed: float
    brake_torque: float
    friction: SimpleNamespace
    misfires: tuple = ()
    throttle: float | None = None
    fired: SimpleNamespace = field(
        default_factory=lambda: SimpleNamespace(cycle=SimpleNamespace(state=None), burns=("lit",))
    )


def rubs(torque):
    return SimpleNamespace(mean_torque=torque)


# An idle.
def test_an_idle_is_looked_for_where_its_charge_passes_at_the_speed_of_sound():
    """60.82 cm³ filled to 0.4 at 150 rad/s: 0.2904 l/s; √(1.4 · 287 · 300) = 347.2 m/s, of it 0.58.

    That takes 1.442 mm² of a throttle of 78.54.
    """
    given = {"intake__throttle_diameter": 0.010, "surroundings__air_temperature": 300.0}
    assert first_opening(engine_of(**given), 150.0) == pytest.approx(0.01836, rel=1e-3)
    assert first_opening(engine_of(**given), 1.0) == 2e-3
    twin = engine_of("parallel 360", **given)
    assert first_opening(twin, 150.0) == pytest.approx(2 * 0.01836, rel=1e-3)
    apart = twin.intake.model_copy(update={"kind": "separate"})
    each = first_opening(twin.model_copy(update={"intake": apart}), 150.0)
    assert each == pytest.approx(0.01836, rel=1e-3)


def idle_of(monkeypatch, torque, *, most=1.0, drag=0.0):
    """An engine whose brake torque at an opening is as a function says; 1 N·m rubs."""
    opened = []

    def run(opening, event, name, speed, walls, spark, **_):
        assert (speed, spark, name) == (150.0, -0.3, "idle")
        opened.append(opening)
        return Point(speed, torque(opening), rubs(1.0))

    monkeypatch.setattr(idling, "operating_point", run)
    monkeypatch.setattr(idling, "throttled", lambda of, opening: opening if of is plain else None)
    monkeypatch.setattr(idling, "first_opening", lambda of, speed: 0.1 if of is plain else speed)
    plain = SimpleNamespace(intake=SimpleNamespace(throttle_opening=most))
    monkeypatch.setattr(idling, "load_torque", lambda of, speed: drag * (of is plain) * speed / 150)
    return Idle(plain, "idle", 150.0, -0.3), opened


@pytest.mark.parametrize("root", [0.02, 0.06, 0.1, 0.19, 0.7])
def test_an_idle_has_no_more_to_spare_than_a_fiftieth_of_what_turning_takes(monkeypatch, root):
    """10 N·m a whole opening more than what it drives, 0.5 N·m: 0.03 N·m are 0.003 of it."""
    idle, _ = idle_of(monkeypatch, lambda opening: 0.5 + 10 * (opening - root), drag=0.5)
    found = idle.point(())
    assert found.throttle == pytest.approx(root, abs=0.0031)
    assert found.brake_torque == pytest.approx(0.5 + 10 * (found.throttle - root))


@pytest.mark.parametrize(("spare", "once"), [(0.02, True), (0.029, True), (0.031, False)])
def test_an_idle_is_left_where_it_is_found_in_balance(monkeypatch, spare, once):
    """A fiftieth of 0.5 N·m driven and 1 N·m that rub."""
    idle, opened = idle_of(monkeypatch, lambda at: 0.5 + spare + 10 * (at - 0.1), drag=0.5)
    idle.point(())
    assert (opened == [0.1]) is once


def test_an_idle_is_bracketed_by_twice_then_four_then_eight_times(monkeypatch):
    idle, opened = idle_of(monkeypatch, lambda opening: opening - 0.95)
    idle.point(())
    assert opened[:3] == pytest.approx([0.1, 0.2, 0.8])
    assert opened[3] == 1.0
    idle, opened = idle_of(monkeypatch, lambda opening: opening + 1)
    idle.point(())
    assert opened[:4] == pytest.approx([0.1, 0.05, 0.0125, 0.0015625])
    assert opened[4] == 1e-3
    idle, opened = idle_of(monkeypatch, lambda opening: opening - 0.9)
    near = Point(150.0, 0.0, rubs(1.0), throttle=0.4)
    idle.point((), near=near)
    assert opened[:3] == pytest.approx([0.4, 0.46, 0.46 * 1.15**2])


def test_of_a_jump_the_end_that_lights_is_taken(monkeypatch):
    idle, _ = idle_of(monkeypatch, lambda opening: -0.5 if opening < 0.15 else 0.3)
    found = idle.point(())
    assert 0.15 <= found.throttle <= 0.15 * 1.03
    assert found.brake_torque == 0.3


def test_what_is_too_weak_says_what_is_lacking(monkeypatch):
    """150 rad/s are 1432 rpm."""
    idle, _ = idle_of(monkeypatch, lambda opening: opening - 1.4, most=0.9)
    with pytest.raises(OutsideValidity, match=r"1432 rpm.*0\.5 N\*m are lacking"):
        idle.point(())


# A free rev.
def revving(monkeypatch, torque, *, limit=None, speeds=(200.0, 300.0)):
    run = []
    spark = SimpleNamespace(limit_speed=limit, limited_by="cuts" if limit else "nothing")
    use = SimpleNamespace(full_throttle_speeds=speeds)
    plain = SimpleNamespace(spark=spark, use=use)

    def at(of, event, name, speed, walls, spark, **_):
        assert (of, spark) == (plain, speed / -1000)
        run.append(speed)
        return Point(speed, torque(speed), rubs(2.0))

    monkeypatch.setattr(free_rev, "operating_point", at)
    monkeypatch.setattr(free_rev, "spark_angle", lambda _, speed, **__: speed / -1000)
    monkeypatch.setattr(free_rev, "assumed_warm", lambda _: ())
    return plain, run


def test_a_free_speed_is_where_no_torque_is_left(monkeypatch):
    """A hundredth of a newton metre a rad/s: a twentieth of what rubs, 0.1 N·m, is 10 rad/s."""
    plain, run = revving(monkeypatch, lambda speed: 0.01 * (500 - speed))
    found = free_speed(plain)
    assert found.why == "friction"
    assert found.speed == pytest.approx(500, abs=10)
    assert found.nearest.speed == found.speed
    # The highest speed below with torque to spare, the top, and where their chord meets nought.
    assert run == pytest.approx([300.0, FASTEST, 500.0])


def test_each_is_started_from_the_nearest_known(monkeypatch):
    """Of 300, 500 and 600 rad/s 838 is nearest to the last, which misfires; 540 to 500."""
    plain, _ = revving(monkeypatch, lambda speed: 0.01 * (540 - speed), speeds=(300.0,))
    asked = {}
    at = free_rev.operating_point

    def noted(*of, start, guess, **more):
        asked[of[3]] = (start, guess)
        return at(*of, **more)

    monkeypatch.setattr(free_rev, "operating_point", noted)

    def known(speed, **more):
        cycle = SimpleNamespace(state=f"state at {speed:.0f}")
        fired = SimpleNamespace(cycle=cycle, burns=f"burns at {speed:.0f}")
        return Point(speed, 0.01 * (540 - speed), rubs(2.0), fired=fired, **more)

    free_speed(plain, [known(300.0), known(500.0), known(600.0, misfires=(1,))])
    assert list(asked) == pytest.approx([FASTEST, 540.0])
    assert list(asked.values()) == [("state at 600", None), ("state at 500", "burns at 500")]


def test_it_is_looked_for_until_a_twentieth_of_the_friction_is_left(monkeypatch):
    """Of 2 N·m: 0.06 left at 500 rad/s are few enough, 0.14 are not."""
    for left, few in ((0.06, True), (0.14, False)):
        bent = {300.0: 1.0, FASTEST: -1.0}
        plain, run = revving(monkeypatch, lambda at, bent=bent, left=left: bent.get(at, left))
        free_speed(plain)
        assert (len(run) == 3) is few


def test_a_limiter_or_the_top_ends_it(monkeypatch):
    plain, _ = revving(monkeypatch, lambda speed: 0.01 * (500 - speed), limit=400.0)
    assert (free_speed(plain).why, free_speed(plain).speed) == ("limiter", 400.0)
    plain, _ = revving(monkeypatch, lambda speed: 0.01 * (2000 - speed))
    assert (free_speed(plain).why, free_speed(plain).speed) == ("beyond", FASTEST)
    assert highest(plain) == pytest.approx(8000 * math.pi / 30)
    plain, _ = revving(monkeypatch, lambda speed: 0.01 * (100 - speed))
    with pytest.raises(OutsideValidity):
        free_speed(plain)


# Where it doesn't come so far.
FREE = Point(800.0, 0.5, rubs(4.0))
SLOW = Point(600.0, 2.0, rubs(3.0))


def test_it_stays_where_what_it_gives_is_what_rubs():
    """With 0.9 of the work and 1.1 of what rubs 0.45 - 0.8 are left free, 1.8 - 0.6 slower.

    0.35 of 1.55 of the way back. With 1.1 of the work 0.95 and 2.5: on by 0.61, up to 880 by 0.4.
    """
    one = Slower(SLOW, (), 880.0)
    assert one.place(FREE, 0.9, 1.1) == pytest.approx(0.35 / 1.55)
    assert one.place(FREE, 1.1, 1.0) == pytest.approx(-0.4)
    assert one.place(FREE, 0.3, 1.0) == pytest.approx(2.65 / 1.15)
    assert one.place(FREE, 0.1, 1.0) == 3.0


def test_where_less_is_left_at_a_slower_speed_it_does_not_stay():
    weak = Slower(replace(SLOW, brake_torque=-1.0), (), 880.0)
    assert weak.place(FREE, 1.0, 1.0) == pytest.approx(-0.4)
    assert weak.place(FREE, 0.8, 1.0) == 3.0


def test_the_slower_point_is_the_next_below(monkeypatch):
    """At 0.98 of the free speed or more it is none; peaks of 30 and 24 are 0.8."""
    monkeypatch.setattr(falling_short, "gas_change", lambda *of: of)
    monkeypatch.setattr(falling_short, "exhaust_over", lambda *of: of)
    monkeypatch.setattr(falling_short, "highest", lambda _: 880.0)

    def bout(speed, peak, event="full_throttle"):
        point = SimpleNamespace(speed=speed, event=event, peaks=(SimpleNamespace(mean=peak),))
        return SimpleNamespace(point=point, gases=(f"gas at {speed:.0f}",))

    free = bout(800.0, 30.0, "free_rev")
    known = [bout(300.0, 20.0), bout(600.0, 24.0), bout(790.0, 29.0), bout(700.0, 1.0, "idle")]
    found = slower("plain", free, known)
    port = (free, known[1].point, "plain", 0)
    assert found.changes == (("gas at 800", "gas at 600", pytest.approx(0.8), port),)
    assert (found.point.speed, found.top) == (600.0, 880.0)
    assert slower(None, free, known[2:]) is None


def test_a_throttle_is_opened_as_far_as_it_is_asked_for():
    one = all_at_once([])
    breath = BothWays((replace(one, work=1.5),), (replace(one, work=0.6),))
    assert throttle(breath, 1.0) == 0.0
    assert throttle(breath, 1.5) == pytest.approx(1.0)
    assert throttle(breath, 1.25) == pytest.approx(0.5)
    assert throttle(breath, 2.25) == pytest.approx(2.0)
    assert throttle(breath, 1e9) == 6.0
    assert throttle(breath, 0.6) == pytest.approx(-1.0)
    assert throttle(breath, 0.8) == pytest.approx(-0.5)
    assert throttle(breath, 0.36) == pytest.approx(-2.0)
    # where more air gives no more work it is left alone
    assert throttle(BothWays((replace(one, work=0.9),), None), 1.5) == 0.0
    assert throttle(BothWays((replace(one, work=1.009),), None), 1.5) == 0.0
    both = tuple(replace(one, work=work) for work in (1.2, 1.4))
    assert throttle(BothWays(both, None), 1.15) == pytest.approx(0.5)


def test_what_rubs_is_asked_of_each_cylinders_own_changed_cycle(monkeypatch):
    """The second fires half a turn after: its ratio of 1 + angle/10 stands half a turn later."""
    angle = np.linspace(0.0, 4 * math.pi, 9)[:-1]
    asked = []

    @dataclass
    class Curves:
        angle: np.ndarray
        pressure: np.ndarray
        speed: np.ndarray

    curves = Curves(angle, np.full((8, 2), 2e5), np.full(8, 100.0))
    fired = SimpleNamespace(cycle=SimpleNamespace(curves=curves), spec="network")
    point = SimpleNamespace(fired=fired)
    monkeypatch.setattr(rubbed, "firing_angles", lambda _: (0.0, math.pi))
    monkeypatch.setattr(rubbed, "friction_along", lambda *of: asked.append(of))
    rising = replace(all_at_once([]), pressure=1 + ANGLE / 10, speed=1.1)
    rubbed.rubbed("plain", point, (rising, rising))
    ((plain, spec, turning),) = asked
    assert (plain, spec) == ("plain", "network")
    first, second = turning.pressure.T / 2e5
    own = np.array([0, 0.5, 1, 1.5, -2, -1.5, -1, -0.5]) * math.pi
    assert first == pytest.approx(1 + own / 10)
    assert second == pytest.approx(1 + np.roll(own, 2) / 10)
    assert turning.speed == pytest.approx(np.full(8, 110.0))
    assert curves.pressure.min() == curves.pressure.max() == 2e5
