"""Fits, clearances and torques as a chapter of setting up."""

from __future__ import annotations

from collections.abc import Iterator

from firstfire.engine.engine import Engine
from firstfire.setup.chapter import Chapter, Table
from firstfire.setup.fits import words
from firstfire.setup.fits.bore import HOW
from firstfire.setup.fits.fits import Fits, fits
from firstfire.setup.fits.text import belt_words
from firstfire.setup.fits.text_torques import sealant_words, span, torque_words
from firstfire.setup.fits.torques import Torque
from firstfire.setup.words import bare_mm, by, percent
from firstfire.verdict.numbers import figures, shown

TITLE = "Fits, clearances and torques"


def fits_chapter(engine: Engine) -> Chapter:
    """What sits in what, what to draw, and what to set."""
    found = fits(engine)
    return Chapter("fits", TITLE, tuple(_said(found)), (), tuple(_tables(found)), words.CAUTION)


def _said(found: Fits) -> Iterator[str]:
    yield words.opening(found)
    yield from words.habit_words(found)
    yield HOW
    for one in found.cylinders:
        whose = f"Cylinder {one.number}: " if len(found.cylinders) > 1 else ""
        yield f"{whose}{words.ring_words(one.ring)}"
    yield from belt_words(found)
    for screws in found.torques:
        yield " ".join(torque_words(screws))
    if found.sealant is not None:
        yield from sealant_words(found.sealant)


def _tables(found: Fits) -> Iterator[Table]:
    yield _seats(found)
    yield from _orings(found)
    yield Table(
        "Clearances, mm", ("what", "file", "should be", "how"),
        tuple(
            (one.what, "–" if one.as_filed is None else f"{1e3 * one.as_filed:.2f}",
             f"{1e3 * one.least:.2f} to {1e3 * one.most:.2f}", one.how)
            for one in found.clearances
        ),
    )  # fmt: skip
    yield from (_again(one) for one in found.torques if one.again)
    if found.sealant is not None and found.sealant.worth:
        yield Table(
            "What a shorter cure stands, cold", ("cured for", "stands", "of all"),
            tuple((span(one.seconds), shown(one.holds, "bar", 2), percent(one.share))
                  for one in found.sealant.worth),
        )  # fmt: skip


def _seats(found: Fits) -> Table:
    rows = []
    for seat in found.seats:
        fit, frees = seat.pressing, words.frees(seat)
        rows.append((
            f"{seat.pin} in {seat.hub}" + (f" ×{seat.count}" if seat.count > 1 else ""),
            bare_mm(seat.nominal), words.classes(seat), words.tight(seat.tight),
            words.drawn_words(seat), "–" if fit is None else words.force(fit.force),
            words.celsius(frees), words.more_words(seat),
        ))  # fmt: skip
    head = ("seat", "mm", "class", "sits", "draw", "press", "lets go at", "how")
    return Table("Seats and pins", head, tuple(rows))


def _orings(found: Fits) -> Iterator[Table]:
    suits = found.cylinders[0].suits
    if suits:
        rows = tuple(
            (one.name, by(one.inside, one.section), f"{1e3 * one.groove:.2f}",
             f"{1e3 * one.depth:.2f}", f"{1e3 * one.width:.2f}", percent(one.stretch, 1),
             "–" if one.as_drawn is None or one.as_drawn < 0 else percent(one.as_drawn))
            for one in suits
        )  # fmt: skip
        head = ("O-ring", "free", "groove, mm", "deep", "wide", "stretch", "squeeze as drawn")
        yield Table("O-rings that suit the bore of cylinder 1", head, rows)


def _again(screws: Torque) -> Table:
    rows = tuple((one.when, words.force(one.left), words.force(one.regained))
                 for one in screws.again)  # fmt: skip
    torque = figures(screws.torque, 2)
    return Table(f"Tighten again to {torque} N·m, cold: {screws.what}",
                 ("when", "left", "regains"), rows)  # fmt: skip
