"""What a cylinder with round sizes buys and has made, worked out with a calculator."""

import math

import pytest
from tests.loads.small_engines import LAYOUTS, SMALL, _rows, engine_of
from tests.setup.small_lists import bought, limits, list_of, made, mm

from firstfire import catalog
from firstfire.engine.read import understand
from firstfire.setup.orings import groove_diameter, nearest_rings
from firstfire.setup.parts_list import parts_list
from firstfire.setup.tubes import bore_limits, tube_for
from firstfire.setup.words import sold_diameter, sold_pin

SKIRT = {"piston__skirt_clearance": "0.24 mm"}


def cylinder(**values):
    return engine_of(**values).cylinders[0]


def tube(**values):
    row = tube_for(_rows(), cylinder(**values))
    return row.key if row else None


def test_the_tube_nearest_in_bore_and_outside():
    """Aluminium tubes of 50 mm outside are sold with bores of 40, 44 and 46 mm."""
    alu = {"liner__material": "aluminium_6061_t6"}
    assert tube(**alu, cylinder__bore=44e-3, liner__outside_diameter=50e-3) == "aluminium_44x50"
    assert tube(**alu, cylinder__bore=44.5e-3, liner__outside_diameter=50e-3) == "aluminium_44x50"
    assert tube(**alu, cylinder__bore=44.7e-3, liner__outside_diameter=50e-3) is None
    assert tube(**alu, cylinder__bore=44e-3, liner__outside_diameter=50.2e-3) == "aluminium_44x50"
    assert tube(**alu, cylinder__bore=44e-3, liner__outside_diameter=50.4e-3) is None


def test_of_two_tubes_the_nearer():
    """Stainless of 50 mm outside has bores of 46 and 47 mm, steel of 50 mm 44 and 45 mm."""
    steel = {"liner__material": "stainless_304", "liner__outside_diameter": 50e-3}
    assert tube(**steel, cylinder__bore=46.45e-3) == "stainless_46x50"
    assert tube(**steel, cylinder__bore=46.55e-3) == "stainless_47x50"


def test_bore_that_the_o_ring_can_take():
    """2.62 mm at 10 %: to 5 % the bore may be 2 · 2.62 · 0.05 = 0.262 mm larger.

    Skirt of 0.9 mm: a gland of 0.9 · 2.62 = 2.358 mm is 1.908 of groove and half the clearance.
    A third of 0.9 mm is 0.3; to 18 % of squeeze it would be 2 · 2.62 · 0.08 = 0.4192 mm.
    """
    parts = cylinder(
        cylinder__bore=44e-3, piston__skirt_clearance=0.9e-3, rings__section=2.62e-3,
        rings__groove_depth=1.908e-3,
    )  # fmt: skip
    low, high, _ = bore_limits(parts)
    assert (low, high) == pytest.approx((43.7e-3, 44.262e-3), abs=1e-9)
    # At 15 % (1.777 mm deep) squeeze decides below: 2 · 2.62 · 0.03 = 0.1572, above 0.524 mm.
    tight = cylinder(
        cylinder__bore=44e-3, piston__skirt_clearance=0.9e-3, rings__section=2.62e-3,
        rings__groove_depth=1.777e-3,
    )  # fmt: skip
    low, high, _ = bore_limits(tight)
    assert (low, high) == pytest.approx((43.8428e-3, 44.524e-3), abs=1e-9)


def test_bore_that_other_rings_can_take():
    parts = cylinder(cylinder__bore=44e-3, piston__skirt_clearance=0.24e-3, rings__kind="metal")
    assert bore_limits(parts)[:2] == pytest.approx((43.92e-3, 44.08e-3))


def test_rings_for_a_groove():
    """44 - 0.24 - 2 · 2.2 = 39.36 mm: AS568-128 (37.77) has 4.2 %, -129 (39.34) 0.05 %.

    2.5 % lies nearer to the first.
    """
    parts = cylinder(
        cylinder__bore=44e-3, piston__skirt_clearance=0.24e-3, rings__section=2.62e-3,
        rings__groove_depth=2.2e-3,
    )  # fmt: skip
    assert groove_diameter(parts) == pytest.approx(39.36e-3)
    found = nearest_rings(_rows(), parts)
    assert [ring.row.key for ring in found] == ["as568_128", "as568_129"]
    assert [ring.stretch for ring in found] == pytest.approx(
        [39.36 / 37.77 - 1, 39.36 / 39.34 - 1], rel=1e-9
    )


