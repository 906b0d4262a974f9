"""Advance against speed and load: this engine's best torque, kept from knock and kick-back."""

from __future__ import annotations

import itertools
import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from firstfire.engine.engine import Engine
from firstfire.engine.geometry import firing_angles
from firstfire.engine.resolve import PlainEngine
from firstfire.errors import OutsideValidity
from firstfire.runs.idling import throttled
from firstfire.runs.point import OperatingPoint, operating_point
from firstfire.runs.start.kick_back import KickBack
from firstfire.runs.walls import assumed_warm
from firstfire.setup.spark.knock_limit import octane_of, waited

Floats = NDArray[np.float64]
Flags = NDArray[np.bool_]
Stop = Callable[[], bool]

GIVEN_UP = 0.01
"""Of the best torque, for the latest spark that gives up no more: later is cooler, quieter and
further from knock. Common practice, no source."""
KEPT_FROM_KNOCK = math.radians(3.0)
KEPT_FROM_KICK = math.radians(5.0)
# Cycles differ, and knock comes in the quickest first. Common practice, no source.
_TRIED = tuple(math.radians(degrees) for degrees in range(0, 61, 10))
EARLIEST = _TRIED[-1]
"""The earliest spark tried, rad before top."""
LOADS = (0.1, 0.2, 0.35, 0.6, 1.0)
"""Throttle openings of the table, over the file's full one."""
_ROWS = 6
_AT_BOUND = math.radians(0.5)
"""A best angle nearer than this to the earliest tried is that bound and no best."""
_BELOW_IDLE = 0.6
"""Where a controller takes an engine to run. Common practice, no source."""


@dataclass(frozen=True)
class AdvanceTable:
    """Advance over speed and load, SI.

    Attributes
    ----------
    speeds
        rad/s, rising, (speeds,).
    openings
        Of the throttle, 0 to 1, rising, (loads,).
    pressures
        Mean in the intake, Pa, (loads, speeds).
    air
        Over displacement full of the air around, (loads, speeds).
    advance
        To be asked for, before firing top, rad, (loads, speeds); where nothing burns that of the
        next load above.
    best
        Of most torque, rad, (loads, speeds); NaN where nothing burns.
    knocks
        Earliest that doesn't knock, rad; infinite where none tried does, NaN where not judged.
    kicks
        Earliest safe one below idle speed, rad, (speeds,); infinite where it doesn't bind.
    governs
        What holds each back: ``torque``, ``knock``, ``kick``, or ``not lit``, by loads and speeds.
    start
        To be asked for while starting, rad.
    notes
        What isn't judged, in sentences.
    """

    speeds: Floats
    openings: Floats
    pressures: Floats
    air: Floats
    advance: Floats
    best: Floats
    knocks: Floats
    kicks: Floats
    governs: tuple[tuple[str, ...], ...]
    start: float
    notes: tuple[str, ...]

    @property
    def bounded(self) -> Flags:
        """Where torque still rose at the earliest spark tried, so that this is no best, by loads.

        Whatever holds the spark back there: an angle that knock decides is none of these.
        """
        held = np.array([[one == "torque" for one in row] for row in self.governs])
        return np.asarray(held & (self.best >= EARLIEST - _AT_BOUND))


@dataclass(frozen=True)
class _Cell:
    pressure: float
    air: float
    advance: float
    best: float
    knocks: float
    governs: str
    steady: bool


def table_speeds(plain: PlainEngine) -> Floats:
    """Speeds of the table: from well below idle to the limiter or full throttle, evenly."""
    top = max(plain.use.full_throttle_speeds)
    if plain.spark.limit_speed is not None:
        top = max(top, min(plain.spark.limit_speed, 1.3 * top))
    low = min(_BELOW_IDLE * plain.use.idle_speed, 0.8 * top)
    return np.linspace(low, top, _ROWS)


def advance_table(
    engine: Engine, plain: PlainEngine, kick: KickBack, *, stop: Stop | None = None,
    speeds: Sequence[float] | None = None, loads: Sequence[float] = LOADS,
) -> AdvanceTable:  # fmt: skip
    """The advance of an engine over speed and load, warm, by cycles at held speeds.

    Parameters
    ----------
    engine, plain
        The engine, and its plain numbers.
    kick
        Which sparks throw it back.
    stop
        Asked at least every 0.1 s.
    speeds, loads
        rad/s, and openings over the file's full one.
    """
    each = np.asarray(speeds if speeds is not None else table_speeds(plain), dtype=np.float64)
    octane, said = octane_of(engine, plain.intake.fuel)
    safe = kick.strong - KEPT_FROM_KICK
    slow = each < plain.use.idle_speed * (1 - 1e-9)
    kicks = np.where(slow, safe, math.inf)
    full = plain.intake.throttle_opening
    cells = [
        [_cell(throttled(plain, load * full), float(s), octane, float(k), stop)
         for s, k in zip(each, kicks, strict=True)]
        for load in loads
    ]  # fmt: skip
    advance = _filled(_grid(cells, "advance"))
    return AdvanceTable(
        speeds=each,
        openings=full * np.asarray(loads, dtype=np.float64),
        pressures=_grid(cells, "pressure"),
        air=_grid(cells, "air"),
        advance=advance,
        best=_grid(cells, "best"),
        knocks=_grid(cells, "knocks"),
        kicks=kicks,
        governs=tuple(tuple(cell.governs for cell in row) for row in cells),
        start=start_angle(plain, kick),
        notes=_notes(said, cells),
    )


