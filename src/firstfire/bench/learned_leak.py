"""Leak areas from readings: draws of all that may be off, and what is left between 5 and 95 %."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray

from firstfire.bench.gauge import LARGEST, SMALLEST, GaugeCurve
from firstfire.errors import OutsideValidity
from firstfire.formulas.nozzle_flow import mass_flow

Floats = NDArray[np.float64]

_DRAWS = 4000
_ONE_IN_FORTY = 0.025
# What a check valve's spring keeps back, Pa, and its standard deviation: assumed.
VALVE_HELD, VALVE_SPREAD = 0.1e5, 0.1e5
# Effective over drilled area of a small orifice: sharp 0.6, rounded or long 0.9; in between.
_ORIFICE, _ORIFICE_SPREAD = 0.75, 0.09
_AIR = (287.0, 1.4)


@dataclass(frozen=True)
class Area:
    """A leak as an area, m².

    Attributes
    ----------
    middle
        Half of what fits the reading lies below.
    low, high
        5 and 95 %.
    """

    middle: float
    low: float
    high: float


@dataclass(frozen=True)
class Learned:
    """What readings say of a cylinder's leak.

    Attributes
    ----------
    total
        All of it.
    ring
        Past the rings, where a second reading with oil on them told.
    others
        All but past the rings, then.
    widths
        Share of the interval's width (squared) that each doubt makes, by name.
    """

    total: Area
    ring: Area | None = None
    others: Area | None = None
    widths: Mapping[str, float] = field(default_factory=dict)


@dataclass(frozen=True)
class Reading:
    """A gauge's reading above the air, Pa, and its error as a standard deviation."""

    shows: float
    error: float


def from_gauge(
    curve: GaugeCurve,
    dry: Reading,
    oiled: tuple[GaugeCurve, Reading] | None = None,
    *,
    seed: int = 0,
) -> Learned:
    """The leak that a compression reading, or two, leave.

    Parameters
    ----------
    curve
        What the gauge shows over the leak, dry.
    dry
        What it did show.
    oiled
        The same with a little oil on the rings.
    seed
        Of the draws.

    Raises
    ------
    OutsideValidity
        Where no leak explains a reading.
    """
    rng = np.random.default_rng(seed)
    doubts = {name: rng.standard_normal(_DRAWS) for name in curve.slopes}
    held = VALVE_HELD + VALVE_SPREAD * rng.standard_normal(_DRAWS)
    total = _fitting(curve, dry, doubts, held, rng.standard_normal(_DRAWS))
    _explained(curve, dry, total)
    widths = _widths(curve, dry, float(np.median(total)))
    if oiled is None:
        return Learned(_area(total), widths=widths)
    wet, reading = oiled
    others = _fitting(wet, reading, doubts, held, rng.standard_normal(_DRAWS))
    _explained(wet, reading, others)
    ring = np.maximum(total - others, SMALLEST)
    return Learned(_area(total), _area(ring), _area(others), widths)


def _fitting(
    curve: GaugeCurve, reading: Reading, doubts: Mapping[str, Floats], held: Floats, error: Floats
) -> Floats:
    """For each draw the leak whose pressure opens the valve to just that reading, m²."""
    reached = reading.shows + held + reading.error * error
    at = np.arange(len(curve.leak))
    found = np.empty(len(reached))
    for draw, wanted in enumerate(reached):
        shows = curve.shows + sum(
            slope * doubts[name][draw] for name, slope in curve.slopes.items()
        )
        # Falling with the leak; linear doubts may bend it by a hair.
        shows = np.minimum.accumulate(shows)
        found[draw] = np.interp(-wanted, -shows, at)
    return np.asarray(np.exp(np.interp(found, at, np.log(curve.leak))), dtype=np.float64)


def _area(drawn: Floats) -> Area:
    low, middle, high = np.quantile(drawn, [0.05, 0.5, 0.95])
    return Area(float(middle), float(low), float(high))


