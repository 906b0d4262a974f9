"""Which parts can be drawn by themselves, and each one's sheet."""

from __future__ import annotations

from collections.abc import Callable

from firstfire.catalog import Catalog
from firstfire.catalog.names import nearest
from firstfire.drawing.model import Drawing
from firstfire.drawing.pdf import Paper
from firstfire.drawing.workshop.asked import Asked
from firstfire.drawing.workshop.crank import crank
from firstfire.drawing.workshop.flywheel import flywheel
from firstfire.drawing.workshop.head import head
from firstfire.drawing.workshop.liner import liner
from firstfire.drawing.workshop.part_sheet import part_sheet
from firstfire.drawing.workshop.pin import pin
from firstfire.drawing.workshop.piston import piston
from firstfire.drawing.workshop.rod import rod
from firstfire.drawing.workshop.view import PartDrawing
from firstfire.engine.resolve import PlainEngine
from firstfire.errors import FirstfireError

PARTS: dict[str, Callable[[Asked], PartDrawing]] = {
    "crank": crank,
    "pin": pin,
    "rod": rod,
    "head": head,
    "liner": liner,
    "piston": piston,
    "flywheel": flywheel,
}
"""By the name that `firstfire draw --part` takes."""


def part_drawing(
    plain: PlainEngine, catalog: Catalog, part: str, *, cylinder: int = 1, paper: Paper = "A4"
) -> Drawing:
    """A dimensioned drawing of one part, for whoever makes it.

    Parameters
    ----------
    plain
        The engine.
    catalog
        Where its materials and threads have their names and sizes.
    part
        One of `PARTS`.
    cylinder
        Whose part, counted from 1; crank and flywheel are all cylinders'.
    paper
        The sheet it is laid out for.

    Raises
    ------
    FirstfireError
        Where there is no such part or cylinder, or this engine has none.
    OutsideValidity
        Where no sheet holds it.
    """
    if part not in PARTS:
        near = nearest(part, PARTS)
        ask = f" Did you mean {near[0]}?" if near else ""
        raise FirstfireError(
            f'--part is "{part}": of that there is no drawing.{ask} There is {", ".join(PARTS)}.'
        )
    if not 1 <= cylinder <= len(plain.cylinders):
        count = len(plain.cylinders)
        have = "one cylinder" if count == 1 else f"cylinders 1 to {count}"
        raise FirstfireError(f"--cylinder is {cylinder}: {plain.name} has {have}.")
    return part_sheet(PARTS[part](Asked(plain, catalog, cylinder)), plain.name, paper)
