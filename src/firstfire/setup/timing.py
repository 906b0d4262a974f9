"""The timing of an engine: every event of its cycle, what a tooth is worth, which top is which."""

from __future__ import annotations

from dataclasses import dataclass

from firstfire.engine.engine import Engine
from firstfire.engine.geometry import firing_angles
from firstfire.engine.resolve import PlainEngine, resolve
from firstfire.formulas.firing import firing_intervals, firing_order
from firstfire.formulas.setting import overlap, rim_length, tooth_angle
from firstfire.setup.belt_teeth import BeltTeeth, belt_teeth, refuse_broken_belt
from firstfire.setup.timing_places import Place, has_rim, places
from firstfire.setup.timing_tooth import SHIFTS, Shifted, shifted


@dataclass(frozen=True)
class Timing:
    """When everything happens, and where to see it.

    Attributes
    ----------
    engine, plain
        As written down, and its plain numbers.
    order, intervals
        Cylinders counted from 1 in the order in which they fire, and crank angle from each firing
        to the next, rad.
    fires
        Crank angle of each cylinder's firing top, rad.
    places
        Every event, in the order in which the crank meets them.
    tooth
        What one tooth of the cam's wheel is worth at the crank, rad.
    tooth_on_rim
        The same along the flywheel's rim, m; None without a flywheel.
    teeth
        For each cylinder, its valves with the cam two teeth early to two teeth late.
    overlaps
        Crank angle with both valves off their seats, rad, a cylinder; None where suction opens
        the inlet.
    belt
        Its teeth; None for gears.
    """

    engine: Engine
    plain: PlainEngine
    order: tuple[int, ...]
    intervals: tuple[float, ...]
    fires: tuple[float, ...]
    places: tuple[Place, ...]
    tooth: float
    tooth_on_rim: float | None
    teeth: tuple[tuple[Shifted, ...], ...]
    overlaps: tuple[float | None, ...]
    belt: BeltTeeth | None

    def __str__(self) -> str:
        from firstfire.setup.timing_text import timing_text

        return timing_text(self)

    def to_json(self) -> str:
        """As ``firstfire.timing/1``: SI, units in field names."""
        from firstfire.setup.timing_contract import timing_json

        return timing_json(self)


def timing(engine: Engine) -> Timing:
    """The timing of `engine`; no gas is run.

    Raises
    ------
    FirstfireError
        For a belt without a whole number of teeth, or a cylinder that can't fire when the file
        says.
    """
    plain = resolve(engine)
    refuse_broken_belt(engine, plain)
    fires = firing_angles(plain)
    tooth = tooth_angle(plain.cam_drive.teeth_cam)
    return Timing(
        engine=engine,
        plain=plain,
        order=firing_order(fires),
        intervals=firing_intervals(fires),
        fires=fires,
        places=places(plain),
        tooth=tooth,
        tooth_on_rim=rim_length(tooth, plain.flywheel.diameter) if has_rim(plain) else None,
        teeth=tuple(
            tuple(shifted(plain, index, teeth) for teeth in SHIFTS)
            for index in range(len(plain.cylinders))
        ),
        overlaps=tuple(
            None
            if parts.valves.inlet.worked == "suction"
            else overlap(parts.valves.inlet.opens_before_top, parts.valves.exhaust.closes_after_top)
            for parts in plain.cylinders
        ),
        belt=belt_teeth(plain),
    )
