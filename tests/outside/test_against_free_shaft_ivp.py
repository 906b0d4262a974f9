"""A shaft on its starter against the same law solved by SciPy's `solve_ivp` with its own events.

The law is written out here once more, in one zone: p V = m R T, the first law, a nozzle for the
leak, and I dω/dt = torques. Where the ratio of heats stays, two zones at one pressure come to the
same as one; solved with Radau IIA or DOP853 to 1e-9, so that what differs is ours.
"""

from __future__ import annotations

import math
from typing import Any

import numpy as np
import pytest
from scipy.integrate import solve_ivp

import firstfire as ff
from firstfire.errors import OutsideValidity

DRILL: dict[str, Any] = {
    "bore": 0.04, "throw": 0.018, "rod": 0.065, "compression_ratio": 7.0, "inlet_closing": -2.2,
    "exhaust_opening": 2.2, "inertia": 2e-3, "starter_stall_torque": 14.0,
    "starter_free_speed": 60.0, "friction_constant": 0.5, "start_angle": -math.pi,
}  # fmt: skip
BURN: dict[str, Any] = {"fire_at_seconds": 0.5, "heat": 60.0, "burn_seconds": 6e-3,
                        "ratio_of_heats": 1.35, "ratio_of_heats_burned": 1.35}  # fmt: skip
GAS, ATMOSPHERE, WARM = 287.0, 101325.0, 298.15


class Law:
    """The right-hand side, and a walk from one event to the next."""

    def __init__(self, **given: Any) -> None:
        self.offset = self.friction_per_speed = self.leak_area = self.heat = 0.0
        self.starter_one_way, self.fire_at_seconds = False, math.inf
        self.ratio_of_heats, self.start_speed, self.wiebe_a, self.wiebe_m = 1.38, 0.0, 5.0, 2.0
        self.crankcase_pressure = ATMOSPHERE
        self.__dict__.update(given)
        self.area = math.pi / 4 * self.bore**2
        top = math.sqrt((self.rod + self.throw) ** 2 - self.offset**2)
        low = math.sqrt((self.rod - self.throw) ** 2 - self.offset**2)
        self.top, self.clearance = top, self.area * (top - low) / (self.compression_ratio - 1)
        self.ahead = math.asin(self.offset / (self.rod + self.throw))

    def volume(self, angle: float) -> tuple[float, float]:
        turned = angle + self.ahead
        across = self.throw * math.sin(turned) - self.offset
        along = math.sqrt(self.rod**2 - across**2)
        height = self.throw * math.cos(turned) + along
        slope = -self.throw * math.sin(turned) - across * self.throw * math.cos(turned) / along
        return self.clearance + self.area * (self.top - height), -self.area * slope

    def leaks(self, pressure: float, temperature: float) -> tuple[float, float]:
        """kg/s out, and the temperature of what flows."""
        g = self.ratio_of_heats
        sign, up, down, warm = 1.0, pressure, self.crankcase_pressure, temperature
        if up < down:
            sign, up, down, warm = -1.0, down, up, WARM
        ratio = max(down / up, (2 / (g + 1)) ** (g / (g - 1)))
        term = 2 * g / (g - 1) * (ratio ** (2 / g) - ratio ** ((g + 1) / g))
        return sign * self.leak_area * up / math.sqrt(GAS * warm) * math.sqrt(max(term, 0)), warm

    def torques(self, angle: float, speed: float, pressure: float) -> float:
        pulls = self.starter_stall_torque * (1 - speed / self.starter_free_speed)
        if self.starter_one_way:
            pulls = max(pulls, 0.0)
        return pulls + (pressure - self.crankcase_pressure) * self.volume(angle)[1]

    def rates(self, time: float, state: np.ndarray, turn: float, shut: bool) -> list[float]:
        angle, speed, pressure, mass = state
        volume, widening = self.volume(angle)
        drag = turn * self.friction_constant + self.friction_per_speed * speed
        gain = (self.torques(angle, speed, pressure) - drag) / self.inertia
        if not shut:
            return [speed, gain, 0.0, 0.0]
        out, warm = self.leaks(pressure, pressure * volume / (mass * GAS))
        g, heating = self.ratio_of_heats, 0.0
        y = (time - self.lit) / self.burn_seconds if self.lit < math.inf else 0.0
        if y > 0:
            a, m = self.wiebe_a, self.wiebe_m
            share = a * (m + 1) * y**m * math.exp(-a * y ** (m + 1)) / self.burn_seconds
            heating = self.heat * share
        swelling = (g - 1) * heating - g * pressure * widening * speed - g * GAS * warm * out
        return [speed, gain, swelling / volume, -out]

    def walk(
        self, seconds: float, method: str = "DOP853", within: float = 1e-9, longest: float = 2e-3
    ) -> tuple[np.ndarray, np.ndarray, float | None]:
        """Time, states (rows of angle, speed, pressure, mass), and where it turned round."""
        self.lit = math.inf
        time, angle = 0.0, self.start_angle
        state = np.array([angle, self.start_speed, ATMOSPHERE, 0.0])
        state[3] = ATMOSPHERE * self.volume(angle)[0] / (GAS * WARM)
        times, states, turned = [0.0], [state], None
        fired = False
        while time < seconds:
            place = (state[0] + 2 * math.pi) % (4 * math.pi) - 2 * math.pi
            turn = math.copysign(1.0, state[1])
            if state[1] == 0.0:
                drive = self.torques(state[0], 0.0, state[2])
                if abs(drive) <= self.friction_constant:  # no leak in the cases that come to this
                    break
                turn = math.copysign(1.0, drive)
            ahead = place + 1e-9 * turn
            shut = self.inlet_closing < ahead < self.exhaust_opening
            if not shut:
                state[2] = ATMOSPHERE
            marks = [self.inlet_closing, self.exhaust_opening]
            lights = self.fire_at_seconds < math.inf and not fired and turn > 0
            marks += [self.spark] if lights else []
            found = [_crossing(state[0] + _to(place, mark, turn), turn) for mark in marks]
            stand = _standing(turn)
            done = solve_ivp(
                self.rates, (time, seconds), state, method, args=(turn, shut), rtol=within,
                atol=[within, within, 1e6 * within, 1e-5 * within], events=[*found, stand],
                max_step=2e-4 if self.lit < math.inf else longest,
            )  # fmt: skip
            times.extend(done.t[1:])
            states.extend(done.y.T[1:])
            time, state = done.t[-1], done.y[:, -1].copy()
            which = [n for n, at in enumerate(done.t_events) if len(at)]
            if not which:
                break
            if which[0] == len(found):
                state[1] = 0.0
                if turn > 0 and turned is None:
                    drive = self.torques(state[0], 0.0, state[2])
                    turned = state[0] if drive < -self.friction_constant else None
            else:
                state[0] = state[0] + 0.0
                if which[0] == 2 and time >= self.fire_at_seconds:
                    self.lit, fired = time, True
                if which[0] < 2 and not shut:  # what is shut in is fresh
                    state[3] = ATMOSPHERE * self.volume(state[0])[0] / (GAS * WARM)
                    state[2] = ATMOSPHERE
                if which[0] < 2 and shut:
                    self.lit = math.inf
                state[0] += 1e-10 * turn  # beyond the mark
        return np.array(times), np.array(states), turned


