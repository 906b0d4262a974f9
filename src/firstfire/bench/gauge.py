"""What a compression gauge would show of one cylinder, for any leak and for what one may be off.

The engine's own gas is turned at the speed the shaft really has before the top, with the gauge's
hose as part of the chamber. What is uncertain comes in by its slope at a few leaks: linear, which
suits errors of some per cent.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from functools import partial

import numpy as np
from numpy.typing import NDArray
from scipy.interpolate import PchipInterpolator

from firstfire.cycle.fired import Fired, unfired_cycle
from firstfire.engine.description import CylinderParts
from firstfire.engine.geometry import firing_angles
from firstfire.engine.resolve import PlainEngine
from firstfire.formulas.slider_crank import stroke
from firstfire.runs.bout import turned
from firstfire.runs.steadily import heard, kept_turning
from firstfire.runs.walls import cold

Floats = NDArray[np.float64]

CYCLE = 4 * np.pi
LEAKS = ("ring", "inlet_seat", "exhaust_seat", "gasket", "plug", "wall")
SMALLEST, LARGEST = 1e-9, 10e-6
"""Leaks between which a reading tells anything, m²: 0.001 mm² to 10 mm²."""

_GRID = np.geomspace(SMALLEST, LARGEST, 13)
_SLOPES_AT = np.array([SMALLEST, 0.1e-6, 0.5e-6, 2e-6, LARGEST])
_FINE = np.geomspace(SMALLEST, LARGEST, 400)


@dataclass(frozen=True)
class Off:
    """What may be off, each with its standard deviation; see `Setting` for what they move.

    Attributes
    ----------
    speed
        Relative.
    heat
        Of the multiplier on wall heat, in its logarithm.
    closing
        Crank angle at which the inlet shuts, rad.
    dead
        Of the hose's volume, in its logarithm.
    """

    speed: float
    heat: float
    closing: float
    dead: float


@dataclass(frozen=True)
class Setting:
    """One way the cylinder may stand on the bench.

    Attributes
    ----------
    leak
        All leaks of the cylinder together, m².
    speed
        Mean cranking speed, rad/s.
    dead
        Volume between plug hole and check valve, less oil put in, m³.
    heat
        Multiplier on wall heat.
    closing
        Added to the angle at which the inlet shuts, rad.
    """

    leak: float
    speed: float
    dead: float
    heat: float = 1.0
    closing: float = 0.0


@dataclass(frozen=True)
class GaugeCurve:
    """What the gauge shows over the leak, Pa above the air, and how each doubt moves it.

    Attributes
    ----------
    leak, shows
        m² and Pa, the leak rising.
    slopes
        Pa for a standard deviation of each doubt, by name, along `leak`.
    slowed
        Speed before the top over the mean speed of the starter.
    """

    leak: Floats
    shows: Floats
    slopes: Mapping[str, Floats]
    slowed: float

    @property
    def tight(self) -> float:
        """What it would show without a leak to speak of, Pa."""
        return float(self.shows[0])

    def of(self, leak: float) -> float:
        """What the gauge shows of a leak, Pa."""
        return float(np.interp(np.log(leak), np.log(self.leak), self.shows))


def gauge_curve(
    plain: PlainEngine, row: int, speed: float, dead: float, off: Off, oil: float = 0.0
) -> GaugeCurve:
    """What a gauge shows on one cylinder, over its leak.

    Parameters
    ----------
    plain
        Plain numbers.
    row
        The cylinder, counted from 0.
    speed
        Mean cranking speed, rad/s: the starter's, where a clutch lets the crank run ahead of it.
    dead
        Volume between plug hole and check valve, m³.
    off
        What may be off.
    oil
        Put in through the plug hole, m³.
    """
    cranked = turned(plain, "gauge", speed).point
    slowed = _slowed(plain, speed, row)
    shows = _Gauge(plain, row, slowed, cranked.fired)
    here = partial(Setting, speed=speed, dead=dead - oil)
    centre = np.array([shows(here(leak)) for leak in _GRID])
    at = np.log(_FINE)
    smooth: Callable[[Floats], Floats] = PchipInterpolator(np.log(_GRID), centre)
    moved: dict[str, Callable[[float], Setting]] = {
        "speed": lambda leak: Setting(leak, speed * (1 + off.speed), dead - oil),
        "heat": lambda leak: here(leak, heat=float(np.exp(off.heat))),
        "closing": lambda leak: here(leak, closing=off.closing),
        "dead": lambda leak: Setting(leak, speed, dead * float(np.exp(off.dead)) - oil),
    }
    base = smooth(np.log(_SLOPES_AT))
    slopes = {
        name: np.interp(at, np.log(_SLOPES_AT), [shows(to(a)) for a in _SLOPES_AT] - base)
        for name, to in moved.items()
    }
    return GaugeCurve(_FINE, np.minimum.accumulate(smooth(at)), slopes, slowed)


class _Gauge:
    """The gauge on one cylinder; each cycle starts from the one before."""

    def __init__(self, plain: PlainEngine, row: int, slowed: float, near: Fired) -> None:
        self.plain, self.row, self.slowed, self.near = plain, row, slowed, near

    def __call__(self, setting: Setting) -> float:
        engine = _set(self.plain, self.row, setting)
        self.near = unfired_cycle(
            engine, setting.speed * self.slowed, cold(engine), start=self.near.cycle.state
        )
        peak = self.near.cycle.cylinders[self.row].peak_pressure
        return peak - self.plain.surroundings.air_pressure


def _set(plain: PlainEngine, row: int, setting: Setting) -> PlainEngine:
    parts = list(plain.cylinders)
    parts[row] = _chamber(_leaking(parts[row], setting.leak), setting)
    doubt = plain.doubt.model_copy(update={"wall_heat": plain.doubt.wall_heat * setting.heat})
    return plain.model_copy(update={"cylinders": tuple(parts), "doubt": doubt})


def total_leak(parts: CylinderParts) -> float:
    """All leaks of a cylinder together, m²."""
    return float(sum(getattr(parts.leak, name) for name in LEAKS))


def _leaking(parts: CylinderParts, total: float) -> CylinderParts:
    """Every leak by the same share more or less; past the rings where the file has none."""
    have = total_leak(parts)
    leak = parts.leak
    moved = (
        {name: getattr(leak, name) * total / have for name in LEAKS} if have > 0 else
        {"ring": total}
    )  # fmt: skip
    return parts.model_copy(update={"leak": leak.model_copy(update=moved)})


def _chamber(parts: CylinderParts, setting: Setting) -> CylinderParts:
    """Hose and closing angle put in."""
    cylinder, inlet = parts.cylinder, parts.valves.inlet
    swept = np.pi / 4 * cylinder.bore**2
    swept *= stroke(cylinder.stroke / 2, parts.rod.length, cylinder.offset)
    chamber = swept / (cylinder.compression_ratio - 1)
    # A chamber full of oil has no ratio; a tenth of it stays, which no reading reaches.
    ratio = 1 + swept / max(chamber + setting.dead, 0.1 * chamber)
    later = inlet.model_copy(
        update={"closes_after_bottom": inlet.closes_after_bottom + setting.closing}
    )
    return parts.model_copy(
        update={
            "cylinder": cylinder.model_copy(update={"compression_ratio": float(ratio)}),
            "valves": parts.valves.model_copy(update={"inlet": later}),
        }
    )


def _slowed(plain: PlainEngine, speed: float, row: int) -> float:
    """Speed that counts for the leak before the top over that of the starter, at most 1.

    A leak goes by time, most of it while pressure is high: ∫p dθ over ∫p dt. Where the starter of
    the file doesn't keep it turning, something else turned it: 1.
    """
    use = plain.use.model_copy(update={"cranking_speed": speed})
    turned_by = kept_turning(plain.model_copy(update={"use": use}))
    if turned_by is None:
        return 1.0
    spun, phase = turned_by.last, firing_angles(plain)[row]
    before = (spun.angle - phase) % CYCLE > CYCLE - np.pi
    # each step's share of angle and of time, none of the one that leads into the half turn
    steps = before[1:] & before[:-1]
    pressed = 0.5 * (spun.pressure[1:, row] + spun.pressure[:-1, row])[steps]
    turned_through, lasted = np.diff(spun.angle)[steps], np.diff(spun.time)[steps]
    counts = np.sum(pressed * turned_through) / np.sum(pressed * lasted)
    return float(min(counts / heard(turned_by.shaft, spun), 1.0))
