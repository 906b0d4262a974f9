"""Pins, keys, plates and holes that can't be made are refused, each with place, fault and cure."""

from __future__ import annotations

from pathlib import Path

import pytest

import firstfire as ff
from firstfire.engine.read import with_values
from firstfire.errors import EngineFileError

WREN = Path(__file__).parents[2] / "engines" / "wren.toml"
ACROSS = {"crank.joint.pins_run": "across", "crank.joint.cross_pins": "1"}
THICK = {"crank.joint.plate_thickness": "10 mm", "crank.joint.length": "10 mm"}


@pytest.fixture(scope="module")
def wren():
    return ff.read(WREN)


@pytest.mark.parametrize(
    ("change", "place", "fault"),
    [
        (ACROSS | {"crank.joint.cross_pin_diameter": "5 mm"},
         "crank.joint.cross_pin_diameter", "the hub is 4 mm thick there"),
        (ACROSS | {"crank.joint.cross_pin_diameter": "2.5 mm", "crank.joint.cross_pins": "2"},
         "crank.joint.cross_pins", "would cross on the axis"),
        (ACROSS | THICK | {"crank.joint.cross_pin_diameter": "3 mm", "crank.joint.cross_pins": "8"},
         "crank.joint.cross_pins", "don't fit behind each other in 10 mm"),
        (ACROSS | THICK | {"crank.joint.cross_pin_diameter": "11 mm"},
         "crank.joint.cross_pin_diameter", "of 12 mm it leaves too little"),
        ({"crank.joint.cross_pins": "8"}, "crank.joint.cross_pins", "run into each other"),
        ({"crank.joint.cross_pins": "0"}, "crank.joint.cross_pins", "nothing holds"),
        ({"crank.journal.joint.kind": "keyed", "crank.journal.joint.cross_pin_diameter": "8 mm",
          "crank.journal.joint.cross_pins": "1"},
         "crank.journal.joint.cross_pin_diameter", "of 15 mm it leaves too little"),
        ({"crank.cheek_width": "20 mm", "crank.joint.kind": "bonded"},
         "crank.journal.joint.diameter", "0.5 mm of wall left"),
        ({"crank.cheek_width": "13 mm"}, "crank.cheek_width", "no wall is left round 15 mm"),
        ({"crank.joint.plate_thickness": "16 mm"}, "crank.joint.plate_thickness",
         "let into a cheek of 14 mm"),
        ({"crank.crankpin_diameter": "16 mm", "crank.main_journal_diameter": "20 mm",
          "crank.main_bearing": "6204"},
         "crank.main_journal_diameter", "its hole in the cheek leaves 0 mm"),
        ({"crank.main_journal_diameter": "17 mm"}, "crank.main_journal_diameter",
         "the bearing's bore is 15 mm"),
        ({"flywheel.joint.cross_pin_diameter": "8 mm"}, "flywheel.joint.cross_pin_diameter",
         "of 15 mm it leaves too little"),
        ({"cam_drive.joint.diameter": "15 mm"}, "cam_drive.joint.diameter", "0 mm of wall left"),
        ({"crank.journal.rod_diameter": "15 mm"}, "crank.journal.rod_diameter", "as thick as"),
    ],
)  # fmt: skip
def test_what_cannot_be_made_is_refused_once(wren, change, place, fault) -> None:
    with pytest.raises(EngineFileError) as refused:
        with_values(wren, change, comma=True)
    told = [p for p in refused.value.problems if p.path == place]
    assert len(told) == 1, refused.value
    assert fault in told[0].fault, told[0]
    assert told[0].cure.endswith(".")


@pytest.mark.parametrize(
    "change",
    [
        ACROSS | {"crank.joint.cross_pin_diameter": "2 mm"},
        ACROSS | THICK | {"crank.joint.cross_pin_diameter": "3 mm", "crank.joint.cross_pins": "2"},
        {"crank.joint.cross_pins": "4"},
        {"crank.joint.kind": "keyed", "crank.joint.cross_pins": "2"},
        {"cam_drive.joint.diameter": "8 mm"},
    ],
)
def test_what_can_be_made_is_not_refused(wren, change) -> None:
    with_values(wren, change, comma=True)


def test_the_cure_told_for_a_pin_across_a_plate_can_be_made(wren) -> None:
    """Lengthwise, as the message says, the same pin goes in."""
    change = {"crank.joint.pins_run": "lengthwise", "crank.joint.cross_pin_diameter": "5 mm",
              "crank.joint.cross_pins": "1"}  # fmt: skip
    assert ff.resolve(with_values(wren, change)).crank.joint.pins_run == "lengthwise"


@pytest.mark.parametrize(("bore", "stroke"), [(22, 20), (30, 28), (36, 26), (44, 36), (60, 50),
                                              (68, 55), (80, 66)])  # fmt: skip
@pytest.mark.parametrize("material", ["petg", "pa12_cf"])
def test_an_engine_of_defaults_alone_is_never_refused(bore: int, stroke: int, material: str
                                                      ) -> None:  # fmt: skip
    from firstfire import catalog
    from firstfire.engine.read import understand

    text = f"""
schema = "firstfire.engine/1"
[layout]
kind = "single"
[cylinder]
bore = "{bore} mm"
stroke = "{stroke} mm"
[printing]
material = "{material}"
"""
    plain = ff.resolve(understand(text, "defaults.toml", catalog.load()))
    assert plain.crank.journal.material == "silver_steel"
    assert plain.crank.journal.joint.plate == "steel_mild"