def _notes(said: str, cells: Sequence[Sequence[_Cell]]) -> tuple[str, ...]:
    wild = sum(not cell.steady for row in cells for cell in row)
    dead = sum(cell.governs == "not lit" for row in cells for cell in row)
    all_of = sum(len(row) for row in cells)
    notes = [said] if said else []
    met = sum(
        c.governs == "torque" and c.best >= EARLIEST - _AT_BOUND for row in cells for c in row
    )
    if met:
        notes.append(
            f"in {met} of {all_of} places torque still rose at {math.degrees(EARLIEST):.0f}°, the "
            "earliest spark tried: the burn law is slow in so small a chamber, and what stands "
            "there is its bound and no best angle. Begin with the running angle of the file and "
            "go earlier by 3° at a time on the bench, only while it gains speed; listen for knock"
        )
    if wild:
        notes.append(
            f"in {wild} of {all_of} places no cycle repeats the one before: go by their neighbours"
        )
    if dead:
        notes.append(
            f"in {dead} of {all_of} places nothing burns; they have the angle of their neighbours"
        )
    return tuple(notes)


def start_angle(plain: PlainEngine, kick: KickBack) -> float:
    """To be asked for while starting: the file's, or 5° later than what kicks; 10° after at most.

    What the true spark comes earlier than asked is on top.
    """
    early = max(kick.true - kick.asked, 0.0) if math.isfinite(kick.true) else 0.0
    safe = kick.strong - KEPT_FROM_KICK - early
    return max(min(plain.spark.start_angle, safe), math.radians(-10.0))


def _grid(cells: Sequence[Sequence[_Cell]], name: str) -> Floats:
    return np.array([[getattr(cell, name) for cell in row] for row in cells], dtype=np.float64)


def _filled(advance: Floats) -> Floats:
    """What isn't lit as the next load above, or else as the next speed."""
    found = advance.copy()
    for row in range(len(found) - 2, -1, -1):
        found[row] = np.where(np.isnan(found[row]), found[row + 1], found[row])
    for row in found:
        known = np.flatnonzero(~np.isnan(row))
        if len(known):
            row[:] = np.interp(np.arange(len(row)), known, row[known])
    return found


def _cell(
    plain: PlainEngine, speed: float, octane: float | None, kicks: float, stop: Stop | None
) -> _Cell:
    """One speed and load: sparks from late to early, the best of them, and what forbids it."""
    points = _swept(plain, speed, stop)
    if not points:
        return _Cell(math.nan, math.nan, math.nan, math.nan, math.nan, "not lit", True)
    angles = np.array([angle for angle, _ in points])
    torque = np.array([point.fired.cycle.mean_gas_torque for _, point in points])
    best, late = _best(angles, torque)
    knocks = math.nan if octane is None else _knocks(plain, points, octane)
    bounds = {"torque": late, "kick": kicks}
    if not math.isnan(knocks):
        bounds["knock"] = knocks - KEPT_FROM_KNOCK
    governs = min(bounds, key=lambda name: bounds[name])
    last = points[-1][1].fired.cycle
    names = [one.name for one in points[-1][1].fired.spec.volumes]
    plenum = len(plain.cylinders) + names.index("plenum")
    intake = float(
        np.trapezoid(last.curves.pressure[:, plenum], last.curves.time)
        / (last.curves.time[-1] - last.curves.time[0])
    )
    steady = all(point.fired.cycle.converged for _, point in points)
    air = float(np.mean([one.volumetric_efficiency for one in last.cylinders]))
    return _Cell(intake, air, bounds[governs], best, knocks, governs, steady)


def _swept(
    plain: PlainEngine, speed: float, stop: Stop | None
) -> list[tuple[float, OperatingPoint]]:
    found: list[tuple[float, OperatingPoint]] = []
    near: OperatingPoint | None = None
    for angle in _TRIED:
        try:
            near = operating_point(
                plain, "full_throttle", "", speed, assumed_warm(plain), -angle, with_peaks=False,
                start=near.fired.cycle.state if near else None,
                guess=near.fired.burns if near and not near.misfires else None, stop=stop,
            )  # fmt: skip
        except OutsideValidity:
            continue
        if not near.misfires:
            found.append((angle, near))
    return found if len(found) >= 3 else []


def _best(angles: Floats, torque: Floats) -> tuple[float, float]:
    """Angle of most torque by a parabola through its three highest, and the latest good enough."""
    at = int(np.clip(np.argmax(torque), 1, len(angles) - 2))
    a, b, c = np.polyfit(angles[at - 1 : at + 2], torque[at - 1 : at + 2], 2)
    best = float(np.clip(-b / (2 * a), angles[at - 1], angles[at + 1])) if a < 0.0 else float(
        angles[np.argmax(torque)]
    )  # fmt: skip
    most = max(float(np.polyval([a, b, c], best)), float(torque.max()))
    fine = np.linspace(angles[0], best, 200)
    gives = np.interp(fine, angles, torque)
    good = fine[gives >= most - GIVEN_UP * abs(most)]
    return best, float(good[0]) if len(good) else best


def _knocks(
    plain: PlainEngine, points: Sequence[tuple[float, OperatingPoint]], octane: float
) -> float:
    """The earliest spark that doesn't knock, rad; infinite where none tried does."""
    tops = tuple(firing_angles(plain))
    waits = [(angle, waited(point, tops, octane)) for angle, point in points]
    for (late, before), (early, after) in itertools.pairwise(waits):
        if before >= 1.0:
            return late
        if after >= 1.0:
            return late + (early - late) * (1.0 - before) / (after - before)
    return math.inf
