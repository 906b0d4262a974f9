"""What a set-up folder has besides its sheets: numbers of fits and test pieces, things to print."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from firstfire.drawing.pdf import Paper
from firstfire.engine.engine import Engine
from firstfire.engine.pieces import Piece
from firstfire.report.shop import ENDS, piece_files
from firstfire.setup.fits.fits import fits
from firstfire.setup.fits.gauge import gauge
from firstfire.setup.proof.bench_tests import bench_tests

PIECES = "pieces"
"""Folder that what is printed stands in."""


@dataclass(frozen=True)
class Printed:
    """Numbers of one subject, and what is printed for it.

    Attributes
    ----------
    section
        Id of the chapter that it goes with.
    slug
        What its JSON is called.
    json
        Its numbers, SI.
    pieces
        What is printed.
    """

    section: str
    slug: str
    json: str
    pieces: tuple[Piece, ...]

    @property
    def names(self) -> list[str]:
        """Its files below the folder."""
        drawn = [f"{PIECES}/{piece.slug}.{end}" for piece in self.pieces for end in ENDS]
        return [f"{self.slug}.json", *drawn]

    @property
    def pieces_words(self) -> str:
        """What is printed, in a line."""
        return ", ".join(f"{PIECES}/{piece.slug}" for piece in self.pieces)

    def files(self, engine: str, paper: Paper) -> Iterator[tuple[str, bytes]]:
        """Each file's name below the folder, and what is in it."""
        yield f"{self.slug}.json", self.json.encode()
        for name, data in piece_files(engine, self.pieces, paper):
            yield f"{PIECES}/{name}", data


def printed(engine: Engine) -> tuple[Printed, ...]:
    """The printer's gauge with the fits, and the test pieces."""
    sits, breaks = fits(engine), bench_tests(engine)
    return (
        Printed("fits", "fits", sits.to_json(), (gauge(sits.seats),)),
        Printed("proof", "coupon", breaks.to_json(), tuple(one.piece for one in breaks.coupons)),
    )
