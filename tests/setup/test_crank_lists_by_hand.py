"""What a crank with round sizes buys and has made, worked out with a calculator."""

import math

import pytest
from tests.setup.small_lists import bought, limits, list_of, made, mm

PLAIN = {"crank__journal__joint__plate_thickness": "0 mm", "crank__joint__plate_thickness": "0 mm"}
PLATED = {"crank__joint__plate": "steel_mild", "crank__joint__plate_thickness": "6 mm",
          "crank__journal__joint__plate": "steel_mild",
          "crank__journal__joint__plate_thickness": "6 mm"}  # fmt: skip
TWO = {"crank__bearing_span": "130 mm", "layout__cylinder_spacing": "70 mm"}


def bar(across: float, long: float, density: float) -> float:
    return math.pi * (across / 2) ** 2 * long * density


def of_steel(found, key: str) -> float:
    return found.plain.materials[key]["density"]


def test_bearings():
    """6202, ISO 492 Normal: bore 0/-8, outside over 30 to 50 mm 0/-11, width 0/-120 µm."""
    item = bought(list_of(), "ball bearing 6202")
    assert item.count == 2
    assert [limits(check) for check in item.checks] == [
        pytest.approx([15, 14.992, 15]), pytest.approx([35, 34.989, 35]),
        pytest.approx([11, 10.88, 11]),
    ]  # fmt: skip
    assert mm(item.size) == "15 × 35 × 11 mm"


def test_rod_ends_of_a_twin():
    found = list_of("opposed", rod__big_end="ball", rod__small_end="bush",
                    rod__small_end_width="16 mm", pin__diameter="10 mm")  # fmt: skip
    big = bought(found, "ball bearing", "big end")
    assert big.count == 2
    named = big.note.removeprefix("Of the catalog, ").removesuffix(" have this bore.").split(", ")
    # Deep-groove bearings of 12 mm bore: x001 and x801 of every series.
    assert set(named) == {"6001", "6201", "6301", "6801"}
    assert mm(bought(found, "bush", "small end").size) == "for a pin of 10 mm, 16 mm wide at most"


def test_a_crankpin_of_bar():
    """20 mm and 7 in each cheek: 34 mm, and 3 mm for the saw; h6 of 12 mm is 0/-11 µm."""
    found = list_of()
    pin = bought(found, "rod, ground", "crankpin")
    assert pin.count == 1
    assert pin.length == pytest.approx(37e-3)
    assert mm(pin.size) == "12 mm thick, 37 mm long"
    assert limits(pin.checks[0]) == pytest.approx([12, 11.989, 12])
    assert pin.mass == pytest.approx(bar(12e-3, 34e-3, of_steel(found, "silver_steel")))
    assert pin.mass == pytest.approx(30.2e-3, rel=5e-3)  # 3.845 cm³ of steel
    job = made(found, "cut", "crankpin")
    assert limits(job) == pytest.approx([34, 33.9, 34.1])
    assert job.count == 1
    assert made(list_of("parallel 180", **TWO), "cut", "crankpin").count == 2


def test_a_steel_rod_through_a_printed_pin_goes_through_both_cheeks():
    found = list_of(crank__crankpin_material="petg", crank__through_rod_diameter="8 mm")
    rod = bought(found, "steel rod", "crankpin")
    assert rod.length == pytest.approx(54e-3)  # 34 + 2 · 10
    assert mm(rod.size) == "8 mm thick, 54 mm long"
    assert limits(rod.checks[0]) == pytest.approx([8, 7.991, 8])  # h6 over 6 to 10 mm: 0/-9 µm


STUB = {"crank__main_bearings": "2", "case__wall": "6 mm", "cam_drive__joint__length": "9 mm"}


def test_stubs_of_main_journals():
    """Cheek 10, arm (60 - 20 - 2·10)/2 = 10, bearing 11, wall 6, flywheel 12, nut 15: 64 mm."""
    found = list_of(**STUB)
    stub = bought(found, "rod, ground", "main journals")
    assert stub.count == 2
    assert stub.length == pytest.approx(67e-3)
    assert mm(stub.size) == "15 mm thick, 67 mm long"
    assert limits(stub.checks[0]) == pytest.approx([15, 14.989, 15])
    assert stub.mass == pytest.approx(bar(15e-3, 64e-3, of_steel(found, "silver_steel")))
    assert limits(made(found, "cut", "main journals")) == pytest.approx([64, 63.5, 64.5])
    # Three bearings: two of them at one end. A cam drive's wheel of 20 mm is the longer one.
    other = STUB | {"crank__main_bearings": "3", "cam_drive__joint__length": "20 mm"}
    assert bought(list_of(**other), "rod, ground", "main journals").length == pytest.approx(86e-3)


