"""Every chapter of setting up, in the order of the work.

A new chapter is a file that gives a `Chapter` of an engine, and its line here; terminal, page and
JSON follow. Its sheets, if it has any, are a file in `drawing/templates` and a line in its `all`.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import NamedTuple

from firstfire.engine.engine import Engine
from firstfire.errors import OutsideValidity, Stopped
from firstfire.setup import parts_chapter as parts
from firstfire.setup.cams.chapter import cams_chapter
from firstfire.setup.chapter import Chapter
from firstfire.setup.compression import chapter as compression
from firstfire.setup.compression.readings import Compression
from firstfire.setup.fits import chapter as fits
from firstfire.setup.fuel.chapter import fuel_chapter
from firstfire.setup.fuel.drawn import Stop
from firstfire.setup.parts_list import parts_list
from firstfire.setup.proof import chapter as proof
from firstfire.setup.spark.chapter import spark_chapter
from firstfire.setup.tables import chapter as tables
from firstfire.setup.tables.held import Held
from firstfire.setup.wiring.chapter import wiring_chapter


class Listed(NamedTuple):
    """A chapter by its id and title, and what gives it; None where an engine has no such thing."""

    id: str
    title: str
    made: Callable[[Engine], Chapter | None]


CHAPTERS = (
    Listed("parts", parts.TITLE, lambda engine: parts.parts_chapter(parts_list(engine))),
    Listed("proof", proof.TITLE, proof.proof_chapter),
    Listed("fits", fits.TITLE, fits.fits_chapter),
    Listed("cams", "Cams, springs and gaps", cams_chapter),
    Listed("compression", compression.TITLE, compression.of_engine),
    Listed("wiring", "Wiring", wiring_chapter),
    Listed("spark", "Spark", spark_chapter),
    Listed("fuel", "Fuel, tank and air", fuel_chapter),
)
_BEFORE = "spark"
"""Chapter before which a controller is told its tables."""


def listed_with(held: Held, cranked: Compression) -> tuple[Listed, ...]:
    """Every chapter, with what was found already put in: it takes as long as all the rest.

    Parameters
    ----------
    held
        What its controller holds; without it there is no chapter of tables.
    cranked
        What a gauge should read.
    """
    ready = Listed("compression", compression.TITLE,
                   lambda _: compression.compression_chapter(cranked))  # fmt: skip
    told = [ready if one.id == ready.id else one for one in CHAPTERS]
    at = next(place for place, one in enumerate(told) if one.id == _BEFORE)
    own = Listed("tables", tables.TITLE, lambda _: tables.tables_chapter(held))
    return (*told[:at], own, *told[at:])


def chapters(
    engine: Engine, listed: tuple[Listed, ...] = CHAPTERS, stop: Stop = None
) -> tuple[Chapter, ...]:
    """Every chapter that an engine has; one whose models don't hold for it says so.

    Parameters
    ----------
    engine
        As written down.
    listed
        Which, in order.
    stop
        Asked before each.

    Raises
    ------
    Stopped
        If `stop` said so.
    """
    found = []
    for one in listed:
        if stop is not None and stop():
            raise Stopped("Stopped before all chapters were found; nothing was written.")
        found.append(_made(one, engine))
    return tuple(one for one in found if one is not None)


def _made(one: Listed, engine: Engine) -> Chapter | None:
    try:
        return one.made(engine)
    except OutsideValidity as why:
        return Chapter(one.id, one.title, (f"Not judged: {why}",))