def _to(place: float, mark: float, turn: float) -> float:
    return turn * ((turn * (mark - place) - 1e-8) % (4 * math.pi) + 1e-8)


def _crossing(mark: float, turn: float) -> Any:
    def event(time: float, state: np.ndarray, *_: Any) -> float:
        return (state[0] - mark) * turn

    event.terminal, event.direction = True, 1.0  # type: ignore[attr-defined]
    return event


def _standing(turn: float) -> Any:
    def event(time: float, state: np.ndarray, *_: Any) -> float:
        return state[1] * turn

    event.terminal, event.direction = True, -1.0  # type: ignore[attr-defined]
    return event


CASES: dict[str, dict[str, Any]] = {
    "a drill turns it": {"seconds": 1.0},
    "too weak a drill is held before the top": {"starter_stall_torque": 8.0, "seconds": 0.4},
    "a gas spring throws it back": {
        "starter_stall_torque": 0.0, "friction_constant": 0.0, "start_speed": 20.0,
        "start_angle": -2.6, "seconds": 0.25,
    },
    "a wheel bounces between two compressions": {
        "starter_stall_torque": 0.0, "friction_constant": 0.02, "start_speed": 20.0,
        "start_angle": -2.6, "seconds": 1.5,
    },
    "a drill through a clutch": {"starter_one_way": True, "seconds": 0.8, **BURN, "spark": 0.1},
    "a burn drives it on": {"seconds": 0.8, **BURN, "spark": -0.1},
    "an early burn throws it back": {"seconds": 0.7, **BURN, "spark": -0.9},
    "a leak and an offset bore": {
        "leak_area": 2e-7, "offset": 0.004, "friction_per_speed": 0.01, "seconds": 1.0,
    },
    "a leak into a pressed crankcase": {
        "leak_area": 1e-6, "crankcase_pressure": 1.4e5, "seconds": 0.6,
    },
}  # fmt: skip


