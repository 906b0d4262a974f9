"""Chapters of a set-up folder beside timing: each as text and JSON, with what is printed for it.

A new one is a function of an engine in `CHAPTERS`.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass

from firstfire.drawing.pdf import Paper
from firstfire.engine.engine import Engine
from firstfire.engine.pieces import Piece
from firstfire.report.shop import ENDS, piece_files
from firstfire.setup.fits.fits import fits
from firstfire.setup.fits.gauge import gauge
from firstfire.setup.proof.bench_tests import bench_tests
from firstfire.setup.set_up_contract import ChapterTold

PIECES = "pieces"
"""Folder that what is printed stands in."""


@dataclass(frozen=True)
class Chapter:
    """One subject.

    Attributes
    ----------
    slug, title
        What its files are called, and what it is about.
    text, json
        As the terminal has it, and for machines.
    pieces
        What is printed for it.
    """

    slug: str
    title: str
    text: str
    json: str
    pieces: tuple[Piece, ...] = ()

    @property
    def names(self) -> list[str]:
        """Its files below the folder."""
        drawn = [f"{PIECES}/{piece.slug}.{end}" for piece in self.pieces for end in ENDS]
        return [f"{self.slug}.txt", f"{self.slug}.json", *drawn]

    @property
    def told(self) -> ChapterTold:
        """As the folder's JSON has it."""
        return ChapterTold(slug=self.slug, title=self.title, files=self.names)

    def files(self, engine: str, paper: Paper) -> Iterator[tuple[str, bytes]]:
        """Each file's name below the folder, and what is in it."""
        yield f"{self.slug}.txt", f"{self.text}\n".encode()
        yield f"{self.slug}.json", self.json.encode()
        for name, data in piece_files(engine, self.pieces, paper):
            yield f"{PIECES}/{name}", data


def fits_chapter(engine: Engine) -> Chapter:
    """Seats, clearances, belt, torques, sealant, and the printer's gauge."""
    found = fits(engine)
    return Chapter("fits", "Fits, clearances and torques", str(found), found.to_json(),
                   (gauge(found.seats),))  # fmt: skip


def proof_chapter(engine: Engine) -> Chapter:
    """Test pieces, and proof before the first fire."""
    found = bench_tests(engine)
    return Chapter("coupon", "Test pieces, and proof before the first fire", str(found),
                   found.to_json(), tuple(one.piece for one in found.coupons))  # fmt: skip


CHAPTERS: tuple[Callable[[Engine], Chapter], ...] = (fits_chapter, proof_chapter)
"""What `firstfire setup` writes beside timing, in this order."""