def test_stubs_where_the_span_leaves_no_arm():
    """A span of 38 mm leaves no room for pin and cheeks: half a bearing, 5.5 mm, is taken."""
    found = list_of(**STUB | {"crank__bearing_span": "38 mm"})
    assert made(found, "cut", "main journals").target == pytest.approx(59.5e-3)
    assert made(found, "press", "main journal").count == 2


def test_a_rod_in_printed_journals():
    found = list_of(
        **STUB, crank__journal__material="petg", crank__journal__rod_diameter="8 mm",
        crank__journal__joint__kind="solid",
    )  # fmt: skip
    rod = bought(found, "steel rod", "printed journals")
    assert (rod.count, rod.length) == (2, pytest.approx(67e-3))
    assert limits(rod.checks[0]) == pytest.approx([8, 7.991, 8])
    assert limits(made(found, "file", "main journal")) == pytest.approx([15, 14.99, 15.005])


def test_a_crank_bent_of_rod():
    found = list_of(
        crank__built="one_piece", crank__made="rod", crank__material="steel_mild",
        crank__crankpin_material="steel_mild", crank__journal__joint__kind="solid",
        cylinder__stroke="44 mm",
    )  # fmt: skip
    rod = bought(found, "rod", "crank")
    assert mm(rod.size) == "pins 12 mm, journals 15 mm; stock 15 mm thick"
    assert limits(rod.checks[0]) == pytest.approx([15, 14.989, 15])
    assert limits(made(found, "bend", "crank")) == pytest.approx([22, 21.8, 22.2])
    assert mm(made(found, "bend", "crank").size) == "throw 22 mm, pins 20 mm long"


def test_plates():
    """As long as the throw of 20 and the cheek's 30 mm."""
    found = list_of(**PLATED)
    plate = bought(found, "flat bar")
    assert plate.count == 2
    assert mm(plate.size) == "6 mm thick, 50 × 30 mm each"
    job = made(found, "cut", "plates")
    assert job.count == 2
    assert limits(job) == pytest.approx([30, 29.5, 30.5])
    two = list_of("parallel 180", **PLATED, **TWO)
    assert bought(two, "flat bar").count == 4
    assert made(two, "cut", "plates").count == 4
    # On journals alone: two ends, and two for the journal between the throws.
    pins_bare = PLATED | {"crank__joint__plate_thickness": "0 mm"}
    assert bought(list_of("parallel 180", **pins_bare, **TWO), "flat bar").count == 4


def joint(**values):
    return {f"crank__joint__{name}": value for name, value in values.items()}


ACROSS = PLAIN | joint(kind="pinned", cross_pins="1", cross_pin_diameter="3 mm", pins_run="across")


def pin_of(found, use):
    (item,) = [i for i in found.bought if i.group == "Screws" and use in i.use]
    return item


def test_pins_across_are_as_long_as_the_cheek_is_wide():
    pin = pin_of(list_of(**ACROSS), "across crankpin")
    assert pin.count == 2
    assert mm(pin.size) == "3 mm thick, 30 mm long"
    assert not pin.note
    assert limits(pin.checks[0]) == pytest.approx([3, 3.004, 3.012])
    (hole,) = [j for j in list_of(**ACROSS).made if j.path == "crank.joint.cross_pins"]
    assert hole.count == 2
    assert limits(hole) == pytest.approx([3, 3, 3.012])


