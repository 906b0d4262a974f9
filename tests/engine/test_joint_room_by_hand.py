"""Pins and keys beside each other in a joint: what a drill leaves standing, against a pencil."""

from types import SimpleNamespace

import pytest
from tests.engine.by_hand import MM, refused

from firstfire.engine.joint_room import edge, no_room

ACROSS, LENGTHWISE = ("pinned", "across"), ("pinned", "lengthwise")
KEYED = ("keyed", "across")


def joint(how, diameter, count, size):
    kind, runs = how
    return SimpleNamespace(kind=kind, pins_run=runs, diameter=diameter * MM, cross_pins=count,
                           cross_pin_diameter=size * MM)  # fmt: skip


def said(how, diameter, count, size, length, outside):
    found = no_room(joint(how, diameter, count, size), length * MM, outside * MM)
    return "" if found is None else " ".join(found)


@pytest.mark.parametrize(
    ("how", "diameter", "count", "size", "length", "outside", "words"),
    [
        # A hole of 4 mm and a quarter of it at each face take 6.
        (ACROSS, 12, 1, 4, 6, 40, ()),
        (ACROSS, 12, 1, 4, 5.9, 40, ("cross_pin_diameter is 4 mm", "5.9 mm thick", "leaves 1 mm")),
        # Of 1 mm half a millimetre at each face.
        (ACROSS, 12, 1, 1, 2, 40, ()),
        (ACROSS, 12, 1, 1, 1.9, 40, ("leaves 0.5 mm",)),
        # 2 × 4 + 3 × 1 = 11; of 10.9 / 2.75 each is 3.96, in half millimetres.
        (ACROSS, 12, 2, 4, 11, 40, ()),
        (ACROSS, 12, 2, 4, 10.9, 40, ("cross_pins is 2", "in 10.9 mm", "Pins of 3.5 mm fit")),
        # 3 × 2 + 4 × 0.5 = 8; of 7.9 / 4 each is 1.98.
        (ACROSS, 12, 3, 2, 8, 40, ()),
        (ACROSS, 12, 3, 2, 7.9, 40, ("cross_pins is 3", "Pins of 1.5 mm fit")),
        # 2 × 3 + 3 × 0.75 = 8.25; in 5.5 two of 5.5 / 2.75 = 2 fit.
        (ACROSS, 12, 2, 3, 5.5, 40, ("Pins of 2 mm fit",)),
        # One of 4 fits 6 mm to the last hair, two don't: their number is the fault.
        (ACROSS, 12, 2, 4, 6, 40, ("cross_pins is 2",)),
        # 8 × 1 + 9 × 0.5 = 12.5; of 9 / 10.25 each is 0.88.
        (ACROSS, 12, 8, 1, 9, 40, ("Fewer fit",)),
        # Half of 12.
        (LENGTHWISE, 12, 1, 6, 9, 40, ()),
        (LENGTHWISE, 12, 1, 6.1, 9, 40, ("is 6.1 mm: of 12 mm", "A pin", "3 mm to 4 mm")),
        (KEYED, 12, 1, 6.1, 9, 40, ("A key is",)),
        (ACROSS, 12, 0, 4, 9, 40, ("cross_pins is 0: without a pin",)),
        # Round 12 mm, 12 sin(180°/n): 7 are 5.21 mm apart, 8 4.59; 4 and a bridge of 1 are 5.
        (LENGTHWISE, 12, 7, 4, 9, 40, ()),
        (LENGTHWISE, 12, 8, 4, 9, 40, ("8: so many pins of 4 mm", "round 12 mm", "At most 7 fit")),
        # 4.8 and 1.2 are 6.0, as far as 6 are apart.
        (LENGTHWISE, 12, 6, 4.8, 9, 40, ()),
        # 5 are 7.05 apart, 6 6.0; 5 and 1.25 are 6.25.
        (KEYED, 12, 5, 5, 9, 40, ()),
        (KEYED, 12, 6, 5, 9, 40, ("so many keys", "At most 5 fit")),
        (KEYED, 12, 8, 5, 9, 40, ("At most 5 fit",)),
        (KEYED, 12, 2, 5, 9, 40, ()),
        # (18 - 12)/2 - 4/2 = 1 mm; across the pin takes none of it.
        (LENGTHWISE, 12, 1, 4, 9, 18, ()),
        (LENGTHWISE, 12, 1, 4, 9, 17.8, ("diameter is 12 mm", "hub of 17.8 mm has 0.9 mm")),
        (KEYED, 12, 1, 4, 9, 17.8, ("has 0.9 mm",)),
        (ACROSS, 12, 1, 4, 9, 14, ()),
        (ACROSS, 12, 1, 4, 9, 13.8, ("has 0.9 mm",)),
        (LENGTHWISE, 12, 1, 4, 9, 13, ("has 0 mm",)),
        (("bonded", "across"), 12, 0, 4, 1, 1, ()),
    ],
)  # fmt: skip
def test_room(how, diameter, count, size, length, outside, words):
    found = said(how, diameter, count, size, length, outside)
    assert bool(found) == bool(words), found
    assert [word for word in words if word not in found] == [], found


