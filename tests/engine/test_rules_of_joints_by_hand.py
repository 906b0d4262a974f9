"""Rules of thumb for the joints of pin, journals and wheels, against a pencil and DIN 6885-1."""

import pytest
from tests.engine.by_hand import FIGURES, MM, value

METAL_CRANK = {"crank.material": "aluminium"}
ONE_PIECE = {"crank.built": "one_piece"}
ACROSS = {"crank.joint.pins_run": "across", "crank.joint.kind": "pinned"}


def wheel(diameter, thickness):
    return {
        "flywheel.joint.diameter": f"{diameter} mm",
        "flywheel.thickness": f"{thickness} mm",
        "flywheel.joint.cross_pin_diameter": "1 mm",
    }


def cam_wheel(diameter, length):
    return {
        "cam_drive.joint.diameter": f"{diameter} mm",
        "cam_drive.joint.length": f"{length} mm",
        "cam_drive.teeth_crank": 60,
    }


@pytest.mark.parametrize(
    ("shaft", "key"),
    [(8, 2), (10, 3), (12, 4), (15, 5), (17, 5), (18, 6), (22, 6), (25, 8), (30, 8), (38, 10),
     (44, 12), (50, 12)],
)  # fmt: skip
def test_keys_are_as_wide_as_the_standard_has_them(shaft, key):
    lines = {"flywheel.joint.diameter": f"{shaft} mm", "flywheel.thickness": "80 mm"}
    assert value(lines, "flywheel.joint.cross_pin_diameter") == pytest.approx(key * MM)


@pytest.mark.parametrize(
    ("lines", "path", "hand"),
    [
        # 40/7 = 5.7, whole millimetres; 28/7 = 4, 5 at the least; 42/7 is 6; 50/7 = 7.1.
        ({}, "crank.joint.plate_thickness", 6 * MM),
        ({"cylinder.bore": "28 mm"}, "crank.joint.plate_thickness", 5 * MM),
        ({"cylinder.bore": "42 mm"}, "crank.joint.plate_thickness", 6 * MM),
        ({"cylinder.bore": "50 mm"}, "crank.joint.plate_thickness", 8 * MM),
        # 0.75 of a cheek of 7.
        ({"crank.cheek_thickness": "7 mm"}, "crank.joint.plate_thickness", 5.25 * MM),
        (METAL_CRANK, "crank.joint.plate_thickness", 0.0),
        ({}, "crank.journal.joint.plate_thickness", 6 * MM),
        ({"crank.joint.plate_thickness": "5 mm"}, "crank.journal.joint.plate_thickness", 5 * MM),
        ({"crank.joint.kind": "bonded"}, "crank.journal.joint.plate_thickness", 6 * MM),
        (METAL_CRANK, "crank.journal.joint.plate_thickness", 0.0),
        # The plate's thickness, or the cheek's: a quarter of 40.
        ({}, "crank.joint.length", 6 * MM),
        (METAL_CRANK, "crank.joint.length", 10 * MM),
        (METAL_CRANK, "crank.journal.joint.length", 10 * MM),
        ({}, "crank.joint.diameter", 11.2 * MM),
        ({}, "crank.journal.joint.diameter", 15 * MM),
        ({}, "crank.journal.fillet", 0.6 * MM),
        ({"flywheel.bore": "14 mm"}, "flywheel.joint.diameter", 14 * MM),
        ({"flywheel.bore": "0 mm"}, "flywheel.joint.diameter", 15 * MM),
        ({"flywheel.thickness": "14 mm"}, "flywheel.joint.length", 14 * MM),
        ({"flywheel.thickness": "0 mm"}, "flywheel.joint.length", 1 * MM),
        # Three lengthwise in a plate, a third of the joint in whole millimetres, 2 at the least.
        ({}, "crank.joint.cross_pins", 3),
        ({}, "crank.joint.cross_pin_diameter", 3 * MM),
        ({"crank.crankpin_diameter": "12 mm"}, "crank.joint.cross_pin_diameter", 4 * MM),
        ({"crank.crankpin_diameter": "5 mm"}, "crank.joint.cross_pin_diameter", 2 * MM),
        ({}, "crank.journal.joint.cross_pin_diameter", 5 * MM),
        # One across a cheek.
        (METAL_CRANK | ACROSS, "crank.joint.cross_pins", 1),
        ({"crank.joint.kind": "bonded"}, "crank.joint.cross_pins", 0),
        # A hub thinner than 1.2 times its hole takes two keys.
        (wheel(15, 17), "flywheel.joint.cross_pins", 2),
        (wheel(15, 19), "flywheel.joint.cross_pins", 1),
        # 0.3 of 8 is 2.4, in half millimetres; half of 3; 3 at most, 1 at least.
        (cam_wheel(8, 11), "cam_drive.joint.cross_pin_diameter", 2 * MM),
        (cam_wheel(8, 3), "cam_drive.joint.cross_pin_diameter", 1.5 * MM),
        (cam_wheel(6, 3.9), "cam_drive.joint.cross_pin_diameter", 1.5 * MM),
        (cam_wheel(10, 40), "cam_drive.joint.cross_pin_diameter", 3 * MM),
        (cam_wheel(20, 40), "cam_drive.joint.cross_pin_diameter", 3 * MM),
        (cam_wheel(3, 40), "cam_drive.joint.cross_pin_diameter", 1 * MM),
        ({"crank.joint.kind": "polygon"}, "crank.joint.flats", 6),
        ({"crank.joint.kind": "splined"}, "crank.joint.flats", 12),
        ({}, "crank.joint.interference", 0.02 * MM),
        ({}, "crank.joint.clamp_screw_force", 2000.0),
    ],
)  # fmt: skip
def test_joints(lines, path, hand):
    assert value(lines, path) == pytest.approx(hand, rel=FIGURES)


@pytest.mark.parametrize(
    ("lines", "path", "word"),
    [
        ({}, "crank.joint.kind", "pinned"),
        (ONE_PIECE, "crank.joint.kind", "solid"),
        (ONE_PIECE, "crank.journal.joint.kind", "solid"),
        (METAL_CRANK, "crank.journal.joint.kind", "solid"),
        ({}, "crank.journal.joint.kind", "pinned"),
        ({}, "crank.journal.material", "silver_steel"),
        (METAL_CRANK, "crank.journal.material", "aluminium_6061_t6"),
        (ONE_PIECE, "crank.journal.material", "petg"),
        ({}, "crank.joint.plate", "steel_mild"),
        ({}, "crank.journal.joint.plate", "steel_mild"),
        ({"crank.joint.plate": "aluminium"}, "crank.journal.joint.plate", "aluminium_6061_t6"),
        ({"crank.joint.kind": "bonded"}, "crank.joint.plate", None),
        ({"crank.joint.kind": "bonded"}, "crank.journal.joint.plate", "steel_mild"),
        (METAL_CRANK, "crank.joint.plate", None),
        ({}, "crank.joint.pins_run", "lengthwise"),
        (METAL_CRANK, "crank.joint.pins_run", "across"),
        ({}, "cam_drive.joint.pins_run", "across"),
    ],
)
def test_words(lines, path, word):
    assert value(lines, path) == word