def test_the_ring_in_the_list():
    found = list_of(
        **SKIRT, rings__oring="as568_128", rings__section="2.62 mm", rings__groove_depth="2.2 mm",
        rings__count="2",
    )  # fmt: skip
    ring = bought(found, "O-ring", "piston")
    assert ring.count == 2
    assert mm(ring.size).startswith("37.77 × 2.62 mm")
    assert "4.2 % of stretch" in mm(ring.note)
    # AS568: 0.103 ± 0.003 in.
    assert limits(ring.checks[0]) == pytest.approx([2.62, 2.54, 2.70])
    groove = made(found, "file", "ring groove")
    assert groove.count == 2
    assert limits(groove) == pytest.approx([2.2, 2.1476, 2.2524])  # 2 % of 2.62 is 0.0524


def test_a_ring_nobody_sells_is_asked_within_nine_hundredths():
    found = list_of(**SKIRT, rings__section="2.8 mm", rings__inside_diameter="38 mm")
    ring = bought(found, "O-ring", "piston")
    assert "No ring of the catalog" in ring.note
    assert mm(ring.size).startswith("38 × 2.8 mm")
    assert limits(ring.checks[0]) == pytest.approx([2.8, 2.71, 2.89])


def test_a_drawn_ring_is_told_with_what_is_sold():
    found = list_of(**SKIRT, rings__section="3 mm", rings__inside_diameter="38.2 mm",
                    rings__groove_depth="2.5 mm")  # fmt: skip
    ring = bought(found, "O-ring", "piston")
    # 44 - 0.24 - 5 = 38.76 mm: on 38 mm 2.0 %, on 37 mm 4.8 %.
    assert "38" in ring.what
    assert "2.0 % of stretch" in mm(ring.note)
    assert "so does" in ring.note


def test_metal_rings():
    found = list_of(
        **SKIRT, rings__kind="metal", rings__gap="0.2 mm", rings__count="2",
        rings__groove_depth="2.5 mm", rings__section="2 mm", rings__axial_height="1.5 mm",
        rings__material="cast_iron_grey",
    )  # fmt: skip
    ring = bought(found, "piston ring")
    assert ring.count == 2
    assert mm(ring.size).startswith("44 × 2 × 1.5 mm")
    assert limits(ring.checks[0]) == pytest.approx([0.2, 0.2, 0.3])
    assert limits(made(found, "file", "ring's ends")) == pytest.approx([0.2, 0.2, 0.3])
    assert limits(made(found, "file", "ring groove")) == pytest.approx([2.5, 2.45, 2.55])


LINER = {"liner__length": "80 mm", "liner__outside_diameter": "50 mm",
         "liner__material": "aluminium_6061_t6", "liner__fit_interference": "0.1 mm"}  # fmt: skip


def test_liner():
    found = list_of(**SKIRT, **LINER)
    tube = bought(found, "tube", "liner")
    assert tube.length == pytest.approx(83e-3)
    assert mm(tube.size) == "83 mm long"
    # EN 754-7's outside of 50 mm: ± 0.15 mm, as the catalog has it.
    assert limits(tube.checks[1]) == pytest.approx([50, 49.85, 50.15])
    assert limits(made(found, "cut", "liner")) == pytest.approx([80, 79.8, 80.2])
    assert limits(made(found, "press", "liner")) == pytest.approx([49.9, 49.85, 49.95])
    bore = made(found, "sand", "bore")
    assert limits(bore) == limits(tube.checks[0])
    assert "caliper's inside jaws" in bore.tool


def test_a_bore_that_must_be_within_hundredths_is_measured_finer():
    found = list_of(piston__skirt_clearance="0.06 mm", rings__kind="metal",
                    rings__material="cast_iron_grey")  # fmt: skip
    # A third of 0.06 mm either way is 0.04 mm in all.
    assert "telescopic gauge" in made(found, "sand", "bore").tool
    coarse = list_of(piston__skirt_clearance="0.09 mm", rings__kind="metal",
                     rings__material="cast_iron_grey")  # fmt: skip
    assert "caliper" in made(coarse, "sand", "bore").tool


def test_piston_and_pin():
    """44 less 0.24 mm, a sixth of that either way; a pin of 12 in 8 by 40 mm."""
    found = list_of(
        **SKIRT, pin__diameter="12 mm", pin__inside_diameter="8 mm", pin__length="40 mm",
    )  # fmt: skip
    assert limits(made(found, "sand", "piston skirt")) == pytest.approx([43.76, 43.72, 43.80])
    pin = bought(found, "rod, ground", "piston pin")
    assert pin.length == pytest.approx(43e-3)
    assert mm(pin.size) == "12 mm thick with a hole of 8 mm, 43 mm long"
    assert limits(pin.checks[0]) == pytest.approx([12, 11.989, 12])  # h6 over 10 to 18 mm
    density = found.plain.materials["steel_mild"]["density"]
    assert pin.mass == pytest.approx(density * math.pi * (36 - 16) * 40e-9)
    assert limits(made(found, "cut", "piston pin")) == pytest.approx([40, 39.8, 40])


