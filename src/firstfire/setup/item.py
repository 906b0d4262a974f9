"""What is bought, what is measured on it when it comes, what is made at the bench, what is open."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace
from typing import TypeVar

GROUPS = (
    "Bearings", "Seals", "Tube, rod and sheet", "Screws", "Cam drive", "Valves", "Spark",
    "Fuel and air", "Starting and load", "Glue, grease and coatings",
)  # fmt: skip
"""Groups of bought things, by the shop or shelf they come from."""

PRACTICE = "common practice, no source"


@dataclass(frozen=True)
class Check:
    """What to measure on a bought thing when it comes.

    Attributes
    ----------
    of
        Which size: *bore*.
    tool
        Key of the catalog's instrument.
    how
        Where and how often.
    wanted, low, high
        What it should be and may be, SI; None where there is no number.
    unit
        In which a person reads it.
    why
        What hangs on it, and where the limits are from.
    """

    of: str
    tool: str
    how: str
    wanted: float | None
    low: float | None
    high: float | None
    unit: str
    why: str


@dataclass(frozen=True)
class Item:
    """Something to buy.

    Attributes
    ----------
    group
        One of `GROUPS`.
    what, size
        Its name, and its size in words for the counter.
    count
        How many.
    use
        Where it goes.
    standard
        The standard or table it follows, "" where there is none.
    source
        Where its sizes are from.
    path
        What of the engine file calls for it.
    checks
        What to measure on arrival.
    note
        What else to know.
    row
        Kind and key of the catalog row; ("", "") where there is none.
    length
        Of stock to cut from, m, for one; None where it isn't cut.
    mass
        Of one, kg, where it is known.
    """

    group: str
    what: str
    size: str
    count: int
    use: str
    standard: str
    source: str
    path: str
    checks: tuple[Check, ...] = ()
    note: str = ""
    row: tuple[str, str] = ("", "")
    length: float | None = None
    mass: float | None = None


@dataclass(frozen=True)
class Job:
    """Something to make by hand from what was bought or printed.

    Attributes
    ----------
    do
        *cut*, *drill*, *file*, *press*, *lap*, *turn*, *sand*.
    what
        The part.
    count
        How many times.
    size
        What to bring it to, in words.
    target, low, high
        The size that counts and its limits, m; None where there is no single one.
    tool
        What it is done and measured with.
    why
        What hangs on it, and where the tolerance is from.
    path
        What of the engine file calls for it.
    """

    do: str
    what: str
    count: int
    size: str
    target: float | None
    low: float | None
    high: float | None
    tool: str
    why: str
    path: str


@dataclass(frozen=True)
class Open:
    """Something the engine needs and its file doesn't size.

    Attributes
    ----------
    what
        Its name.
    why
        What is open, and what to mind when choosing.
    """

    what: str
    why: str


Counted = TypeVar("Counted", Item, Job)


def together(found: Iterable[Counted]) -> tuple[Counted, ...]:
    """Things alike in all but their number, as one with the sum of the numbers."""
    alike: dict[Counted, int] = {}
    for thing in found:
        key = replace(thing, count=0)
        alike[key] = alike.get(key, 0) + thing.count
    return tuple(replace(thing, count=count) for thing, count in alike.items())
