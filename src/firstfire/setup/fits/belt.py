"""The cam belt's tension: as a force, as a deflection, as a pitch to pluck."""

from __future__ import annotations

from typing import NamedTuple

from firstfire.catalog import Catalog, Row
from firstfire.engine.resolve import PlainEngine
from firstfire.errors import OutsideValidity
from firstfire.formulas.belt import pulley_pitch_diameter
from firstfire.formulas.belt_pluck import Note, nearest_note, plucked_pitch, pressed_in, span_length

_ALIKE = 0.02
_PRESS = 0.1
"""Force across the span over its tension: a finger's; small enough to stretch nothing."""
_STIFF = 20.0
"""Thicknesses of a span below which its pitch is not to be trusted."""


class BeltSet(NamedTuple):
    """How tight a belt is set.

    Attributes
    ----------
    tension
        In each span of each belt when still, N.
    belts
        Side by side.
    wheel_pull
        To pull the loose wheel or tensioner with, for all belts, N.
    span
        Free length, m.
    press, gives
        Force across the middle of one span, N, and how far it gives, m.
    pitch, low, high
        Of the plucked span, Hz, with what the belt's own mass may be off.
    note
        The nearest.
    trusted
        Whether the span is long enough for its pitch to be trusted.
    """

    tension: float
    belts: int
    wheel_pull: float
    span: float
    press: float
    gives: float
    pitch: float
    low: float
    high: float
    note: Note
    trusted: bool


def belt_set(plain: PlainEngine, catalog: Catalog) -> tuple[BeltSet | None, str]:
    """How tight the cam belt is set, or why that can't be said.

    Parameters
    ----------
    plain, catalog
        The engine, and where belts stand.
    """
    drive = plain.cam_drive
    if drive.kind != "belt":
        return None, f"the cam is driven by {_other(drive.kind)}"
    if drive.tension <= 0:
        return None, "the file has no tension for its belt: set cam_drive.tension"
    row = belt_row(plain, catalog)
    if row is None:
        return None, f"no belt of {1e3 * drive.pitch:.4g} mm pitch is in the catalog"
    small, large = (
        pulley_pitch_diameter(teeth, drive.pitch)
        for teeth in sorted((drive.teeth_crank, drive.teeth_cam))
    )
    span = span_length(small, large, drive.centre_distance)
    weighs = row["mass_per_area"]
    pitch, low, high = (plucked_pitch(drive.tension, span, mass * drive.width)
                        for mass in (weighs.si, weighs.si_high, weighs.si_low))  # fmt: skip
    try:
        note = nearest_note(pitch)
    except OutsideValidity as why:
        return None, str(why)
    press = _PRESS * drive.tension
    return BeltSet(
        drive.tension, drive.count, 2 * drive.tension * drive.count, span, press,
        pressed_in(drive.tension, span, press), pitch, low, high, note,
        span > _STIFF * row.si("thickness"),
    ), ""  # fmt: skip


def _other(kind: str) -> str:
    return {"gear": "gears, which have no tension", "chain": "a chain: 2 % of its span of slack"}[
        kind
    ]


def belt_row(plain: PlainEngine, catalog: Catalog) -> Row | None:
    """The belt's row, or the first of its pitch; None where there is none."""
    drive = plain.cam_drive
    if drive.belt is not None:
        return catalog.row("belt", drive.belt)
    rows = (row for row in catalog.rows("belt") if abs(row.si("pitch") / drive.pitch - 1) < _ALIKE)
    return next(rows, None)