def test_sheet():
    """A shield of 1 mm; a plate as wide as the gasket's 45 + 2 · 4 = 53 mm."""
    found = list_of(
        piston__shield__thickness="1 mm", piston__shield__diameter="40 mm",
        piston__shield__screws="3", head__chamber_plate="steel_mild",
        head__chamber_plate_thickness="2 mm", gasket__inside_diameter="45 mm",
        gasket__width="4 mm", gasket__thickness="0.8 mm",
    )  # fmt: skip
    shield = bought(found, "sheet", "crown shield")
    assert mm(shield.size) == "1 mm thick, a disc of 40 mm"
    assert limits(shield.checks[0]) == pytest.approx([1, 0.9, 1.1])
    assert limits(made(found, "cut", "crown shield")) == pytest.approx([40, 39.7, 40.3])
    plate = bought(found, "sheet", "faces the fire")
    assert mm(plate.size) == "2 mm thick, a disc of 53 mm at least"
    assert limits(plate.checks[0]) == pytest.approx([2, 1.9, 2.1])
    assert limits(made(found, "cut", "chamber plate")) == pytest.approx([53, 52.7, 53.3])
    gasket = bought(found, "gasket sheet", "head gasket")
    assert mm(gasket.size) == "0.8 mm thick, 45 × 53 mm (inside × outside)"
    assert limits(gasket.checks[0]) == pytest.approx([0.8, 0.7, 0.9])
    job = made(found, "cut", "head gasket")
    assert limits(job) == pytest.approx([45, 45, 45.5])
    assert mm(job.size) == "45 mm inside, 53 mm outside"


def test_parts_of_metal_are_bought():
    found = list_of(head__made="bought", head__material="cast_iron_grey")
    assert "grey" in bought(found, "head,").what
    assert not [job for job in found.made if "screw holes" in job.what]


def test_sealant():
    found = list_of(
        gasket__kind="cured_sealant", gasket__material="silicone_sealant",
        gasket__cure_time="24 hour", gasket__cure_temperature="20 °C",
    )  # fmt: skip
    seal = mm(bought(found, "", "head gasket").note)
    assert "Cure it 24 h" in seal
    assert "at 20 °C" in seal


SCREWED = {"head__fasteners__clamped_length": "80 mm", "head__fasteners__engaged_length": "10 mm",
           "head__fasteners__circle_diameter": "64 mm"}  # fmt: skip


@pytest.mark.parametrize(
    ("kind", "thread", "least", "nuts"),
    [
        # M5: washer 1, nut 4.7 and two threads of 0.8; M6: washer 1.6, nut 5.2 and two of 1.
        ("through_bolts", "M5", 80 + 2 * 1 + 4.7 + 1.6, 4),
        ("nutted_studs", "M5", 80 + 2 * 1 + 2 * (4.7 + 1.6), 8),
        ("studs", "M5", 80 + 1 + 4.7 + 1.6 + 10, 4),
        ("screws", "M6", 80 + 1.6 + 10, 0),
        ("through_bolts", "M6", 80 + 2 * 1.6 + 5.2 + 2, 4),
        # No. 10-24 (4.826 mm): no washer in the table, a fifth of it; nut 3.17, threads 1.0583.
        ("through_bolts", "unc_10_24", 80 + 0.4 * 4.826 + 3.17 + 2 * 1.0583, 4),
    ],
)
def test_how_long_a_screw_is(kind, thread, least, nuts):
    found = list_of(
        **SCREWED, head__fasteners__kind=kind, head__fasteners__thread=thread,
        head__fasteners__count="4",
    )  # fmt: skip
    (screw,) = [i for i in found.bought if i.path == "head.fasteners" and i.checks]
    assert screw.count == 4
    assert limits(screw.checks[0])[1] == pytest.approx(least, abs=2e-3)
    sold = next(n for n in (80, 90, 100, 110) if n >= least)
    assert screw.length == pytest.approx(sold * 1e-3)
    assert sum(i.count for i in found.bought if i.what.startswith("nut ")) == nuts
    washers = bought(found, "washer")
    assert washers.count == (8 if kind in ("through_bolts", "nutted_studs") else 4)