def _explained(curve: GaugeCurve, reading: Reading, drawn: Floats) -> None:
    """Refuse a reading that a tight cylinder, or a wide open one, would not give."""
    bar = reading.shows / 1e5
    if np.mean(drawn > 1.01 * SMALLEST) < _ONE_IN_FORTY:
        raise OutsideValidity(
            f"A gauge that shows {bar:.1f} bar is above what this cylinder would show without any "
            f"leak, {curve.tight / 1e5:.1f} bar: no leak explains it. The chamber is smaller than "
            "the file says (measure it with liquid: cylinder.chamber_volume), oil or fuel stands "
            "in it, the valve timing is another, it turned faster, or the gauge reads high."
        )
    if np.mean(drawn < 0.99 * LARGEST) < _ONE_IN_FORTY:
        raise OutsideValidity(
            f"A gauge that shows {bar:.1f} bar is below what a leak of {LARGEST * 1e6:.0f} mm² "
            "leaves: that is no leak but an opening. A valve hangs open, the cam is out of time, "
            "the plug's or the gauge's thread is loose, or compression is let off."
        )


def _widths(curve: GaugeCurve, dry: Reading, leak: float) -> dict[str, float]:
    """Share of each doubt in the variance, to first order, at the leak found."""
    at = math.log(leak)
    parts = {
        name: float(np.interp(at, np.log(curve.leak), slope)) ** 2
        for name, slope in curve.slopes.items()
    }
    parts |= {"gauge": dry.error**2, "valve": VALVE_SPREAD**2}
    whole = math.fsum(parts.values())
    return {name: part / whole for name, part in sorted(parts.items(), key=lambda p: -p[1])}


@dataclass(frozen=True)
class LeakDown:
    """A leak-down test: air through an orifice into the cylinder at its top.

    Attributes
    ----------
    supply, held
        Before and behind the orifice, Pa above the air, each with the same standard deviation
        `error`.
    orifice, orifice_error
        Diameter and its standard deviation, m.
    air
        Pressure of the surroundings, Pa.
    """

    supply: float
    held: float
    error: float
    orifice: float
    orifice_error: float
    air: float


def leak_down_area(supply: float, held: float, orifice: float, air: float) -> float:
    """Leak that lets by what an orifice lets in, m²; pressures above the air, Pa; orifice as
    effective area, m².

    Raises
    ------
    OutsideValidity
        If the pressure held isn't between nothing and the supply.

    Examples
    --------
    Both choked, flow goes by pressure: 8 bar before the orifice and 4 behind it, absolute, make
    the leak twice as large:

    >>> round(leak_down_area(8e5 - 1e5, 4e5 - 1e5, 0.5e-6, 1e5) * 1e6, 3)
    1.0
    """
    if not 0.0 < held < supply:
        raise OutsideValidity(
            "The pressure held has to lie between nothing and the supply's: with none held it is "
            "an opening, and with all of it held nothing flows and the orifice tells nothing."
        )
    gas, gamma = _AIR
    came = mass_flow(orifice, supply + air, 293.15, gas, gamma, held + air)
    return came / mass_flow(1.0, held + air, 293.15, gas, gamma, air)


def from_leak_down(test: LeakDown, *, seed: int = 0) -> Learned:
    """The leak that a leak-down test leaves, at top centre and standing still.

    Raises
    ------
    OutsideValidity
        If the pressure held isn't between nothing and the supply.
    """
    area = math.pi / 4 * test.orifice**2
    leak_down_area(test.supply, test.held, area, test.air)
    rng = np.random.default_rng(seed)
    draws = rng.standard_normal((4, _DRAWS))
    supply = np.maximum(test.supply + test.error * draws[0], 1e3)
    held = np.clip(test.held + test.error * draws[1], 1.0, 0.9999 * supply)
    drilled = math.pi / 4 * np.maximum(test.orifice + test.orifice_error * draws[2], 1e-5) ** 2
    open_area = drilled * (_ORIFICE + _ORIFICE_SPREAD * draws[3])
    found = np.array([
        leak_down_area(s, h, a, test.air)
        for s, h, a in zip(supply, held, open_area, strict=True)
    ])  # fmt: skip
    return Learned(_area(np.clip(found, SMALLEST, 20e-6)))