def test_pins_lengthwise_are_as_long_as_what_is_engaged():
    """In a hub of 7 mm a pin of 3 mm is cut from the shortest that is sold, 8 mm."""
    lengthwise = joint(pins_run="lengthwise", cross_pins="3", diameter="12 mm")
    found = list_of(**ACROSS | lengthwise)
    pin = pin_of(found, "lengthwise between crankpin")
    assert pin.count == 6
    assert mm(pin.size) == "3 mm thick, 8 mm long"
    assert mm(pin.note) == "Grind it to 7 mm, cooled: no saw cuts it."
    # A plate of 6 mm on the cheek is what the pin sits in.
    plated = list_of(**ACROSS | lengthwise | PLATED)
    assert "6 mm" in mm(pin_of(plated, "lengthwise between crankpin").note)
    # One of 8 mm fits as it is.
    whole = list_of(**ACROSS | lengthwise, crank__joint__length="8 mm")
    assert not pin_of(whole, "lengthwise between crankpin").note


def test_keys_of_the_flywheel():
    """Key steel of 5 mm is h9: 0/-25 µm here; as long as the hub is thick, 12 mm."""
    found = list_of(flywheel__joint__kind="keyed", flywheel__joint__cross_pins="1",
                    flywheel__joint__cross_pin_diameter="5 mm",
                    flywheel__joint__length="12 mm")  # fmt: skip
    key = pin_of(found, "shaft and flywheel")
    assert mm(key.size) == "5 mm square, 12 mm long"
    assert limits(key.checks[0]) == pytest.approx([5, 4.975, 5])


def test_pin_of_the_cam_drives_wheel():
    """A hub of the shaft's 10 and two pitches of 5 mm is 20 mm wide."""
    found = list_of(cam_drive__joint__diameter="10 mm", cam_drive__pitch="5 mm")
    assert "20 mm long" in mm(pin_of(found, "cam drive's wheel").size)


def test_pressing_in():
    found = list_of(
        crank__joint__kind="plain_press", crank__joint__diameter="12 mm",
        crank__joint__interference="0.03 mm", **PLAIN,
    )  # fmt: skip
    job = made(found, "press", "crankpin into cheek")
    assert job.count == 2
    assert limits(job) == pytest.approx([11.97, 11.96, 11.98])


def test_two_throws_have_four_joints_of_their_pins():
    two = list_of("parallel 180", **PLAIN, **TWO, crank__joint__kind="plain_press")
    assert made(two, "press", "crankpin into cheek").count == 4


def test_flats_and_clamps():
    found = list_of(
        crank__joint__kind="polygon", crank__joint__diameter="12 mm",
        crank__journal__joint__kind="clamped", crank__journal__joint__clamp_screw_force="3000 N",
        **PLAIN,
    )  # fmt: skip
    assert limits(made(found, "file", "flats")) == pytest.approx([12, 11.9, 12])
    clamp = bought(found, "clamping screw")
    assert (clamp.count, clamp.size) == (2, "to pull 3000 N in all")


def test_flywheel():
    """π/4 (110² - 15²) · 12 mm³ = 111.92 cm³."""
    found = list_of(flywheel__bore="15 mm")
    disc = bought(found, "cut to a disc")
    steel = of_steel(found, "steel_mild")
    assert disc.mass == pytest.approx(bar(110e-3, 12e-3, steel) - bar(15e-3, 12e-3, steel))
    assert disc.mass == pytest.approx(111.92e-6 * steel, rel=1e-4)
    assert limits(disc.checks[0]) == pytest.approx([12, 11.7, 12.3])
    assert limits(made(found, "drill", "flywheel's hole")) == pytest.approx([15, 15, 15.02])
    without = list_of(flywheel__thickness="0 mm")
    assert not [item for item in without.bought if item.use == "flywheel"]


def test_bearing_seats():
    """A bearing of 28 mm is beyond the holes of 5 to 20 mm whose error is known."""
    found = list_of()
    seat = made(found, "sand", "bearing seat")
    assert (seat.count, limits(seat)) == (2, pytest.approx([35, 34.97, 35.02]))
    assert "print one ring of it first" in seat.size
    small = list_of(crank__main_bearing="6800", printing__hole_error="-0.2 mm")
    assert "draw it 19.2 mm: your prints' holes come out 0.2 mm small" in mm(
        made(small, "sand", "bearing seat").size
    )


def test_breather_and_seals():
    found = list_of(case__breather="hose", case__breather_diameter="5 mm", case__shaft_seals="2")
    assert mm(bought(found, "hose for the breather").size) == "5 mm bore"
    seal = bought(found, "shaft seal")
    assert (seal.count, mm(seal.size)) == (2, "for a shaft of 15 mm")