def test_wide_washers():
    """A plain washer for M5 is 10 mm across; wide is 15 % more than that and above."""
    for across, word in (("11 mm", "plain"), ("12 mm", "wide")):
        found = list_of(head__fasteners__thread="M5", head__fasteners__washer_diameter=across)
        assert bought(found, "washer").what.endswith(word)


def test_screws_longer_than_any_that_is_sold():
    found = list_of(head__fasteners__kind="screws", head__fasteners__thread="M5",
                    head__fasteners__clamped_length="230 mm",
                    head__fasteners__engaged_length="10 mm")  # fmt: skip
    (screw,) = [i for i in found.bought if i.path == "head.fasteners" and i.checks]
    assert "at least" in screw.what
    assert screw.length == pytest.approx(241e-3)


def test_inserts():
    """M5: 7.1 (6.9 to 7.2) across its knurl, 9.5 mm long, in a hole of 6.4 to 6.6 mm."""
    found = list_of(
        head__fasteners__kind="inserts", head__fasteners__insert="M5", head__fasteners__thread="M5",
        printing__hole_error="-0.2 mm",
    )  # fmt: skip
    item = bought(found, "heat-set insert")
    assert item.count == 4
    assert mm(item.size) == "7.1 × 9.5 mm (outside × length)"
    assert limits(item.checks[0]) == pytest.approx([7.1, 6.9, 7.2])
    assert limits(item.checks[1])[:2] == pytest.approx([9.5, 9.2])
    job = made(found, "melt", "insert")
    assert limits(job) == pytest.approx([6.4, 6.4, 6.6])
    assert "draw it 6.6 mm" in mm(job.size)


def test_holes_in_head_and_body():
    """M5: tap drill 4.2, clearance 5.5 mm (ISO 273, medium)."""
    found = list_of(**SCREWED, head__fasteners__kind="screws", head__fasteners__thread="M5",
                    plug__thread="M10x1")  # fmt: skip
    tap = made(found, "drill", "screw holes in the body")
    assert limits(tap) == pytest.approx([4.2, 4.2, 4.3])
    assert mm(tap.size).startswith("4.2 mm, 10 mm deep")
    clear = made(found, "drill", "screw holes in the head")
    assert limits(clear) == pytest.approx([5.5, 5.5, 5.7])
    assert limits(made(found, "drill", "plug hole")) == pytest.approx([9, 9, 9.1])


OWN = """
[thread.mine]
name = "my own thread"
series = "metric coarse"
diameter = { value = 7, low = 7, high = 7, unit = "mm", source = "my own", sure = "measured" }
pitch = { value = 1, low = 1, high = 1, unit = "mm", source = "my own", sure = "measured" }
stress_area = { value = 9, low = 9, high = 9, unit = "mm^2", source = "my own", sure = "measured" }
"""


def test_a_thread_of_ones_own_that_says_no_more_than_its_size(tmp_path):
    """7 mm: a nut of 0.9, a hole of 1.1, a tapping drill of 0.85, a washer of 0.2 of it."""
    (tmp_path / "own.toml").write_text(OWN, encoding="utf-8")
    rows = catalog.load([tmp_path / "own.toml"])
    text = (
        SMALL + LAYOUTS["single"] + '[head.fasteners]\nthread = "mine"\nengaged_length = "10 mm"\n'
    )
    for kind, least in (("through_bolts", 80 + 2.8 + 6.3 + 2), ("screws", 80 + 1.4 + 10)):
        held = f'kind = "{kind}"\nclamped_length = "80 mm"\ncount = 4\n'
        found = parts_list(understand(text + held, "finch.toml", rows))
        (screw,) = [i for i in found.bought if i.path == "head.fasteners" and i.checks]
        assert limits(screw.checks[0])[1] == pytest.approx(least, abs=2e-3)
        assert limits(made(found, "drill", "screw holes in the head")) == pytest.approx(
            [7.7, 7.7, 7.9]
        )
    assert limits(made(found, "drill", "screw holes in the body")) == pytest.approx(
        [5.95, 5.95, 6.05]
    )


VALVE = {
    "valves__inlet__head_diameter": "18 mm", "valves__inlet__throat_diameter": "16 mm",
    "valves__inlet__stem_diameter": "4 mm", "valves__inlet__lift": "4 mm",
    "valves__inlet__spring_rate": "5 N/mm", "valves__inlet__spring_preload": "20 N",
    "valves__inlet__lash": "0.1 mm",
}  # fmt: skip


