"""Rows of the catalog for one place of an engine: what each does, and why some can't fit there."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass

from firstfire.catalog import Row
from firstfire.engine.engine import Engine
from firstfire.engine.grammar import leaves
from firstfire.engine.read import with_values
from firstfire.engine.resolve import resolve
from firstfire.errors import EngineFileError, FirstfireError, Stopped
from firstfire.verdict.numbers import figures

_TELLING = {
    "material": ("strength_in_plane", "strength_across", "continuous_use", "density"),
    "bearing": ("dynamic_load", "speed_limit"),
    "thread": ("stress_area",),
    "insert": ("length", "pull_out"),
    "fuel": ("air_fuel_ratio", "heating_value"),
    "starter": ("no_load_speed", "stall_torque"),
}
"""What tells rows of a kind apart by what they do; of other kinds it is their first three numbers.
"""
_MOST_FAR = 12
"""Rows that can't fit and are told with their reasons: of three hundred seals the nearest."""


@dataclass(frozen=True)
class Offer:
    """One row for one place.

    Attributes
    ----------
    key, name
        Of the row.
    does
        What it bears, weighs, is made for: in figures.
    why_not
        Why it can't fit there; "" where it can.
    lacks
        What the row that is there tells and this one doesn't; "" where nothing.
    like
        Whether it is of the same structure as what is there: rubber for rubber, metal for metal.
    """

    key: str
    name: str
    does: str
    why_not: str
    lacks: str
    like: bool = True


def offers(engine: Engine, path: str, stop: Callable[[], bool]) -> Iterator[Offer]:
    """Every row that a place may name, each really put there.

    Parameters
    ----------
    engine
        As it stands.
    path
        Of a value that names a row.
    stop
        Asked between two rows.

    Raises
    ------
    Stopped
        If ``stop`` said so.
    """
    kind = leaves()[path].row_kind
    said = engine.values(1).spoken(path).value
    present = engine.catalog.row(kind, str(said)) if said else None
    for row in engine.catalog.rows(kind):
        if stop():
            raise Stopped("Something newer is asked.")
        why_not, like = _why_not(engine, path, row.key), _like(row, present)
        yield Offer(row.key, row.name, _does(row), why_not, _lacks(row, present), like)


def _does(row: Row) -> str:
    names = _TELLING.get(row.kind, tuple(row.data)[:3])
    told = [
        f"{name.replace('_', ' ')} {figures(datum.value)} {_unit(datum.unit)}".strip()
        for name in names
        if (datum := row.get(name)) is not None
    ]
    said = [row.texts[name] for name in ("made", "note") if name in row.texts]
    return "; ".join([*said, *told])


def _unit(unit: str) -> str:
    named = {"dimensionless": "", "degC": "°C", "percent": "%"}.get(unit, unit)
    return named.replace("^2", "²").replace("^3", "³").replace("*", "·")


def _why_not(engine: Engine, path: str, key: str) -> str:
    try:
        resolve(with_values(engine, {path: key}, origin="a row of the catalog", comma=False))
    except EngineFileError as why:
        first = why.problems[0]
        return f"{first.path} {first.fault}. {first.cure}"
    except FirstfireError as why:
        return str(why)
    return ""


def _like(row: Row, present: Row | None) -> bool:
    name = "structure"
    return present is None or row.texts.get(name) == present.texts.get(name)


def _lacks(row: Row, present: Row | None) -> str:
    """Numbers that judgements lean on and that aren't known of it."""
    wanted = [name for name in _TELLING.get(row.kind, ()) if present and present.get(name)]
    return ", ".join(name.replace("_", " ") for name in wanted if row.get(name) is None)


def nearest(found: list[Offer], present: str) -> tuple[list[Offer], list[Offer], int]:
    """Those that fit, those that don't and stand nearest to them in the catalog, and how many more.

    Parameters
    ----------
    found
        All, in the order of the catalog, which goes by size.
    present
        Key of the row that is there.
    """
    fit = [one for one in found if not one.why_not]
    places = [at for at, one in enumerate(found) if not one.why_not or one.key == present]

    def far(at: int) -> int:
        return min((abs(at - place) for place in places), default=at)

    others = [at for at, one in enumerate(found) if one.why_not]
    shown = sorted(sorted(others, key=far)[:_MOST_FAR])
    return fit, [found[at] for at in shown], len(others) - len(shown)
