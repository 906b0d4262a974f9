"""Kick-back: the spark at which a first combustion stops the shaft and throws it backwards."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass, replace

import numpy as np

from firstfire.cycle.records import ShaftSpec
from firstfire.engine.resolve import PlainEngine
from firstfire.formulas.normal import NINETY
from firstfire.runs.start.asked import Asked, Lived
from firstfire.runs.start.life import Life

Stop = Callable[[], bool]

_EARLIEST, _LATEST = math.radians(70.0), math.radians(-10.0)
_COARSE, _FINE = math.radians(5.0), math.radians(0.25)
SLOW = 0.7
"""Share of its torque and speed that a tired starter has: a low battery, a half-hearted pull.
Common practice, no source."""
_WAITED = 3.0
_FOLLOWED = 0.6
"""After its spark, a combustion is followed so long at most, s."""
_PAST = math.radians(40.0)
_ENERGY_FINE = 0.01


@dataclass(frozen=True)
class Thrown:
    """What the starter feels of a shaft that is thrown back.

    Attributes
    ----------
    angle
        How far the shaft turns backwards, rad.
    torque
        Most of it at the starter's own shaft, N·m.
    energy
        Of the shaft when it is thrown back hardest, J.
    """

    angle: float
    torque: float
    energy: float


@dataclass(frozen=True)
class KickBack:
    """Which sparks throw the shaft back when it is first lit.

    Attributes
    ----------
    mean, strong
        The earliest spark before top centre that does not, rad: with a mean combustion on its
        starter, and with a 1-in-20 strong one on a tired one; infinite where none does, up to 70°.
    asked, true
        Spark asked for while starting, and where it truly comes on a tired starter, rad before top.
    factor
        Energy of the shaft at that spark over the least with which it would get over its top
        against a strong combustion; infinite where it would from any speed.
    thrown
        By a strong combustion 5° earlier than that.
    """

    mean: float
    strong: float
    asked: float
    true: float
    factor: float
    thrown: Thrown | None


def kick_back(plain: PlainEngine, shaft: ShaftSpec, stop: Stop | None = None) -> KickBack:
    """Try the first combustion of a cold engine with earlier and later sparks.

    Parameters
    ----------
    plain
        Plain numbers.
    shaft
        What turns it.
    stop
        Asked at least every 0.1 s.
    """
    tired, strong = _tired(shaft), earliest_safe(plain, shaft, stop)
    asked = plain.spark.start_angle
    lit = _lit(plain, tired, asked, NINETY, stop)
    thrown = None
    if math.isfinite(strong):
        back = _followed(_lit(plain, tired, strong + _COARSE, NINETY, stop), stop)
        thrown = _thrown(plain, tired, back.told())
    return KickBack(
        mean=_earliest(plain, shaft, 0.0, stop),
        strong=strong,
        asked=asked,
        true=-lit.sparks[-1].angle if lit.lights else math.nan,
        factor=_factor(lit, stop) if lit.lights else math.inf,
        thrown=thrown,
    )


def earliest_safe(plain: PlainEngine, shaft: ShaftSpec, stop: Stop | None = None) -> float:
    """The earliest spark with which a 1-in-20 strong combustion doesn't throw a tired starter back.

    Parameters
    ----------
    plain, shaft, stop
        As `kick_back` takes them.

    Returns
    -------
    float
        rad before top; infinite where none does, up to 70°.
    """
    return _earliest(plain, _tired(shaft), NINETY, stop)


def _tired(shaft: ShaftSpec) -> ShaftSpec:
    return replace(
        shaft,
        starter_stall=SLOW * shaft.starter_stall,
        starter_free=SLOW * shaft.starter_free,
    )


def _earliest(plain: PlainEngine, shaft: ShaftSpec, strong: float, stop: Stop | None) -> float:
    """The earliest spark that throws nothing back, rad before top; all from there on do it too."""

    def back(advance: float) -> bool:
        lit = _lit(plain, shaft, advance, strong, stop)
        return _followed(lit, stop).reversed is not None

    safe = _LATEST
    while not back(safe + _COARSE):
        safe += _COARSE
        if safe > _EARLIEST - _FINE:
            return math.inf
    thrown = safe + _COARSE
    while thrown - safe > _FINE:
        middle = (safe + thrown) / 2
        safe, thrown = (safe, middle) if back(middle) else (middle, thrown)
    return safe


def _lit(
    plain: PlainEngine, shaft: ShaftSpec, advance: float, strong: float, stop: Stop | None
) -> Life:
    """An engine with a charge in it, turned from a stand up to its first spark that lights.

    A starter that it stops on the way is held on: what creeps to its spark is thrown back soonest.
    """
    asked = Asked(
        seconds=math.inf, advance=advance, charged=True, strong=strong, held_on=True
    )  # fmt: skip
    life = Life(plain, asked, shaft)
    while not life.lights and life.now < _WAITED:
        life.step()
        life.checked(stop)
    return life


def _followed(life: Life, stop: Stop | None) -> Life:
    """On until the shaft has gone over its top, or has been thrown back and swings no further."""
    ends = life.now + _FOLLOWED
    top = math.ceil(life.angle / math.pi) * math.pi
    while life.now < ends and life.angle < top + _PAST:
        life.step()
        life.checked(stop)
    return life


def _factor(lit: Life, stop: Stop | None) -> float:
    """Energy at the spark over the least with which it would get over its top."""
    has = lit.speed
    low, high = 0.0, has
    while _stopped(lit, high, stop):
        low, high = high, 1.5 * high
        if high > 20.0 * has:
            return 0.0
    while high - low > _ENERGY_FINE * has:
        middle = (low + high) / 2
        low, high = (middle, high) if _stopped(lit, middle, stop) else (low, middle)
    return (has / high) ** 2 if high > _ENERGY_FINE * has else math.inf


def _stopped(lit: Life, speed: float, stop: Stop | None) -> bool:
    """Whether this combustion stops, or throws back, a shaft that comes with another speed."""
    other = lit.again()
    other.turn_at(speed)
    return _followed(other, stop).stalled.stood


def _thrown(plain: PlainEngine, shaft: ShaftSpec, lived: Lived) -> Thrown | None:
    """What a starter that stays on feels."""
    spun = lived.spun
    if lived.reversed_at is None:
        return None
    after = spun.since(lived.reversed_at)
    back = float(after.angle[0] - after.angle.min())
    rotor = plain.starter.inertia / plain.starter.ratio**2
    slowing = -np.gradient(after.speed, after.time) if len(after.time) > 2 else np.zeros(1)
    line = shaft.starter_stall * (1.0 - after.speed / shaft.starter_free)
    at_crank = float((line[: len(slowing)] + rotor * slowing).max())
    inertia = shaft.inertia + shaft.rotor
    hardest = float(after.speed.min())
    return Thrown(back, at_crank * plain.starter.ratio, 0.5 * inertia * hardest**2)