def test_valves():
    """Spring: 20 N and 4 mm of 5 N/mm are 40 N, 34 to 46 N with 15 % either way."""
    found = list_of(**VALVE)
    valve = bought(found, "inlet valve,")
    assert [limits(check) for check in valve.checks] == [
        pytest.approx([18, 17.8, 18.2]), pytest.approx([4, 3.97, 4]),
    ]  # fmt: skip
    spring = bought(found, "spring for the inlet valve")
    check = spring.checks[0]
    assert (check.wanted, check.low, check.high) == pytest.approx((40, 34, 46))
    assert mm(spring.size).startswith("rate 5 N/mm; 20 N shut, 40 N at 4 mm")
    assert mm(bought(found, "inlet seat").size) == "bored 16 mm, 20.7 mm across at least"
    assert mm(bought(found, "inlet guide").size) == "bored 4 mm, 8 mm across"
    assert limits(made(found, "ream", "inlet guide")) == pytest.approx([4.04, 4.03, 4.05])
    assert limits(made(found, "set", "inlet lash")) == pytest.approx([0.1, 0.07, 0.13])


def test_a_valve_made_at_home():
    found = list_of(**VALVE, valves__inlet__made="shop_made")
    assert limits(bought(found, "rod for the inlet valve").checks[0]) == pytest.approx([4, 3.97, 4])
    assert limits(made(found, "turn", "inlet valve")) == pytest.approx([18, 17.9, 18.1])


def test_the_belt():
    """Ten teeth of 5 mm are 50 mm, 49.5 to 50.5; a belt 9 mm wide 8.5 to 9.5."""
    found = list_of(cam_drive__pitch="5 mm", cam_drive__width="9 mm",
                    cam_drive__centre_distance="180 mm")  # fmt: skip
    belt = bought(found, "toothed belt")
    assert [limits(check) for check in belt.checks] == [
        pytest.approx([9, 8.5, 9.5]), pytest.approx([50, 49.5, 50.5]),
    ]  # fmt: skip
    # Pulleys of 90/π and 180/π mm, 180 mm apart: 2 · 180 + 135 + (90/2π)²/180 = 496.1 mm round.
    assert mm(belt.size).startswith("99 teeth (495 mm round)")
    assert belt.row == ("belt", "curvilinear_5")
    # Half of 0.14 % less length: 496.14 - 495 is 1.14 mm, the shafts come 0.57 mm nearer.
    assert "179.4 mm apart" in mm(belt.note)


def test_a_pitch_nobody_sells():
    assert bought(list_of(cam_drive__pitch="4 mm"), "toothed belt").row == ("", "")
    assert bought(list_of(cam_drive__pitch="3.03 mm"), "toothed belt").row[1] == "curvilinear_3"


def test_plugs_throats_and_loads():
    found = list_of(
        plug__gap="0.6 mm", intake__throttle_diameter="10 mm", load__kind="propeller",
        load__mass="50 g", load__diameter="250 mm", load__pitch="120 mm",
    )  # fmt: skip
    assert limits(bought(found, "spark plug").checks[0]) == pytest.approx([0.6, 0.55, 0.65])
    throat = bought(found, "carburettor").checks[0]
    assert limits(throat) == pytest.approx([10, 9.3, 10.7])
    assert "78.5 mm²" in mm(throat.why)
    load = bought(found, "propeller").checks[0]
    assert (load.wanted, load.low, load.high) == pytest.approx((50e-3, 40e-3, 60e-3))
    assert mm(bought(found, "propeller").size) == "250 mm across, 120 mm pitch"


def test_rod_that_is_sold():
    """Half millimetres, and thirty-seconds of an inch: 13/32 in is 10.31875, 3/8 in 9.525 mm."""
    assert sold_diameter(10.31875e-3) is None
    assert sold_diameter(9.525e-3) is None
    assert sold_diameter(11.5e-3) is None
    assert sold_diameter(11.2e-3) == pytest.approx(11e-3)
    assert sold_diameter(11.3e-3) == pytest.approx(11.5e-3)


def test_pins_that_are_sold():
    """ISO 8734 (from memory): 4 mm pins from 10 mm on, 5 mm ones from 12 mm."""
    assert sold_pin(4e-3, 7e-3) == pytest.approx(10e-3)
    assert sold_pin(5e-3, 7e-3) == pytest.approx(12e-3)
    assert sold_pin(4e-3, 30e-3) == pytest.approx(30e-3)
    assert sold_pin(4e-3, 30.2e-3) == pytest.approx(32e-3)
    assert sold_pin(4e-3, 101e-3) is None