@pytest.mark.parametrize("case", CASES)
def test_it_turns_as_solve_ivp_says(case: str) -> None:
    given = {**DRILL, **CASES[case]}
    seconds = given.pop("seconds")
    time, states, turned = Law(**given).walk(seconds)
    ours = ff.free_shaft(**given, seconds=seconds)
    fastest = np.abs(states[:, 1]).max()
    # Compared where theirs has its steps: between ours, a third-order step apart, by straight
    # lines of speed and angle, which are worth 2e-4 themselves.
    speed = np.interp(time, ours.time, ours.speed)
    angle = np.interp(time, ours.time, ours.angle)
    assert np.abs(speed - states[:, 1]).max() < 2e-3 * fastest
    assert np.abs(angle - states[:, 0]).max() < 2e-3
    assert ours.pressure.max() == pytest.approx(states[:, 2].max(), rel=1e-3)
    assert ours.reversed == (turned is not None)
    if turned is not None:
        assert ours.reversal_angle == pytest.approx(turned, abs=2e-4)


@pytest.mark.parametrize(
    "light", [{"inertia": 1e-3, "heat": 40.0}, {"inertia": 2e-3, "leak_area": 3e-7}]
)
def test_the_latest_spark_that_throws_it_back(light: dict[str, Any]) -> None:
    given = {**DRILL, **BURN, **light}
    latest = ff.kick_back_angle(**given, seconds=0.8)
    assert latest is not None
    assert -1.5 < latest < 0.0
    hair = math.radians(0.05)
    for spark, thrown in ((latest - hair, True), (latest + hair, False)):
        _, _, turned = Law(**given, spark=spark).walk(0.8)
        assert (turned is not None) == thrown, math.degrees(spark)
    # Our own shaft knows it to a thousandth of a degree.
    assert ff.free_shaft(**given, seconds=0.8, spark=latest).reversed
    later = latest + math.radians(1.1e-3)
    assert not ff.free_shaft(**given, seconds=0.8, spark=later).reversed


def test_without_a_burn_no_spark_is_the_cause() -> None:
    weak = {**DRILL, **BURN, "starter_stall_torque": 4.0, "friction_constant": 0.1}
    with pytest.raises(OutsideValidity, match="turns round without any burn"):
        ff.kick_back_angle(**weak, seconds=0.8)


def test_a_heavy_wheel_is_thrown_back_by_no_spark() -> None:
    heavy = {**DRILL, **BURN, "inertia": 0.1, "start_speed": 40.0, "fire_at_seconds": 0.1}
    assert ff.kick_back_angle(**heavy, seconds=0.5) is None


@pytest.mark.parametrize(
    ("wrong", "named"),
    [
        ({"inertia": 0.0}, "inertia"), ({"seconds": -1.0}, "seconds"), ({"bore": math.nan}, "bore"),
        ({"starter_free_speed": 0.0}, "starter_free_speed"), ({"leak_area": -1e-7}, "leak_area"),
        ({"ratio_of_heats": 1.0}, "ratio_of_heats"), ({"inlet_closing": 0.1}, "inlet_closing"),
        ({"fire_at_seconds": 0.5}, "spark"),
        ({"fire_at_seconds": 0.5, "spark": 3.0, "burn_seconds": 1e-3}, "spark"),
        ({"fire_at_seconds": 0.5, "spark": 0.0}, "burn_seconds"),
        ({"fire_at_seconds": -0.5, "spark": 0.0, "burn_seconds": 1e-3}, "fire_at_seconds"),
        ({"rod": 0.01}, "rod"),
        ({"fire_at_seconds": 0.1, "spark": 0.0, "burn_seconds": 1e-3, "wiebe_m": -0.1}, "wiebe_m"),
    ],
)  # fmt: skip
def test_what_can_not_be_is_refused_by_name(wrong: dict[str, Any], named: str) -> None:
    with pytest.raises(OutsideValidity, match=named):
        ff.free_shaft(**{**DRILL, "seconds": 0.5, **wrong})