def test_another_count_and_size():
    """Three of 4 mm fit round 12; eight don't, of 3 mm (3.75 with its bridge) eight do."""
    usual = joint(LENGTHWISE, 12, 3, 4)
    assert no_room(usual, 9 * MM, 40 * MM) is None
    assert no_room(usual, 9 * MM, 40 * MM, count=8) is not None
    assert no_room(usual, 9 * MM, 40 * MM, count=8, size=3 * MM) is None
    assert no_room(usual, 9 * MM, 17.8 * MM, size=3 * MM) is None
    assert edge(usual, 20 * MM) == pytest.approx(2 * MM)
    assert edge(usual, 20 * MM, 3 * MM) == pytest.approx(2.5 * MM)


PIN = {"crank.joint.diameter": "11 mm", "crank.joint.cross_pins": 1,
       "crank.joint.pins_run": "across", "crank.joint.cross_pin_diameter": "4 mm"}  # fmt: skip


def mm(path, size):
    return {path: f"{size} mm"}


def holes(journal):
    return mm("crank.main_journal_diameter", journal) | mm("crank.crankpin_diameter", 11.2)


def bearing(journal):
    return mm("crank.main_journal_diameter", journal) | {"crank.main_bearing": "6202"}


@pytest.mark.parametrize(
    ("path", "outside", "inside", "words"),
    [
        # A pin of 4 across wants 6 mm of plate, or of what the pin reaches into it.
        ("crank.joint.cross_pin_diameter", PIN | mm("crank.joint.plate_thickness", 5.9), PIN,
         ("5.9 mm thick",)),
        ("crank.joint.cross_pin_diameter",
         PIN | mm("crank.joint.plate_thickness", 5.9) | mm("crank.joint.length", 8), PIN,
         ("5.9 mm thick",)),
        ("crank.joint.cross_pin_diameter", PIN | mm("crank.joint.length", 5.9), PIN,
         ("5.9 mm thick",)),
        # Three of 3 round 11.2: (cheek - 11.2)/2 - 1.5; three of 5 round a journal of 15.
        ("crank.joint.diameter", mm("crank.cheek_width", 16.1), mm("crank.cheek_width", 16.3),
         ("0.95 mm of wall",)),
        ("crank.journal.joint.diameter", mm("crank.cheek_width", 21.9),
         mm("crank.cheek_width", 22.1), ("0.95 mm of wall",)),
        # A key of 5 in a shaft of 15: (wheel - 15)/2 - 2.5.
        ("flywheel.joint.diameter", mm("flywheel.diameter", 21.9), mm("flywheel.diameter", 22.1),
         ("0.95 mm of wall",)),
        ("flywheel.joint.diameter", mm("flywheel.diameter", 21.9),
         mm("flywheel.diameter", 21.9) | mm("flywheel.thickness", 0), ("0.95 mm of wall",)),
        # A 3 mm pin wants 4.5, of wheel or of what is engaged.
        *(("flywheel.joint.cross_pin_diameter",
           {"flywheel.joint.kind": "pinned", "flywheel.joint.cross_pin_diameter": "3 mm",
            "flywheel.thickness": f"{thick} mm", "flywheel.joint.length": f"{long} mm"},
           {"flywheel.joint.kind": "pinned", "flywheel.joint.cross_pin_diameter": "3 mm",
            "flywheel.thickness": "4.6 mm", "flywheel.joint.length": "4.6 mm"}, ("4.4 mm thick",))
          for thick, long in ((4.4, 12), (12, 4.4))),
        # Root of 18 teeth of 3 mm: 54/π - 3 = 14.189; less 2 mm of wall.
        ("cam_drive.joint.diameter", mm("cam_drive.joint.diameter", 12.3),
         mm("cam_drive.joint.diameter", 12.1), ("hub of 14.2 mm has 0.944 mm",)),
        # A plate let into a cheek of 10.
        ("crank.joint.plate_thickness", mm("crank.joint.plate_thickness", 10),
         mm("crank.joint.plate_thickness", 9.9), ("is 10 mm", "a cheek of 10 mm", "5 mm or less")),
        # A millimetre at each side of a journal of 15.
        ("crank.cheek_width", mm("crank.cheek_width", 16.9), mm("crank.cheek_width", 17),
         ("round 15 mm", "33 mm")),
        # 18 - (11.2 + 23)/2 = 0.9.
        ("crank.main_journal_diameter", holes(23), holes(22.8),
         ("is 23 mm: on a throw of 18 mm", "0.9 mm to that of a 11.2 mm")),
        ("crank.main_journal_diameter", holes(23), holes(23) | {"crank.joint.kind": "solid"},
         ("0.9 mm",)),
        ("crank.main_journal_diameter", bearing(15.4), bearing(15.2), ("bore is 15 mm",)),
        ("crank.main_journal_diameter", bearing(14.6), bearing(14.8), ("Make it 15 mm",)),
        ("crank.journal.rod_diameter", mm("crank.journal.rod_diameter", 15),
         mm("crank.journal.rod_diameter", 14.9), ("is 15 mm",)),
    ],
)  # fmt: skip
def test_joints_of_an_engine(path, outside, inside, words):
    found = refused(outside).get(path, "")
    assert [word for word in words if word not in found] == [], found
    assert path not in refused(inside)
