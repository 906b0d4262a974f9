"""All tables of an engine: pulses, end angles, spark, and what corrects them."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator
from dataclasses import dataclass

import numpy as np

from firstfire.engine.engine import Engine
from firstfire.engine.resolve import PlainEngine, resolve
from firstfire.errors import EngineFileError, FirstfireError
from firstfire.formulas import injector as law
from firstfire.runs.breathed import Breathed
from firstfire.runs.start.asked import CHOKED
from firstfire.setup.fuel.cold import ZERO
from firstfire.setup.fuel.drawn import Drawn, Stop, silent
from firstfire.setup.fuel.injector import InjectorFacts, pulse_at
from firstfire.setup.fuel.sheet import FuelSheet, fuel_sheet
from firstfire.setup.tables.advance import TENTH, advance_of, looked_for
from firstfire.setup.tables.grid import (
    Grid,
    Tell,
    grid,
    openings_of,
    speeds_of,
    straight_off,
)
from firstfire.setup.tables.table import Table, table

_RPM = math.pi / 30.0
_MICRO, _PERMILLE, _PERCENT = 1e-6, 1e-3, 1e-2
_OVER = ("cylinder", "throttle_permille", "speed_rpm")
CLOSE = 0.03
"""How far a mixture may be off between places without a word."""


@dataclass(frozen=True)
class TableSet:
    """An engine's tables.

    Attributes
    ----------
    engine, plain
        As written down, and its plain numbers.
    tables
        Those that others go by first.
    constants
        Single whole numbers by name, each with what it is.
    off
        Largest share by which the air between places is off a straight line; None without fuel.
    notes
        What to know of them, in sentences.
    """

    engine: Engine
    plain: PlainEngine
    tables: tuple[Table, ...]
    constants: tuple[tuple[str, int, str], ...]
    off: float | None
    notes: tuple[str, ...]

    def named(self, name: str) -> Table:
        """The table of a name."""
        return next(one for one in self.tables if one.name == name)


def tables(engine: Engine, *, stop: Stop = None, tell: Tell | None = None) -> TableSet:
    """Tables over an engine's own speeds and loads.

    Parameters
    ----------
    engine
        As written down.
    stop, tell
        Asked at least every 0.1 s; told what is run and the share done.

    Raises
    ------
    EngineFileError
        With all that its injector can't do, and the nearest that works.
    FirstfireError
        For an engine with neither injector nor timed spark.
    """
    said = tell or silent
    plain = resolve(engine)
    timed = plain.spark.source == "sensor"
    why = no_controller(plain)
    if why:
        raise FirstfireError(f"{engine.where} has {why}")
    sheet = fuel_sheet(engine, stop=stop, tell=lambda what, share: said(what, 0.1 * share))
    refused = [one for one in sheet.faults if one.path.startswith("injector")]
    if refused:
        raise EngineFileError(engine.where, refused)
    metered = sheet.injector is not None
    places = (
        grid(plain, stop, lambda what, share: said(what, 0.1 + 0.5 * share))
        if metered else Grid(speeds_of(plain), openings_of(plain, stop), ())
    )  # fmt: skip
    found = [*_axes(places)]
    off, said_of_spark = None, tuple[str, ...]()
    constants = list(_constants(sheet, places))
    if sheet.injector is not None:
        found += _fuel(sheet, places)
        off = straight_off(plain, places, stop, lambda what, share: said(what, 0.6 + 0.2 * share))
    if timed:
        said("advance", 0.8)
        looked = looked_for(engine, plain, stop)
        found.append(advance_of(places, looked))
        start = round(looked.start / TENTH)
        constants.append(("START_TENTH_DEGREE", start, "spark before top to ask for, starting"))
        said_of_spark = looked.notes
    notes = (*_notes(sheet, places, off), *(f"Spark: {said}." for said in said_of_spark))
    return TableSet(engine, plain, tuple(found), tuple(constants), off, notes)


def no_controller(plain: PlainEngine) -> str:
    """Why an engine has nothing to table, as it goes on after *has*; "" where it has a controller.

    Parameters
    ----------
    plain
        Its plain numbers.
    """
    if plain.spark.source == "sensor" or plain.intake.mixture_by == "injector":
        return ""
    return (
        f"a {plain.intake.mixture_by.replace('_', ' ')} and breaker points: no controller, so "
        'nothing to table. With spark.source = "sensor" or intake.mixture_by = "injector" there is.'
    )


def _axes(places: Grid) -> Iterator[Table]:
    yield table("speed_rpm", "crank speed", "1 rpm", _RPM, places.speeds)
    yield table(
        "throttle_permille", "throttle opening, 1000 is wide open", "0.001", _PERMILLE,
        places.openings,
    )  # fmt: skip


def _fuel(sheet: FuelSheet, places: Grid) -> Iterator[Table]:
    plain, fuel = sheet.plain, sheet.fuel
    count = len(plain.cylinders)

    def pulses(one: Breathed, row: int) -> float:
        return pulse_at(plain, fuel, Drawn("full", "", one)).times[row]

    def ends(one: Breathed, row: int) -> float:
        return pulse_at(plain, fuel, Drawn("full", "", one)).own_ends[row] % (4.0 * math.pi)

    for name, what, unit, scale, asked in (
        ("pulse_us", "time that the injector is switched on, dead time included", "1 us", _MICRO,
         pulses),
        ("end_tenth_degree", "crank angle after the cylinder's own firing top at which it is "
         "switched off", "0.1 degree", TENTH, ends),
    ):  # fmt: skip
        values = np.array([places.of(_of(asked, row)) for row in range(count)])
        yield table(name, what, unit, scale, values, _OVER)
    yield table(
        "intake_hectopascal", "mean pressure in the intake, for whoever measures that", "1 hPa",
        100.0, places.of(lambda one: sum(one.intake) / len(one.intake)), _OVER[1:],
    )  # fmt: skip
    yield from _corrections(sheet)


def _of(asked: Callable[[Breathed, int], float], row: int) -> Callable[[Breathed], float]:
    return lambda one: asked(one, row)


def _corrections(sheet: FuelSheet) -> Iterator[Table]:
    """What a pulse is corrected by: voltage, warmth, air."""
    rows, cold = sheet.plain.injector.dead_times, sheet.cold
    yield table("dead_tenth_volt", "voltage at the injector", "0.1 V", 0.1, [v for v, _ in rows])
    yield table("dead_us", "dead time at that voltage", "1 us", _MICRO, [t for _, t in rows],
                ("dead_tenth_volt",))  # fmt: skip
    each = (
        ("start", "of a first charge, drawn while cranking into a dry engine",
         [(one.temperature, one.times) for one in cold.start]),
        ("warm_up", "while it warms up",
         [(one.temperature, one.times) for one in cold.warm_up]),
        ("air", "by the temperature of the air, of a warm engine",
         [(one.temperature, one.times) for one in cold.density]),
    )  # fmt: skip
    for name, what, pairs in each:
        if not pairs:
            continue
        of = "air" if name == "air" else "engine"
        yield table(f"{name}_celsius", f"temperature of the {of}", "1 degree C", 1.0,
                    [warm - ZERO for warm, _ in pairs])  # fmt: skip
        yield table(
            f"{name}_percent", f"fuel against the table's, {what}", "0.01", _PERCENT,
            [CHOKED if times is None else times for _, times in pairs], (f"{name}_celsius",),
        )  # fmt: skip


def _constants(sheet: FuelSheet, places: Grid) -> Iterator[tuple[str, int, str]]:
    yield "CYLINDERS", len(sheet.plain.cylinders), "cylinders"
    yield "LOADS", len(places.openings), "throttle openings"
    yield "SPEEDS", len(places.speeds), "speeds"
    if sheet.injector is None:
        return
    yield from _pulse_constants(sheet, sheet.injector)


def _pulse_constants(sheet: FuelSheet, injector: InjectorFacts) -> Iterator[tuple[str, int, str]]:
    told, cold = sheet.plain.injector, sheet.cold
    dead = law.dead_time(told.voltage, told.dead_times)
    yield "DEAD_TIME_US", round(dead / _MICRO), "dead time within pulse_us, us"
    crank = injector.pulses[0]
    yield "CRANKING_US", round(max(crank.times) / _MICRO), "pulse of a warm cranked engine, us"
    yield ("CRANKING_DEAD_TIME_US", round(crank.dead_time / _MICRO), "dead time within it, us")
    if cold.on is None or cold.primed_map is None or cold.primed_map.wanted is None:
        return
    yield "PRIMING_US", round(cold.on / _MICRO), "one priming pulse, us"
    yield "PRIMING_PULSES", cold.primed_map.wanted, "priming pulses into each port, cold"
    if cold.primed_map.too_many is not None:
        yield "PRIMED_TOO_MUCH", cold.primed_map.too_many, "priming pulses that flood it"


def _notes(sheet: FuelSheet, places: Grid, off: float | None) -> Iterator[str]:
    if off is not None:
        kept = "within" if off <= CLOSE else "only within"
        yield (
            "Between places go straight in speed and opening: the mixture then stays "
            f"{kept} {1e2 * off:.1f} % of what is asked."
        )
        yield (
            "Corrected pulse: (pulse_us - DEAD_TIME_US) * percent / 100 for each correction that "
            "applies, then + dead_us at the voltage measured."
        )
        if any(one.times is None for one in (*sheet.cold.start, *sheet.cold.warm_up)):
            yield (
                "Where 400 percent stand, even four times the fuel do not make the mixture: warm "
                "it first."
            )
    if places.missing:
        yield (
            f"At {places.missing} of {places.openings.size * places.speeds.size} places not every "
            "cylinder burns; between others that do they hold what would be right if it did."
        )
