"""A start as it is set on the page: what was typed, made into a question, with every fault told."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass

from firstfire.engine.engine import Engine
from firstfire.engine.quantity import NotAQuantity, read_quantity
from firstfire.engine.read import with_values
from firstfire.engine.resolve import PlainEngine, resolve
from firstfire.engine.typed import typed
from firstfire.errors import EngineFileError, FirstfireError, Problem
from firstfire.runs.start.account import heard_at
from firstfire.runs.start.asked import Asked
from firstfire.runs.start.faults.all import FAULTS, with_faults
from firstfire.runs.start.faults.fault import Fault
from firstfire.runs.start.fuelling import pulses_of

SECONDS, AFTER = 3.0, 2.0
_MOST_PULSES, _MOST_PRIMED = 2000.0, 20e-6
_VALUES = {
    "starter": "starter.kind",
    "temperature": "surroundings.air_temperature",
    "stood": "use.stood",
}
"""Fields that are values of the engine file, laid over it for this start alone."""
_FAULT = "fault."
ENGINES = (12, 40, 100)
"""How many engines may be drawn for the odds."""


@dataclass(frozen=True)
class Set:
    """A start that can be run.

    Attributes
    ----------
    engine, asked
        The engine, faults and all, and how it is started.
    faults
        As `firstfire.runs.start.faults.all.with_faults` takes them.
    engines
        How many are drawn.
    """

    engine: Engine
    asked: Asked
    faults: tuple[str, ...]
    engines: int


@dataclass
class _Reading:
    """What is typed, read field by field; what is wrong is kept, to be told at once."""

    said: Mapping[str, str]
    wrong: list[Problem]

    def number(
        self, name: str, kind: str, unit: str, like: str, ends: tuple[float, float]
    ) -> float | None:
        """A field's number in SI within some ends; None where it is empty or wrong."""
        words = self.said.get(name, "").strip().replace(",", ".")
        if not words:
            return None
        words += unit if _bare(words) else ""
        try:
            value = float(read_quantity(words, kind))
        except NotAQuantity as why:
            self.wrong.append(Problem(name, why.fault, f"Write for example {like}."))
            return None
        if not ends[0] <= value <= ends[1]:
            self.wrong.append(Problem(name, "is beyond what makes sense", f"Write like {like}."))
            return None
        return value


def _bare(words: str) -> bool:
    return words.lstrip("+-").replace(".", "", 1).isdecimal()


def start_set(engine: Engine, said: Mapping[str, str]) -> Set:
    """The start that was set.

    Parameters
    ----------
    engine
        As it stands on the desk.
    said
        What was typed, by the fields' names; what is empty is as the engine has it.

    Raises
    ------
    EngineFileError
        With all that is wrong, each problem's path the field's name.
    """
    reading = _Reading(said, [])
    half = 0.5 * math.pi
    spark = reading.number("spark", "angle", " deg", "8", (-half, half))
    throttle = reading.number("throttle", "ratio", " %", "40 %", (0.001, 1.0))
    fuel = _fuel(reading)
    engine = _with_values(engine, reading)
    _refuse(reading.wrong)
    plain, faults = resolve(engine), _faults(said)
    prime = _primed(fuel, plain)
    asked = Asked(
        seconds=SECONDS, after=AFTER, advance=spark, throttle=throttle, seed=1,
        let_go_at=heard_at(plain), in_time=True, prime=prime,
    )  # fmt: skip
    if faults:
        engine, asked = _given(engine, asked, faults)
    return Set(engine, asked, faults, _engines(said))


def _refuse(wrong: list[Problem]) -> None:
    if wrong:
        raise EngineFileError("the start", wrong)


def _with_values(engine: Engine, reading: _Reading) -> Engine:
    """The engine with other air, another starter and another time of standing."""
    for name, path in _VALUES.items():
        words = reading.said.get(name, "").strip().replace(",", ".")
        if not words:
            continue
        if name == "temperature" and _bare(words):
            words += " degC"
        if name == "stood" and _bare(words):
            words += " h"
        try:
            engine = with_values(engine, {path: typed(path, words)}, origin="this start")
        except EngineFileError as why:
            reading.wrong += [Problem(name, one.fault, one.cure) for one in why.problems]
        except FirstfireError as why:
            reading.wrong.append(Problem(name, str(why), ""))
    return engine


def _fuel(reading: _Reading) -> tuple[float, float]:
    """Fuel beforehand as it was typed: pulses, and m³."""
    words = reading.said.get("prime", "").strip().replace(",", ".")
    if not words or _bare(words):
        return reading.number("prime", "ratio", "", "3", (0.0, _MOST_PULSES)) or 0.0, 0.0
    return 0.0, reading.number("prime", "volume", "", "0.1 ml", (0.0, _MOST_PRIMED)) or 0.0


def _primed(fuel: tuple[float, float], plain: PlainEngine) -> float:
    """Pulses of fuel in each port before the first turn.

    Raises
    ------
    EngineFileError
        Where its fuel is a gas, which nobody primes with.
    """
    pulses, volume = fuel
    if plain.fuel.gas and (pulses or volume):
        _refuse([Problem("prime", "can't be: its fuel is a gas", "Leave it empty.")])
    return pulses_of(plain, volume) if volume else pulses


def _faults(said: Mapping[str, str]) -> tuple[str, ...]:
    """Those that were ticked, with their sizes, in the order they are listed."""
    named = [fault for fault in FAULTS if _FAULT + fault.name in said]
    return tuple(_written(fault, said[_FAULT + fault.name]) for fault in named)


def _written(fault: Fault, size: str) -> str:
    size = size.strip().replace(",", ".")
    return f"{fault.name}={size}" if fault.size and size else fault.name


def _given(engine: Engine, asked: Asked, faults: tuple[str, ...]) -> tuple[Engine, Asked]:
    """With its faults; what is wrong with one is told at its field.

    Raises
    ------
    EngineFileError
        As `start_set` has it.
    """
    try:
        return with_faults(engine, asked, faults)
    except EngineFileError as why:
        wrong = [Problem(_field_of(p.path), p.fault, _cure(p.cure)) for p in why.problems]
        raise EngineFileError("the start", wrong) from None


def _field_of(path: str) -> str:
    """The field's name of what a fault's problem is at."""
    name = path.removeprefix("--fault ").partition("=")[0].partition(":")[0]
    return _FAULT + name.strip()


def _cure(words: str) -> str:
    """As a page says it: it has fields, no options."""
    before, option, after = words.partition("--fault ")
    return f"{before}{after.partition('=')[2].strip()}" if option and "=" in after else words


def _engines(said: Mapping[str, str]) -> int:
    wanted = said.get("engines", "")
    return int(wanted) if wanted in {str(count) for count in ENGINES} else ENGINES[1]
