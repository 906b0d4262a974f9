"""Every chapter of setting up.

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
from firstfire.setup.compression import chapter as gauge
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
    Listed("cams", "Cams, springs and gaps", cams_chapter),
    Listed("spark", "Spark", spark_chapter),
    Listed("wiring", "Wiring", wiring_chapter),
    Listed("fuel", "Fuel, tank and air", fuel_chapter),
    Listed("fits", fits.TITLE, fits.fits_chapter),
    Listed("proof", proof.TITLE, proof.proof_chapter),
)
"""Those that stand on a page of their own numbers and pictures too."""

_OF_WORK = ("parts", "proof", "fits", "cams", "compression", "wiring", "tables", "spark", "fuel")
"""The order in which an engine is set up; another chapter comes behind."""


def of_folder(held: Held, cranked: Compression) -> tuple[Listed, ...]:
    """Every chapter of a folder, in the order of the work, with what other commands show too.

    Parameters
    ----------
    held, cranked
        What its controller holds, and what a gauge should read: found already, as that takes as
        long as all the rest.
    """
    more = (
        Listed("parts", parts.TITLE, lambda engine: parts.parts_chapter(parts_list(engine))),
        Listed("compression", gauge.TITLE, lambda _: gauge.compression_chapter(cranked)),
        Listed("tables", tables.TITLE, lambda _: tables.tables_chapter(held)),
    )
    place = {ident: at for at, ident in enumerate(_OF_WORK)}
    return tuple(sorted((*CHAPTERS, *more), key=lambda one: place.get(one.id, len(place))))


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
