"""A leak test from its readings to areas: what was asked, what was found, what to write."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

from firstfire.bench.gauge import GaugeCurve, Off, gauge_curve, total_leak
from firstfire.bench.layer_file import layer_text, shared_out
from firstfire.bench.learned_leak import (
    Area,
    LeakDown,
    Learned,
    Reading,
    from_gauge,
    from_leak_down,
)
from firstfire.engine.engine import Engine
from firstfire.engine.resolve import PlainEngine, resolve
from firstfire.engine.unknowns import unknowns
from firstfire.errors import FirstfireError
from firstfire.formulas.normal import NINETY, NINETY_FIVE
from firstfire.verdict.facts.cautions import Caution, cautions

# Standard deviations nobody states: a speed read off while it turns, a home-made cam's closing,
# a hose's volume once it was measured with water. Assumed.
_SPEED = 0.03
_CLOSING = math.radians(4)
_HOSE_MEASURED = 0.1
_DRILLED = 0.025e-3


@dataclass(frozen=True)
class GaugeTest:
    """A compression test as it was read; SI.

    Attributes
    ----------
    shows, oiled
        Gauge above the air, Pa: dry, and with a little oil on the rings where that was done.
    speed
        Mean cranking speed, rad/s.
    hose
        Volume between plug hole and check valve, m³; None: as the catalog has it.
    oil
        Put in for the second reading, m³.
    cylinder
        Counted from 1; None where it stands for all.
    """

    shows: float
    speed: float
    oiled: float | None = None
    hose: float | None = None
    oil: float = 0.3e-6
    cylinder: int | None = None


@dataclass(frozen=True)
class LeakDownTest:
    """A leak-down test as it was read; SI, pressures above the air.

    Attributes
    ----------
    supply, held
        Before and behind the tester's orifice, Pa.
    orifice
        Its diameter, m.
    cylinder
        As `GaugeTest`.
    """

    supply: float
    held: float
    orifice: float
    cylinder: int | None = None


@dataclass(frozen=True)
class LeakFound:
    """What a leak test says.

    Attributes
    ----------
    test
        As it was read.
    learned
        Areas with their 5-95 %.
    assumed
        All leaks of the cylinder together as file and layers have them, m².
    areas
        Shared out by leak, as the layer says them.
    tight
        What the gauge would show without a leak, Pa; None of a leak-down test.
    layer
        Text of the learned layer.
    cautions
        What to mind when it is done again.
    """

    test: GaugeTest | LeakDownTest
    learned: Learned
    assumed: float
    areas: dict[str, Area]
    tight: float | None
    layer: str
    cautions: tuple[Caution, ...]


def leak_test(engine: Engine, test: GaugeTest | LeakDownTest) -> LeakFound:
    """What a test's readings say of the leaks of an engine.

    Raises
    ------
    FirstfireError
        Where there is no such cylinder.
    OutsideValidity
        Where no leak explains the reading.
    """
    plain, row = resolve(engine), _row(engine, test.cylinder)
    tight = None
    if isinstance(test, GaugeTest):
        curve, learned = _gauged(engine, plain, row, test)
        tight = curve.tight
    else:
        learned = _leaked_down(engine, plain, test)
    parts = plain.cylinders[row]
    learned = replace(learned, total=_no_tighter(learned.total, _tightest(engine, row)))
    areas = shared_out(learned, parts)
    return LeakFound(
        test,
        learned,
        total_leak(parts),
        areas,
        tight,
        layer_text(areas, _origin(test), _note(test), test.cylinder),
        _to_mind(engine, plain, test),
    )


def _tightest(engine: Engine, row: int) -> float:
    """All leaks of a cylinder at their 5 %, as they are known without this test, m²."""
    own = f"cylinders.{row + 1}.leak." if engine.cylinders > 1 else "leak."
    return math.fsum(u.low for u in unknowns(engine) if u.path.startswith(own))


def _no_tighter(area: Area, floor: float) -> Area:
    """A gauge can't tell a tight cylinder from one still tighter: what is known before does."""
    floor = min(floor, area.middle)
    return replace(area, low=max(area.low, floor))


