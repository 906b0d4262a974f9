"""Which numbers of setting up can be opened: rooms by name, each with its numbers and workings."""

from __future__ import annotations

from collections.abc import Callable, Mapping

from firstfire.engine.engine import Engine
from firstfire.setup.cams.cam import cams
from firstfire.setup.cams.numbers import top_speed
from firstfire.setup.number import Number
from firstfire.setup.opened.by_law import ByLaw
from firstfire.setup.opened.cam_sheets import CamSheets
from firstfire.setup.opened.fits_sheets import fits_sheets
from firstfire.setup.opened.fuel_sheets import fuel_sheets
from firstfire.setup.opened.gap_sheets import gap_sheet
from firstfire.setup.opened.proof_sheets import proof_sheets
from firstfire.setup.opened.sheet import Sheet
from firstfire.setup.opened.spark_sheets import spark_sheets
from firstfire.setup.opened.spring_sheets import spring_sheets
from firstfire.setup.opened.suction_sheets import suction_sheets
from firstfire.setup.opened.timing_sheets import timing_sheets
from firstfire.setup.timing.timing import timing

Worked = Sheet | ByLaw
Numbers = Mapping[str, tuple[Number, Worked]]


def _cam(engine: Engine) -> Numbers:
    """Gaps and both cams; one that isn't judged has an empty working."""
    found, told = cams(engine), dict[str, tuple[Number, Worked]]()
    for case in found.gaps:
        if (worked := gap_sheet(engine, found.plain, case)) is not None:
            told[f"gap.{case.id}"] = worked
    for one in found.cams:
        sheets = CamSheets(found.plain, one.made)
        for number in one.numbers:
            sheet = Sheet(engine.values(1))
            if number.judged:
                sheets.of(number.id, sheet)
            told[f"{one.which}.{number.id}"] = number, sheet
        for ident, worked in spring_sheets(engine, one, top_speed(found.plain)).items():
            told[f"{one.which}.{ident}"] = worked
    if found.suction is not None:
        for ident, worked in suction_sheets(engine, found.plain, found.suction).items():
            told[f"suction.{ident}"] = worked
    return told


ROOMS: Mapping[str, Callable[[Engine], Numbers]] = {
    "cam": _cam,
    "timing": lambda engine: timing_sheets(timing(engine)),
    "spark": spark_sheets,
    "fuel": fuel_sheets,
    "fits": fits_sheets,
    "proof": proof_sheets,
}
"""By the first word of an id; the command of that name shows them, `coupon` those of ``proof``."""
SHOWN_BY = {"proof": "coupon"}


def numbers_of(engine: Engine, room: str) -> Numbers:
    """Every number of a room by its id, with its working."""
    return named(room, ROOMS[room](engine))


def named(room: str, found: Mapping[str, tuple[Number, Worked]]) -> Numbers:
    """Numbers of a room by their whole ids, of which the room's name is the first word."""
    return {f"{room}.{ident}": told for ident, told in found.items()}
