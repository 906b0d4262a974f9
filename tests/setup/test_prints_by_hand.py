"""Outlines, plastic, grams and hours of round parts, worked out with a calculator."""

import math

import pytest
from tests.loads.small_engines import engine_of
from tests.setup.small_lists import engine_set, list_of, mm

import firstfire as ff
from firstfire.setup.laid import Span, filament_length
from firstfire.setup.outline import outlines
from firstfire.setup.printed import printed_parts
from firstfire.setup.text import hours

CRANK = {
    "crank__crankpin_length": 20e-3, "crank__crankpin_diameter": 12e-3,
    "crank__cheek_thickness": 10e-3, "crank__cheek_width": 30e-3, "crank__joint__length": 7e-3,
    "crank__main_journal_diameter": 15e-3, "crank__main_bearing_outside": 35e-3,
    "crank__main_bearing_width": 11e-3, "crank__bearing_span": 61e-3, "flywheel__thickness": 12e-3,
    "cam_drive__width": 9e-3, "case__wall": 6e-3,
}  # fmt: skip
CM3 = 1e-6


def bodies(layout="single", **values):
    return {(o.part, o.cylinder): o for o in outlines(engine_of(layout, **values))}


def body_of(part, layout="single", cylinder=0, **values):
    return bodies(layout, **values)[part, cylinder]


def disc(across: float, long: float) -> float:
    return math.pi * (across / 2) ** 2 * long


def test_liner_and_body():
    """Tubes of 48 in 44 and 64 in 48 mm, 80 mm long: walls of 2 and 8 mm."""
    sizes = {"liner__outside_diameter": 48e-3, "liner__length": 80e-3,
             "body__outside_diameter": 64e-3}  # fmt: skip
    liner = body_of("liner", cylinder=1, **sizes)
    # π (24² - 22²) · 80 = 92 π · 80 = 23 122 mm³.
    assert liner.volume == pytest.approx(23.122 * CM3, rel=1e-4)
    assert liner.thickness == pytest.approx(2e-3)
    assert liner.sizes == pytest.approx((80e-3, 48e-3, 48e-3))
    body = body_of("body", cylinder=1, **sizes)
    # π (32² - 24²) · 80 = 448 π · 80 = 112 595 mm³.
    assert body.volume == pytest.approx(112.595 * CM3, rel=1e-4)
    assert body.thickness == pytest.approx(8e-3)
    assert body.sizes == pytest.approx((80e-3, 64e-3, 64e-3))


def test_piston():
    """Disc of 44 by 6, skirt of 3 mm round its middle of 41, 34 mm high, boss of 21.6 in 12."""
    piston = body_of(
        "piston", cylinder=1, piston__crown_thickness=6e-3, piston__length=40e-3,
        piston__skirt_thickness=3e-3, piston__boss_width=20e-3, pin__diameter=12e-3,
    )  # fmt: skip
    skirt = math.pi * 41e-3 * 3e-3 * 34e-3
    assert piston.volume == pytest.approx(
        disc(44e-3, 6e-3) + skirt + disc(21.6e-3, 20e-3) - disc(12e-3, 20e-3), rel=1e-9
    )
    assert piston.thickness == pytest.approx(6e-3)
    assert piston.sizes == pytest.approx((40e-3, 44e-3, 44e-3))


def test_con_rod():
    """Eyes of 18 in 10 by 16 and of 20 in 12 by 18 mm; 70 - 5 - 6 - 4 - 4 = 51 mm between them."""
    rod = body_of(
        "con rod", cylinder=1, **CRANK, pin__diameter=10e-3, rod__eye_wall=4e-3, rod__length=70e-3,
        rod__small_end_width=16e-3, rod__big_end_width=18e-3, rod__shank_width=13e-3,
        rod__shank_thickness=15e-3,
    )  # fmt: skip
    eyes = disc(18e-3, 16e-3) - disc(10e-3, 16e-3) + disc(20e-3, 18e-3) - disc(12e-3, 18e-3)
    assert rod.volume == pytest.approx(eyes + 13e-3 * 15e-3 * 51e-3, rel=1e-9)
    assert rod.thickness == pytest.approx(18e-3)
    assert rod.sizes == pytest.approx((89e-3, 20e-3, 18e-3))


