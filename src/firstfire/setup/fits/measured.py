"""Readings of a printer's holes and outsides, and of a bore, as they are typed."""

from __future__ import annotations

import re
import statistics
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field

from firstfire.engine.engine import Engine
from firstfire.engine.quantity import NotAQuantity, read_quantity, write_quantity
from firstfire.engine.read import LAYER_SCHEMA
from firstfire.errors import EngineFileError, Problem
from firstfire.formulas.normal import NINETY
from firstfire.setup.fits.bore import PLACES, Bore
from firstfire.setup.jobs_cylinder import REACH_OF_HOLE_ERROR

LIKE = '"hole 12=11.82 mm", "shaft 12=12.05 mm" or "bore top along=39.96 mm"'
TOOLS = {"hole": "caliper_inside", "shaft": "caliper"}
"""Instruments that both are read with, rows of the catalog."""
_PRINTED = re.compile(r"^(hole|shaft)\s+(.+)$")
_BORE = re.compile(rf"^(?:([12])\s+)?bore\s+({'|'.join(PLACES)})$")
_MOST_OFF = 1e-3
_BORE_OFF = 0.06
"""Share of the file's bore by which a reading may differ before it is taken for a slip."""
_LEAST_SCATTER = 0.01e-3
_ENOUGH = 3
"""Readings of a kind from which their own scatter is told."""


@dataclass(frozen=True)
class Printed:
    """One printed size.

    Attributes
    ----------
    kind
        ``hole`` or ``shaft``.
    drawn, measured
        m.
    """

    kind: str
    drawn: float
    measured: float

    @property
    def error(self) -> float:
        """How much larger it came out than drawn, m."""
        return self.measured - self.drawn


@dataclass(frozen=True)
class Habit:
    """How far a printer's holes or outsides come out, m.

    Attributes
    ----------
    kind
        ``hole`` or ``shaft``.
    error, low, high
        The mean of its readings, and between what it lies, 5-95 %.
    scatter
        Half width from print to print, 5-95 %; None of fewer than three readings.
    count
        Readings.
    """

    kind: str
    error: float
    low: float
    high: float
    scatter: float | None
    count: int


@dataclass(frozen=True)
class Readings:
    """What was measured.

    Attributes
    ----------
    printed
        Sizes of prints.
    bores
        By cylinder, from 1.
    """

    printed: tuple[Printed, ...] = ()
    bores: Mapping[int, Bore] = field(default_factory=dict)


def readings(engine: Engine, typed: Sequence[str]) -> Readings:
    """Readings as a person typed them.

    Parameters
    ----------
    engine
        How wide its bores should be.
    typed
        Each ``name=value``.

    Raises
    ------
    EngineFileError
        With every reading that is none.
    """
    problems: list[Problem] = []
    printed: list[Printed] = []
    bores: dict[int, dict[str, float]] = {}
    for text in typed:
        try:
            _one(engine, text, printed, bores)
        except NotAQuantity as why:
            problems.append(Problem(f'--measured "{text}"', why.fault, why.cure))
    if problems:
        raise EngineFileError("firstfire fits", problems)
    return Readings(tuple(printed), {number: Bore(read) for number, read in bores.items()})


def _one(
    engine: Engine, text: str, printed: list[Printed], bores: dict[int, dict[str, float]]
) -> None:
    name, equals, written = (piece.strip() for piece in text.partition("="))
    name = " ".join(name.lower().split())
    size, bore = _PRINTED.match(name), _BORE.match(name)
    if not equals or not (size or bore):
        raise NotAQuantity("is no reading of a fit", f"Write {LIKE}.")
    measured = read_quantity(written, "length", comma=True)
    if size:
        printed.append(_printed(size[1], size[2], measured))
    elif bore:
        _bore(engine, int(bore[1] or 1), bore[2], measured, bores)


def _printed(kind: str, drawn: str, measured: float) -> Printed:
    bare = drawn.replace(",", ".").replace(".", "", 1).isdecimal()
    size = read_quantity(f"{drawn} mm" if bare else drawn, "length", comma=True)
    low, high = REACH_OF_HOLE_ERROR
    if kind == "hole" and not low <= size <= high:
        raise NotAQuantity(
            f"is a hole of {1e3 * size:.4g} mm", "The printer's error is kept for holes of 5 to "
            "20 mm: measure one of those; larger ones come out otherwise.",
        )  # fmt: skip
    if abs(measured - size) > _MOST_OFF:
        raise NotAQuantity(
            f"is {1e3 * (measured - size):+.2f} mm off what was drawn",
            "No printer is a millimetre off: read it again, or the drawn size is another.",
        )
    return Printed(kind, size, measured)