def _row(engine: Engine, cylinder: int | None) -> int:
    if cylinder is not None and not 1 <= cylinder <= engine.cylinders:
        many = "one cylinder" if engine.cylinders == 1 else f"cylinders 1 to {engine.cylinders}"
        raise FirstfireError(f"There is no cylinder {cylinder}: {engine.name} has {many}.")
    return (cylinder or 1) - 1


def _gauged(
    engine: Engine, plain: PlainEngine, row: int, test: GaugeTest
) -> tuple[GaugeCurve, Learned]:
    gauge = engine.catalog.row("instrument", "compression_gauge")
    volume = gauge["dead_volume"]
    spread = math.log(volume.si_high / volume.si_low) / (2 * NINETY_FIVE)
    heat = next(u for u in unknowns(engine) if u.path == "doubt.wall_heat")
    off = Off(
        speed=_SPEED,
        heat=math.log(heat.high / heat.low) / (2 * NINETY),
        closing=_CLOSING,
        dead=spread if test.hose is None else _HOSE_MEASURED,
    )
    hose = volume.si if test.hose is None else test.hose

    def reading(shows: float) -> Reading:
        error = math.hypot(gauge.si("error"), gauge.si("error_relative") * shows)
        return Reading(shows, error / NINETY_FIVE)

    dry = gauge_curve(plain, row, test.speed, hose, off)
    if test.oiled is None:
        return dry, from_gauge(dry, reading(test.shows))
    wet = gauge_curve(plain, row, test.speed, hose, off, test.oil)
    return dry, from_gauge(dry, reading(test.shows), (wet, reading(test.oiled)))


def _leaked_down(engine: Engine, plain: PlainEngine, test: LeakDownTest) -> Learned:
    error = engine.catalog.row("instrument", "compression_gauge").si("error") / NINETY_FIVE
    return from_leak_down(
        LeakDown(test.supply, test.held, error, test.orifice, _DRILLED,
                 plain.surroundings.air_pressure)
    )  # fmt: skip


def _origin(test: GaugeTest | LeakDownTest) -> str:
    if isinstance(test, GaugeTest):
        oiled = "" if test.oiled is None else f", {test.oiled / 1e5:.3g} bar with oil"
        rpm = test.speed * 30 / math.pi
        return f"compression gauge, {test.shows / 1e5:.3g} bar at {rpm:.0f} rpm{oiled}"
    return (
        f"leak-down test, {test.held / 1e5:.3g} of {test.supply / 1e5:.3g} bar held behind "
        f"{test.orifice * 1e3:.3g} mm"
    )


def _note(test: GaugeTest | LeakDownTest) -> str:
    if isinstance(test, GaugeTest) and test.oiled is not None:
        return (
            "rings by what oil closed; the rest shared out as the file had it; low and high: 5-95 %"
        )
    return "the reading tells the sum, shared out as the file had it; 5-95 %"


_PULLED = Caution(
    "spark",
    "Fuel off and drained, and the plug lead on an earthed spare plug, well away from the hole: "
    "cranked with its lead open a coil throws sparks beside what the hole blows out. Oil on the "
    "rings by drops: a spoonful fills a small chamber and locks it.",
    "turning it with the plug out",
)
_PUSHED = Caution(
    "air behind the piston",
    "A few bar turn the crank at once and hard: hold it with a long bar at exact top centre, stay "
    "out of its way, let air in slowly and no more than 3 bar on a printed or plastic part; "
    "behind a shield.",
    "leak-down test",
)
_WANTED = ("estimates", "rotating parts", "high voltage")


def _to_mind(
    engine: Engine, plain: PlainEngine, test: GaugeTest | LeakDownTest
) -> tuple[Caution, ...]:
    """Cautions of a test, those of this engine's own starter among them."""
    gauge = isinstance(test, GaugeTest)
    wanted = _WANTED if gauge else ("estimates", "proving with pressure")
    found = [
        c for c in cautions(engine, plain)
        if c.hazard in wanted or (gauge and c.hazard.startswith("starter"))
    ]  # fmt: skip
    return (*found, _PULLED if gauge else _PUSHED)