def test_head():
    """Swept 60.821 cm³ at 6 to 1 leaves 12.164 cm³; 1 mm of gasket and deck take 1.5205 of them."""
    head = body_of(
        "head", cylinder=1, cylinder__stroke=40e-3, cylinder__compression_ratio=6.0,
        gasket__thickness=0.6e-3, cylinder__deck=0.4e-3, head__thickness=20e-3,
        head__diameter=80e-3, valves__inlet__throat_diameter=16e-3,
        valves__exhaust__throat_diameter=14e-3,
    )  # fmt: skip
    recess = disc(44e-3, 40e-3) / 5 - disc(44e-3, 1e-3)
    high = 20e-3 + 7e-3  # 40/5 - 1 mm of bore
    holes = disc(16e-3, 20e-3) + disc(14e-3, 20e-3)
    assert head.volume == pytest.approx(disc(80e-3, high) - recess - holes, rel=1e-9)
    assert head.thickness == pytest.approx(20e-3)
    assert head.sizes == pytest.approx((high, 80e-3, 80e-3))


def test_crank_of_one_stuff():
    """A cheek 20 + 30 long; pin 20 + 2·7 with a rod of 8 in it; journals 11 and half of 12 + 9."""
    values = CRANK | {
        "crank__crankpin_material": "petg", "crank__through_rod_diameter": 8e-3,
        "crank__journal__material": "petg", "crank__journal__joint__kind": "solid",
        "crank__journal__rod_diameter": 10e-3, "cylinder__stroke": 40e-3,
    }  # fmt: skip
    cheek = body_of("crank cheek", **values)
    assert cheek.count == 2
    assert cheek.volume == pytest.approx(50e-3 * 30e-3 * 10e-3)
    assert cheek.thickness == pytest.approx(10e-3)
    assert cheek.sizes == pytest.approx((50e-3, 30e-3, 10e-3))
    journal = body_of("main journal", **values)
    assert journal.count == 2
    assert journal.volume == pytest.approx(disc(15e-3, 21.5e-3) - disc(10e-3, 21.5e-3))
    assert journal.thickness == pytest.approx(5e-3)
    assert journal.sizes == pytest.approx((15e-3, 15e-3, 21.5e-3))
    pin = body_of("crankpin", **values)
    assert pin.count == 1
    assert pin.volume == pytest.approx(disc(12e-3, 34e-3) - disc(8e-3, 34e-3))
    assert pin.thickness == pytest.approx(4e-3)
    assert pin.sizes == pytest.approx((12e-3, 12e-3, 34e-3))
    whole = body_of("crankpin", **values | {"crank__built": "one_piece"})
    assert whole.sizes[2] == pytest.approx(20e-3)


def test_two_throws_have_four_cheeks_and_two_pins():
    values = CRANK | {"crank__crankpin_material": "petg", "crank__bearing_span": 130e-3}
    found = bodies("parallel 180", **values, layout__cylinder_spacing=70e-3)
    assert found["crank cheek", 0].count == 4
    assert found["crankpin", 0].count == 2


def test_case():
    """Between the bearings 61 - 11 = 50 mm; 251 cm³ in that is a drum 80 mm wide."""
    volume = disc(80e-3, 50e-3)
    case = body_of("crankcase (both halves)", **CRANK, case__volume=volume)
    shell = disc(92e-3, 62e-3) - volume
    seats = 2 * (disc(47e-3, 11e-3) - disc(35e-3, 11e-3))
    assert case.volume == pytest.approx(shell + seats, rel=1e-9)
    assert case.thickness == pytest.approx(6e-3)
    assert case.sizes == pytest.approx((92e-3, 92e-3, 62e-3))
    # With less volume it still clears the crank: a stroke of 40, a cheek of 30 and 2 mm.
    small = body_of("crankcase (both halves)", **CRANK, case__volume=volume / 4)
    assert small.sizes == pytest.approx((84e-3, 84e-3, 62e-3))


def test_pulleys_and_gears():
    """18 and 36 teeth of 3 mm are 54/π and 108/π mm across; a belt's has 1 mm of flange a side."""
    drive = {"cam_drive__pitch": 3e-3, "cam_drive__width": 9e-3, "cam_drive__teeth_crank": 18,
             "cam_drive__teeth_cam": 36}  # fmt: skip
    belt = bodies(**drive)
    small = belt["pulley on the crank, 18 teeth", 0]
    assert small.volume == pytest.approx(disc(54e-3 / math.pi, 11e-3))
    assert small.sizes == pytest.approx((54e-3 / math.pi, 54e-3 / math.pi, 11e-3))
    assert small.thickness == pytest.approx(11e-3)
    assert small.count == 1
    large = belt["pulley on the cam, 36 teeth", 0]
    assert large.volume == pytest.approx(disc(108e-3 / math.pi, 11e-3))
    gear = body_of("gear on the cam, 36 teeth", **drive, cam_drive__kind="gear")
    assert gear.volume == pytest.approx(disc(108e-3 / math.pi, 9e-3))
    chain = bodies(**drive, cam_drive__kind="chain")
    assert not [part for part, _ in chain if "teeth" in part]