def _bore(
    engine: Engine, number: int, place: str, measured: float, bores: dict[int, dict[str, float]]
) -> None:
    if number > engine.cylinders:
        raise NotAQuantity(f"is of cylinder {number}", f"{engine.name} has one cylinder.")
    asked = engine.values(number).number("cylinder.bore")
    if abs(measured / asked - 1) > _BORE_OFF:
        raise NotAQuantity(
            f"is {1e3 * measured:.2f} mm where the file's bore is {1e3 * asked:.2f} mm",
            "Read it again; a cylinder of another size is another file (cylinder.bore).",
        )
    bores.setdefault(number, {})[place] = measured


def habits(engine: Engine, printed: Sequence[Printed]) -> tuple[Habit, ...]:
    """What the readings say of the printer.

    Parameters
    ----------
    engine
        For its instruments' errors, and the scatter it is taken to have.
    printed
        Sizes read.
    """
    return tuple(_habits(engine, printed))


def _habits(engine: Engine, printed: Sequence[Printed]) -> Iterator[Habit]:
    usual = engine.values(1).number("printing.repeatability")
    for kind, tool in TOOLS.items():
        errors = [one.error for one in printed if one.kind == kind]
        if not errors:
            continue
        count, mean = len(errors), statistics.fmean(errors)
        scatter = NINETY * statistics.stdev(errors) if count >= _ENOUGH else None
        read = engine.catalog.row("instrument", tool).si("error")
        off = max(scatter or 0.0, usual if count < _ENOUGH else 0.0)
        # what the instrument is off by is the same each time: more readings do not thin it
        half = (off**2 / count + read**2) ** 0.5
        yield Habit(kind, mean, mean - half, mean + half, scatter, count)


def layer_text(found: Sequence[Habit]) -> str:
    """The printer layer's text.

    Parameters
    ----------
    found
        From `habits`, at least one.
    """
    read = ", ".join(f"{one.count} {one.kind}{'s' * (one.count > 1)}" for one in found)
    scatters = [one.scatter for one in found if one.scatter is not None]
    lines = [
        f'schema = "{LAYER_SCHEMA}"', 'layer = "printer"', f'origin = "measured prints: {read}"',
        'note = "measured with a caliper, mean of all"', "", "[set]",
    ]  # fmt: skip
    lines += [f"printing.{one.kind}_error = {_table(one)}" for one in found]
    if scatters:
        lines.append(f'printing.repeatability = "{_mm(max(*scatters, _LEAST_SCATTER))}"')
    return "\n".join(lines) + "\n"


def _table(one: Habit) -> str:
    """Its mean; the instrument says how far it may be off."""
    tool = TOOLS[one.kind]
    return f'{{ value = "{_mm(one.error)}", with = "{tool}" }}'


def _mm(metres: float) -> str:
    return write_quantity(round(metres, 6), "length", "mm")


def as_built(engine: Engine, number: int, bore: Bore) -> str:
    """What to write into the engine file so that it is reckoned with the bore as it is."""
    own = f"as_built.cylinders.{number}.cylinder" if engine.cylinders > 1 else "as_built.cylinder"
    return f'[{own}]\nbore = {{ value = "{_mm(bore.mean)}", with = "caliper_inside" }}'


def bore_layer_text(engine: Engine, bores: Mapping[int, Bore]) -> str:
    """The same as an overlay's text, so that the engine file stays as it is.

    Parameters
    ----------
    engine
        How many cylinders it has.
    bores
        By cylinder, from 1; at least one.
    """
    lines = [
        f'schema = "{LAYER_SCHEMA}"', 'layer = "as_built"', 'origin = "bore, measured"',
        'note = "mean of its readings"', "", "[set]",
    ]  # fmt: skip
    for number, bore in bores.items():
        own = f"cylinders.{number}." if engine.cylinders > 1 else ""
        lines.append(
            f'{own}cylinder.bore = {{ value = "{_mm(bore.mean)}", with = "caliper_inside" }}'
        )
    return "\n".join(lines) + "\n"
