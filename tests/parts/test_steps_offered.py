"""How far each change that is offered goes: a step a person would take, told as new over old.

The steps are our own choices (a quarter thicker, half as long again, the next screw), so they are
held here as they were chosen: the least and the most over the engines of the moments, in rounded
stock sizes. A step found by calculation, as a torque that is just borne, has a wider span.
"""

from __future__ import annotations

import pytest
from tests.parts.moments import COLD, FILES, engine, moment

from firstfire.engine.read import with_values
from firstfire.parts import ways

EVENTS = ("cranking", "first_fire", "full_throttle", "overtighten", "night")
ROUNDED = 0.02
STEPS: dict[str, dict[str, tuple[float, float]]] = {
    "body.boss.split": {"head.fasteners.torque": (0.70, 0.70)},
    "body.foot.crack": {"body.foot.thickness": (1.50, 1.50)},
    "body.part": {"body.infill": (2.50, 2.50), "body.outside_diameter": (1.12, 1.12)},
    "body.split": {"body.infill": (2.50, 2.50), "liner.fit_interference": (0.40, 0.40)},
    "cam_drive.belt.jump": {
        "cam_drive.count": (2.00, 2.00),
        "cam_drive.teeth_cam": (1.33, 1.33),
        "cam_drive.teeth_crank": (1.33, 1.33),
        "cam_drive.tension": (1.48, 1.52),
    },
    "cam_drive.belt.tear": {
        "cam_drive.count": (2.00, 2.00),
        "cam_drive.pitch": (1.50, 1.67),
        "cam_drive.width": (1.50, 1.56),
    },
    "cam_drive.wheel.slip": {
        "cam_drive.joint.cross_pin_diameter": (1.33, 1.33),
        "cam_drive.joint.cross_pins": (2.00, 2.00),
    },
    "case.bearing_seat.crush": {
        "crank.journal.joint.diameter": (1.13, 1.13),
        "crank.main_journal_diameter": (1.13, 1.13),
        "flywheel.bore": (1.13, 1.13),
        "flywheel.joint.diameter": (1.13, 1.13),
    },
    "case.tear": {"case.wall": (1.50, 1.50)},
    "crank.bearing.dent": {
        "crank.journal.joint.diameter": (1.13, 1.13),
        "crank.main_journal_diameter": (1.13, 1.13),
        "flywheel.bore": (1.13, 1.13),
        "flywheel.joint.diameter": (1.13, 1.13),
    },
    "crank.bearing.life": {
        "crank.journal.joint.diameter": (1.13, 1.13),
        "crank.main_journal_diameter": (1.13, 1.13),
        "flywheel.bore": (1.13, 1.13),
        "flywheel.joint.diameter": (1.13, 1.13),
    },
    "crank.cheek.break": {
        "crank.cheek_thickness": (1.25, 1.29),
        "crank.cheek_width": (1.25, 1.26),
        "crank.joint.length": (1.14, 1.50),
        "crank.joint.plate_thickness": (1.14, 1.50),
    },
    "crank.joint.slip": {
        "crank.joint.cross_pin_diameter": (1.33, 1.33),
        "crank.joint.diameter": (1.28, 1.28),
        "crank.joint.length": (0.52, 1.50),
        "crank.joint.plate_thickness": (1.50, 1.50),
    },
    "crank.journal.break": {
        "crank.journal.joint.cross_pin_diameter": (1.67, 1.67),
        "crank.journal.joint.diameter": (1.13, 1.25),
        "crank.journal.joint.length": (0.52, 0.52),
        "crank.main_journal_diameter": (1.13, 1.25),
        "flywheel.bore": (1.13, 1.25),
        "flywheel.joint.diameter": (1.13, 1.25),
    },
    "crank.journal.rock": {
        "crank.cheek_thickness": (1.25, 1.25),
        "crank.journal.joint.length": (1.14, 1.25),
        "crank.journal.joint.plate_thickness": (1.14, 1.25),
    },
    "crank.journal.slip": {
        "crank.journal.joint.length": (1.50, 1.50),
        "crank.journal.joint.plate_thickness": (1.50, 1.50),
    },
    "crank.journal.split": {
        "crank.journal.joint.cross_pin_diameter": (1.67, 1.67),
        "crank.journal.joint.diameter": (1.13, 1.13),
        "crank.journal.joint.length": (0.52, 0.52),
        "crank.main_journal_diameter": (1.13, 1.13),
        "flywheel.bore": (1.13, 1.13),
        "flywheel.joint.diameter": (1.13, 1.13),
    },
    "crank.pin.bend": {"crank.cheek_width": (1.25, 1.25), "crank.crankpin_diameter": (1.20, 1.25)},
    "crank.pin.split": {"crank.cheek_width": (1.25, 1.25), "crank.crankpin_diameter": (1.20, 1.20)},
    "crank.starter_end.twist": {
        "crank.journal.joint.cross_pin_diameter": (1.67, 1.67),
        "crank.journal.joint.diameter": (1.13, 1.25),
        "crank.journal.joint.length": (0.52, 0.52),
        "crank.main_journal_diameter": (1.13, 1.25),
        "flywheel.bore": (1.13, 1.25),
        "flywheel.joint.diameter": (1.13, 1.25),
    },
    "flywheel.burst": {"flywheel.diameter": (0.85, 0.85), "spark.limit_speed": (0.19, 0.63)},
    "flywheel.hub.slip": {
        "flywheel.joint.cross_pin_diameter": (1.25, 1.25),
        "flywheel.joint.cross_pins": (1.50, 1.50),
    },
    "gasket.open": {"head.fasteners.count": (1.50, 1.50), "head.fasteners.torque": (1.28, 1.34)},
    "gasket.sealant.blow": {"gasket.cure_time": (144.00, 144.00)},
    "head.bolt.tire": {"head.fasteners.count": (1.50, 1.50)},
    "head.break": {"head.thickness": (1.25, 1.25)},
    "head.fasteners.strip": {"head.fasteners.torque": (0.68, 0.70)},
    "head.lift": {"head.fasteners.count": (1.50, 1.50)},
    "head.seat.fall": {"valves.exhaust.seat_interference": (1.62, 1.62)},
    "head.tighten.crack": {"head.fasteners.torque": (0.68, 0.70), "head.thickness": (1.25, 1.25)},
    "head.washer.sink": {
        "head.fasteners.torque": (0.68, 0.70),
        "head.fasteners.washer_diameter": (1.40, 1.42),
    },
    "intake.fold": {"intake.wall": (1.50, 1.50)},
    "liner.bore.soften": {"liner.outside_diameter": (0.88, 1.00)},
    "liner.burst": {"body.outside_diameter": (1.02, 1.08), "liner.outside_diameter": (1.03, 1.11)},
    "liner.crush": {"liner.fit_interference": (0.40, 0.40)},
    "liner.ovalise": {
        "body.outside_diameter": (1.02, 1.03),
        "liner.fit_interference": (0.40, 0.40),
        "liner.outside_diameter": (1.03, 1.05),
    },
    "pin.bend": {"pin.diameter": (1.20, 1.21)},
    "piston.boss.crush": {"pin.diameter": (1.20, 1.21), "piston.boss_width": (1.25, 1.27)},
    "piston.crown.break": {"piston.crown_thickness": (1.25, 1.36)},
    "piston.land.break": {"piston.top_land": (1.16, 1.25)},
    "piston.shield.loosen": {"piston.shield.screws": (1.67, 1.67)},
    "piston.shield.melt": {"piston.shield.thickness": (1.50, 1.50)},
    "piston.swell": {"piston.skirt_clearance": (1.40, 1.44), "piston.top_clearance": (1.48, 1.48)},
    "ring.fill": {"rings.groove_width": (1.20, 1.21)},
    "ring.gap.close": {"rings.gap": (2.02, 2.50)},
    "ring.leak": {"rings.groove_depth": (0.95, 0.95)},
    "ring.roll": {"rings.groove_depth": (1.05, 1.05)},
    "rod.big_end.crush": {"rod.big_end_width": (1.25, 1.29)},
    "rod.buckle": {"rod.shank_thickness": (1.25, 1.29)},
    "rod.small_end.crush": {"rod.small_end_width": (1.25, 1.29)},
    "rod.tear": {"rod.eye_wall": (1.25, 1.33)},
    "valves.exhaust.float": {
        "spark.limit_speed": (0.20, 0.67),
        "valves.exhaust.spring_preload": (1.50, 1.50),
        "valves.exhaust.spring_rate": (1.47, 1.56),
    },
    "valves.exhaust.lash.close": {"valves.exhaust.lash": (1.50, 1.50)},
    "valves.inlet.float": {
        "spark.limit_speed": (0.20, 0.57),
        "valves.inlet.spring_preload": (1.45, 1.50),
        "valves.inlet.spring_rate": (1.48, 1.50),
    },
}


def offered(file: str) -> dict[tuple[str, str], float]:
    """Of each way and path, its new number over the old, where both are numbers."""
    found = {}
    before = engine(file).values(1)
    for event in EVENTS:
        rises = COLD if event != "full_throttle" else None
        for way in ways(moment(file, event=event, rises=rises)):
            for change in way.raise_by:
                after = with_values(engine(file), dict(change.set), comma=True).values(1)
                for path in change.set:
                    old, new = before[path], after[path]
                    if isinstance(old, int | float) and not isinstance(old, bool) and old:
                        found[way.id, path] = float(new) / float(old)
    return found


@pytest.mark.parametrize("file", FILES)
def test_each_step_is_as_it_was_chosen(file) -> None:
    for (way, path), ratio in offered(file).items():
        low, high = STEPS[way][path]
        assert low - ROUNDED <= ratio <= high + ROUNDED, (way, path, ratio)


@pytest.mark.long
def test_no_step_is_held_that_nothing_offers() -> None:
    seen = {one for file in FILES for one in offered(file)}
    assert seen == {(way, path) for way, steps in STEPS.items() for path in steps}