def test_cams():
    """Base radius 11 and 6 mm of lift by a rocker of 1.5: 2 · 11 + 4 = 26 mm, and 6 mm wide."""
    values = {"valves__inlet__base_radius": 11e-3, "valves__inlet__lift": 6e-3,
              "valves__inlet__rocker": "rocker", "valves__inlet__rocker_ratio": 1.5,
              "valves__inlet__stem_diameter": 4e-3}  # fmt: skip
    cam = body_of("inlet cam", cylinder=1, **values)
    assert cam.volume == pytest.approx(disc(26e-3, 6e-3))
    assert cam.sizes == pytest.approx((26e-3, 26e-3, 6e-3))
    assert cam.thickness == pytest.approx(6e-3)
    thick = body_of("inlet cam", cylinder=1, **values | {"valves__inlet__stem_diameter": 7e-3})
    assert thick.volume == pytest.approx(disc(26e-3, 7e-3))


def test_a_reel_in_metres():
    """100 cm³ of 1.75 mm round: 100 000 / (π · 0.875²) mm = 41.58 m."""
    assert filament_length(100e-6) == pytest.approx(0.1 / (math.pi * 0.875**2) * 1e3)


def printed(**values):
    engine = engine_set(**values)
    return {part.part: part for part in printed_parts(engine, ff.resolve(engine))}


def test_plastic_grams_and_hours_of_a_cheek():
    """50 × 30 × 10 mm, four lines of 0.5 mm a face: 4 + 0.5 · 6 = 7 of 10 mm are plastic.

    15 cm³ · 0.7 = 10.5 cm³; PETG of 1270 kg/m³: 13.335 g; at 5 (3 to 10) mm³/s 2100 s.
    """
    cheek = printed(
        crank__walls="4", crank__line_width="0.5 mm", crank__infill="0.5",
        cylinder__stroke="40 mm",
    )["crank cheek"]  # fmt: skip
    assert cheek.lies.startswith("flat")
    assert cheek.outline == pytest.approx(15e-6)
    assert cheek.plastic == pytest.approx(10.5e-6)
    assert cheek.mass == pytest.approx(13.335e-3)
    assert cheek.time == pytest.approx((2100.0, 1050.0, 3500.0))


def test_a_resin_part_takes_its_height():
    """A cheek of 50 × 30 × 10 mm in resin, lying or standing: 20 (10 to 40) mm an hour."""
    flat = printed(crank__material="resin", cylinder__stroke="40 mm")["crank cheek"]
    assert flat.plastic == flat.outline == pytest.approx(15e-6)
    assert flat.time == pytest.approx((1800.0, 900.0, 3600.0))
    for stacked, hours_up in (("along_bore", 2.5), ("across_bore", 1.5)):
        up = printed(
            crank__material="resin", cylinder__stroke="40 mm",
            crank__layers_stacked=stacked,
        )["crank cheek"]  # fmt: skip
        assert up.time.value == pytest.approx(hours_up * 3600)


def test_pulleys_are_taken_solid_and_of_the_engines_own_material():
    found = printed(printing__material="pla")
    pulley = found["pulley on the crank, 18 teeth"]
    assert pulley.plastic == pulley.outline
    assert pulley.material == "pla"
    # PLA weighs 1240 kg/m³.
    assert pulley.mass == pytest.approx(1240 * pulley.outline, rel=0.01)


def test_the_sum_of_a_twin():
    """Both pistons count, in grams and in seconds."""
    found = list_of("opposed")
    (pistons,) = [part for part in found.printed if part.part == "piston"]
    assert (pistons.count, pistons.cylinders) == (2, (1, 2))
    rest = [part for part in found.printed if part.part != "piston"]
    assert found.printed_mass == pytest.approx(
        2 * pistons.mass + sum(part.count * part.mass for part in rest)
    )
    for n in range(3):
        assert found.print_time[n] == pytest.approx(
            2 * pistons.time[n] + sum(part.count * part.time[n] for part in rest)
        )


def test_how_long_in_words():
    assert mm(hours(Span(7200.0, 3600.0, 9000.0))) == "2 h (1–2.5)"
    assert mm(hours(Span(3000.0, 1500.0, 6000.0))) == "50 min (25–100)"
