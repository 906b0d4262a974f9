"""A row of the catalog: numbers that say where they come from, curves, and words."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from firstfire.catalog.names import nearest
from firstfire.errors import CatalogError


@dataclass(frozen=True, slots=True)
class Datum:
    """One number of one row, with its spread, its source and how sure it is.

    Attributes
    ----------
    value, low, high
        As the table writes them, in `unit`. `value` is what to use when nothing better is
        known; `low` and `high` are the spread over makers, papers and printers. An exact size
        of a standard has all three alike.
    unit
        As written in the table.
    si, si_low, si_high
        The same three in SI (kelvin for temperatures, a fraction for a percentage).
    source
        Full text of the source.
    sure
        One of `firstfire.catalog.entry.SURE`.
    """

    value: float
    low: float
    high: float
    unit: str
    si: float
    si_low: float
    si_high: float
    source: str
    sure: str


@dataclass(frozen=True, slots=True)
class CurvePoint:
    """One point of a curve.

    Attributes
    ----------
    at
        Where on the axis: kelvin on a curve of temperature, second on one of time, and the
        fraction of the way from 23 degC to softening on `relaxation_warm`.
    value, low, high
        Fraction of what the material does at 23 degC (or just after loading); low and high are
        5-95 %.
    axis
        ``"temperature"``, ``"time"`` or ``"softening"``.
    source, sure
        As in `Datum`.
    load_time
        How long the load acts in that test, second; None where the table doesn't say.
    at_low, at_high
        Spread of `at` itself; equal to `at` where the table gives none.
    """

    at: float
    value: float
    low: float
    high: float
    axis: str
    source: str
    sure: str
    load_time: float | None = None
    at_low: float = 0.0
    at_high: float = 0.0

    @property
    def temperature(self) -> float:
        """Temperature of the point, kelvin.

        Raises
        ------
        CatalogError
            Where the curve does not run over temperature.
        """
        if self.axis != "temperature":
            raise CatalogError(f"a point of a curve over {self.axis} has no temperature of its own")
        return self.at


@dataclass(frozen=True, slots=True)
class Row:
    """One row: what is known of one material, bearing, ring, thread, fuel ...

    Attributes
    ----------
    kind, key
        Where it stands: ``material``, ``petg``.
    name
        As a person would say it.
    origin
        ``"catalog"`` for a shipped row, ``"yours"`` for one of a person's own files.
    data, texts, curves
        Numbers, words (note, hazard, standard ...) and curves by name.
    aliases
        Other names under which the row is found.
    """

    kind: str
    key: str
    name: str
    origin: str
    data: Mapping[str, Datum]
    texts: Mapping[str, str] = field(default_factory=dict)
    curves: Mapping[str, tuple[CurvePoint, ...]] = field(default_factory=dict)
    aliases: tuple[str, ...] = ()

    def __getitem__(self, prop: str) -> Datum:
        """Give the number called `prop`.

        Raises
        ------
        CatalogError
            Where the row doesn't have it; the message says how to add it.
        """
        if prop in self.data:
            return self.data[prop]
        near = nearest(prop, self.data)
        hint = f" It has {', '.join(near)}." if near else ""
        raise CatalogError(
            f'{self.kind} "{self.name}" has no {prop}.{hint}'
            f" Add it in your own catalog.toml under [{self.kind}.{self.key}]."
        )

    def get(self, prop: str) -> Datum | None:
        """Number called `prop`, or None where the row doesn't have it."""
        return self.data.get(prop)

    def si(self, prop: str) -> float:
        """Value of `prop` in SI; raises `CatalogError` where the row doesn't have it."""
        return self[prop].si

    def curve(self, name: str) -> tuple[CurvePoint, ...]:
        """Curve called `name`, sorted along its axis; empty where the row has none."""
        return self.curves.get(name, ())
