"""Rules of thumb for intake, spark, starter, use and prints, against a pencil."""

import math

import pytest
from tests.engine.by_hand import FIGURES, MM, RPM, value

PLENUM = {"layout.kind": "parallel_twin", "intake.kind": "plenum"}
POINTS = {"spark.source": "points"}
ROPE = {"starter.kind": "rope"}


@pytest.mark.parametrize(
    ("lines", "path", "hand"),
    [
        # 0.7 mm × √(0.0452389 l × 4000) = 9.416; × √(... × 9000) = 14.125; to half a millimetre.
        ({}, "intake.throttle_diameter", 9.5 * MM),
        ({"use.full_throttle_speeds": ["9000 rpm", "3000 rpm"]},
         "intake.throttle_diameter", 14 * MM),
        # 0.15 of 45.2389 cm³; a plenum all of it.
        ({}, "intake.plenum_volume", 6.78584e-6),
        (PLENUM, "intake.plenum_volume", 45.2389e-6),
        *(({"intake.air_cleaner": kind}, "intake.air_cleaner_loss", loss)
          for kind, loss in (("none", 0.0), ("foam", 60.0), ("paper", 150.0), ("gauze", 30.0))),
        ({}, "intake.equivalence_ratio", 1.1),
        ({"intake.fuel": "propane"}, "intake.equivalence_ratio", 1.0),
        ({"valves.inlet.throat_diameter": "14 mm"}, "runner.diameter", 13.3 * MM),
        ({"valves.exhaust.throat_diameter": "13 mm"}, "stub.diameter", 13 * MM),
        ({}, "spark.latency", 1e-4),
        (POINTS, "spark.latency", 0.0),
        ({"spark.sensor.kind": "reed"}, "spark.latency", 6e-4),
        ({"spark.sensor.kind": "reed"}, "spark.sensor.scatter", 1e-4),
        # τ U²/2E: 2 ms × 10.5²/60 mJ = 3.675 ohm; points keep nothing: 2 ms × 144/60 mJ = 4.8.
        ({}, "spark.coil.resistance", 3.675),
        (POINTS, "spark.coil.resistance", 4.8),
        ({"spark.coil.resistor": "1 ohm"}, "spark.coil.resistance", 2.675),
        # 2E (R/U)²: 60 mJ × (3.675/10.5)² = 7.35 mH; with a winding of 3 ohm 4.898 mH.
        ({}, "spark.coil.inductance", 7.35e-3),
        ({"spark.coil.resistance": "3 ohm"}, "spark.coil.inductance", 4.898e-3),
        # U √(L/2E): 10.5 × √(5 mH/60 mJ) = 3.031 ohm.
        ({"spark.coil.inductance": "5 mH"}, "spark.coil.resistance", 3.031),
        # Both said: ½ × 5 mH × (10.5/3)² = 30.625 mJ.
        ({"spark.coil.inductance": "5 mH", "spark.coil.resistance": "3 ohm"},
         "spark.coil_energy", 30.625e-3),
        # 4 × 2 ms; 4 × 5 mH/3.031 ohm = 6.6 ms.
        ({}, "spark.coil.dwell", 8e-3),
        ({"spark.coil.inductance": "5 mH"}, "spark.coil.dwell", 6.6e-3),
        ({}, "spark.coil.voltage", 12.0),
        ({}, "spark.coil.driver_drop", 1.5),
        (POINTS, "spark.coil.driver_drop", 0.0),
        ({}, "spark.coil.driver_clamp", 400.0),
        ({"spark.points.gap": "0.4 mm"}, "spark.points.lobe_rise", 0.55 * MM),
        ({}, "wiring.pump_current", 0.0),
        ({"intake.mixture_by": "injector"}, "wiring.pump_current", 2.0),
        ({}, "spark.start_angle", math.radians(5)),
        ({"spark.running_angle": "18 deg"}, "spark.start_angle", math.radians(5)),
        ({}, "spark.running_angle", math.radians(20)),
        (POINTS | {"spark.running_angle": "12 deg"}, "spark.start_angle", math.radians(12)),
        (POINTS | {"spark.start_angle": "8 deg"}, "spark.running_angle", math.radians(8)),
        (POINTS, "spark.running_angle", math.radians(5)),
        # 1.25 × 3300 = 4125, to a hundred.
        ({"use.full_throttle_speeds": ["3300 rpm"]}, "spark.limit_speed", 4100 * RPM),
        ({}, "spark.limit_speed", 5000 * RPM),
        # 200 N on half of 45 mm; 300 N on half of 60; the same arm is 45/60 as fast in turns.
        (ROPE, "starter.stall_torque", 4.5),
        (ROPE | {"starter.pull_force": "300 N", "starter.drum_diameter": "60 mm"},
         "starter.stall_torque", 9.0),
        (ROPE, "starter.no_load_speed", 1000 * RPM),
        (ROPE | {"starter.drum_diameter": "60 mm"}, "starter.no_load_speed", 750 * RPM),
        ({}, "starter.stall_torque", 50.0),
        ({"starter.drum_diameter": "60 mm"}, "starter.no_load_speed", 450 * RPM),
        ({"starter.kind": "hand"}, "starter.stall_torque", 5.0),
        # 0.8 of 450 rpm; ten times geared it would be 3600.
        ({}, "use.cranking_speed", 360 * RPM),
        ({"starter.ratio": 2}, "use.cranking_speed", 720 * RPM),
        ({"starter.ratio": 10}, "use.cranking_speed", 2000 * RPM),
        ({}, "surroundings.air_speed", 0.0),
        ({"surroundings.cooling": "fan"}, "surroundings.air_speed", 4.0),
        # Six lines; loaded parts solid, a body two fifths, a resin print cured through.
        ({}, "rod.walls", 6),
        ({"printing.walls": 4}, "rod.walls", 4),
        ({}, "rod.infill", 1.0),
        ({}, "body.infill", 0.4),
        ({"printing.infill": 0.3}, "rod.infill", 0.3),
        ({"printing.infill": 0.3, "body.material": "resin"}, "body.infill", 1.0),
        ({"rod.infill": 0.5, "crank.walls": 3}, "crank.crankpin.walls", 3),
        ({"piston.infill": 0.5}, "piston.boss.infill", 0.5),
    ],
)  # fmt: skip
def test_supply(lines, path, hand):
    assert value(lines, path) == pytest.approx(hand, rel=FIGURES)


@pytest.mark.parametrize(
    ("lines", "path", "word"),
    [
        ({}, "intake.kind", "single"),
        ({"layout.kind": "v_twin"}, "intake.kind", "y"),
        ({}, "intake.mixture_by", "carburettor"),
        ({"intake.fuel": "propane"}, "intake.mixture_by", "gas_mixer"),
        ({}, "spark.wasted", False),
        ({"layout.kind": "parallel_twin"}, "spark.wasted", True),
        ({"layout.kind": "parallel_twin", "layout.crank_offset": "180 deg"}, "spark.wasted", False),
        ({"layout.kind": "v_twin"}, "spark.wasted", False),
        ({}, "spark.limited_by", "spark"),
        (POINTS, "spark.limited_by", "nothing"),
        (POINTS, "spark.limit_speed", None),
        (POINTS, "spark.coil.driver_clamp", None),
    ],
)
def test_words(lines, path, word):
    assert value(lines, path) == word
