"""Every chapter of setting up, in the order in which they are read.

A new chapter is a file that gives a `Chapter` of an engine, and its line here; terminal, page and
JSON follow. Its sheets, if it has any, are a file in `drawing/templates` and a line in its `all`.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import NamedTuple

from firstfire.engine.engine import Engine
from firstfire.errors import OutsideValidity
from firstfire.setup.cams.chapter import cams_chapter
from firstfire.setup.chapter import Chapter
from firstfire.setup.fits import chapter as fits
from firstfire.setup.fuel.chapter import fuel_chapter
from firstfire.setup.proof import chapter as proof
from firstfire.setup.spark.chapter import spark_chapter
from firstfire.setup.wiring.chapter import wiring_chapter


class Listed(NamedTuple):
    """A chapter by its id and title, and what gives it; None where an engine has no such thing."""

    id: str
    title: str
    made: Callable[[Engine], Chapter | None]


CHAPTERS = (
    Listed("cams", "Cams, springs and gaps", cams_chapter),
    Listed("spark", "Spark", spark_chapter),
    Listed("wiring", "Wiring", wiring_chapter),
    Listed("fuel", "Fuel, tank and air", fuel_chapter),
    Listed("fits", fits.TITLE, fits.fits_chapter),
    Listed("proof", proof.TITLE, proof.proof_chapter),
)


def chapters(engine: Engine, listed: tuple[Listed, ...] = CHAPTERS) -> tuple[Chapter, ...]:
    """Every chapter that an engine has; one whose models don't hold for it says so."""
    return tuple(found for one in listed if (found := _made(one, engine)) is not None)


def _made(one: Listed, engine: Engine) -> Chapter | None:
    try:
        return one.made(engine)
    except OutsideValidity as why:
        return Chapter(one.id, one.title, (f"Not judged: {why}",))
