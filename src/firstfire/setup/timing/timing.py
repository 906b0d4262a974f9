"""The timing of an engine: every event of its cycle, what a tooth is worth, which top is which."""

from __future__ import annotations

from dataclasses import dataclass

from firstfire.engine.engine import Engine
from firstfire.engine.geometry import firing_angles
from firstfire.engine.resolve import resolve
from firstfire.formulas.firing import firing_intervals, firing_order
from firstfire.formulas.setting import overlap, rim_length, tooth_angle
from firstfire.setup.belt_teeth import belt_teeth, refuse_broken_belt
from firstfire.setup.timing.facts import TimingFacts
from firstfire.setup.timing.places import has_rim, places
from firstfire.setup.timing.tooth import SHIFTS, shifted


@dataclass(frozen=True)
class Timing(TimingFacts):
    """When everything happens, and where to see it; prints well, and gives JSON."""

    def __str__(self) -> str:
        from firstfire.setup.timing.text import timing_text

        return timing_text(self)

    def to_json(self) -> str:
        """As ``firstfire.timing/1``: SI, units in field names."""
        from firstfire.setup.timing.contract import timing_json

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
