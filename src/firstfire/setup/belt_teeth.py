"""How many teeth the cam's belt has, and which distance of the axes gives a whole number."""

from __future__ import annotations

from dataclasses import dataclass

from firstfire.engine.engine import Engine
from firstfire.engine.resolve import PlainEngine
from firstfire.errors import EngineFileError, Problem
from firstfire.formulas.belt import belt_length, centre_distance_for, pulley_pitch_diameter

_GIVES = 0.3e-3
"""By how much slotted holes or a belt's own give move the axes, m: common practice, no source."""


@dataclass(frozen=True)
class BeltTeeth:
    """The belt, or chain, of the cam drive.

    Attributes
    ----------
    teeth
        Whole teeth (links of a chain) of the nearest belt.
    exact
        Teeth that the file's distance of the axes asks for.
    length
        Pitch length of that belt, m.
    centre_distance
        At which it runs, m.
    said
        What the file, or its rule of thumb, has, m.
    fits
        Whether the two agree within what slotted holes give.
    """

    teeth: int
    exact: float
    length: float
    centre_distance: float
    said: float
    fits: bool


def belt_teeth(plain: PlainEngine) -> BeltTeeth | None:
    """The belt or chain of an engine; None for gears."""
    drive = plain.cam_drive
    if drive.kind == "gear":
        return None
    small, large = (pulley_pitch_diameter(z, drive.pitch) for z in
                    (drive.teeth_crank, drive.teeth_cam))  # fmt: skip
    exact = belt_length(small, large, drive.centre_distance) / drive.pitch
    step = 2 if drive.kind == "chain" else 1
    teeth = step * round(exact / step)
    # a belt no shorter than one that goes round both wheels
    while teeth * drive.pitch < belt_length(small, large, 0.5 * (small + large)):
        teeth += step
    centre = centre_distance_for(small, large, teeth * drive.pitch)
    near = abs(centre - drive.centre_distance) <= _GIVES
    return BeltTeeth(teeth, exact, teeth * drive.pitch, centre, drive.centre_distance, near)


def refuse_broken_belt(engine: Engine, plain: PlainEngine) -> None:
    """Refuse a distance of the axes that the file says and no belt of whole teeth has.

    A distance by rule of thumb is moved to the nearest belt instead, and said.

    Raises
    ------
    EngineFileError
        With the nearest that works.
    """
    belt = belt_teeth(plain)
    path = "cam_drive.centre_distance"
    if belt is None or belt.fits or not engine.values(1).said(path):
        return
    said = engine.values(1).spoken(path)
    unit, even = (
        ("links", ", an even number,") if plain.cam_drive.kind == "chain" else ("teeth", "")
    )
    problem = Problem(
        path,
        f"is {said.written}: a {plain.cam_drive.kind} round both wheels would have "
        f"{belt.exact:.2f} {unit}",
        f'{belt.teeth} {unit}{even} go with {path} = "{1e3 * belt.centre_distance:.2f} mm".',
    )
    raise EngineFileError(engine.where, [problem])
