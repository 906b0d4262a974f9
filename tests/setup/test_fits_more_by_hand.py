"""Still more of fits by hand: rings, gauge, presses, torques, sealant and belt, of round sizes."""

from __future__ import annotations

import math
from types import SimpleNamespace as Of

import pytest

import firstfire as ff
from firstfire.engine.read import with_values
from firstfire.formulas.cure import ROOM
from firstfire.formulas.normal import NINETY
from firstfire.setup.fits import (
    all_seats,
    belt,
    clearances,
    cylinder_seats,
    drawing_for,
    gauge,
    hand_scatter,
    measured,
    pressing,
    refused,
    rings,
    sealant,
    shaft_seats,
    text,
    text_torques,
    torques,
    words,
)
from firstfire.setup.fits.bore import PLACES, Bore
from firstfire.setup.fits.facts import CylinderFits
from firstfire.setup.fits.seat import Drawn, Pressing, SeatFit
from firstfire.setup.standing import FRESH, NIGHT

MM = 1e-3


class Row:
    """A row of the catalog with numbers by name."""

    def __init__(self, key="row", **numbers):
        self.key = self.name = key
        self.data = self.numbers = numbers

    def si(self, name):
        return self.numbers[name]

    def __getitem__(self, name):
        return self.numbers[name]


def cylinder(bore=26.0, skirt=0.4, **of_rings):
    """Bore, skirt's clearance and its rings' sizes in mm; shares and names as they are."""
    plain = {"kind", "count", "squeeze", "material"}
    sizes = {name: one if name in plain else one * MM for name, one in of_rings.items()}
    return Of(
        cylinder=Of(bore=bore * MM), piston=Of(skirt_clearance=skirt * MM), rings=Of(**sizes),
        liner=Of(material="tube"),
    )  # fmt: skip


def test_an_o_ring_between_floor_and_bore():
    """A ring of 17.8 and 2.2 mm on a floor of 25.4 - 0.4 - 3 = 22: 2.2 √(20/24.2) = 2 mm thick. A
    gland of 1.7 squeezes it by 0.15, of 1.8 by 0.1; it fills π of 1.7 · 3 mm²; 1 mm is beside it.
    """
    parts = cylinder(
        25.4,
        kind="o_ring",
        count=1,
        section=2.2,
        inside_diameter=17.8,
        groove_depth=1.5,
        groove_width=3,
    )
    found = rings.ring_fit(None, parts, 25.4 * MM, 25.6 * MM)
    assert found.stretch == pytest.approx(4.2 / 17.8)
    assert found.squeeze == pytest.approx((0.1, 0.15))
    assert found.fill == pytest.approx(math.pi / 5.1)
    assert found.side == pytest.approx(1.0 * MM)
    assert found.works


def test_a_split_rings_gap_widens_by_pi_times_the_bore():
    """0.2 mm in 40; in 39.99 π hundredths less, in 40.05 five times that more. Ring 20 and liner 10
    in a million and K: π B · 10⁻⁵ of the gap goes by each K."""
    plain = Of(materials={"ring": Row(expansion=20e-6), "tube": Row(expansion=10e-6)})
    parts = cylinder(
        40, kind="split", count=2, gap=0.2, material="ring", groove_width=1.05, axial_height=1
    )
    found = rings.ring_fit(plain, parts, 39.99 * MM, 40.05 * MM)
    tight = (0.2 - 0.01 * math.pi) * MM
    assert found.gap == pytest.approx((tight, (0.2 + 0.05 * math.pi) * MM))
    assert found.butts_at == pytest.approx(tight / (math.pi * 39.99 * MM * 1e-5))
    assert found.side == pytest.approx(0.05 * MM)
    assert found.works
    cool = Of(materials={"ring": Row(expansion=10e-6), "tube": Row(expansion=20e-6)})
    assert rings.ring_fit(cool, parts, 39.99 * MM, 40.05 * MM).butts_at is None


def test_a_ring_that_is_sold_and_the_groove_it_wants():
    """37.98 and 2.02 mm on a floor of 38.784: √(40/40.804) = 1/1.01, so 2 mm thick, and squeezed by
    a tenth 1.8 deep. The bore is 38.784 + 3.6; the skirt, 0.384 less, is 42 mm: 1.608 below it. It
    fills three quarters of π mm² by a width of π/1.35 mm. On a floor 0.2 mm smaller: 1.9 mm deep.
    """
    parts = cylinder(
        42.5, 0.384, kind="o_ring", count=1, section=2, squeeze=0.1, groove_depth=1.766
    )
    rows = [Row("loose", inside=20 * MM, section=2 * MM), Row("thin", inside=1 * MM, section=1e-6),
            Row("good", inside=37.98 * MM, section=2.02 * MM)]  # fmt: skip
    catalog = Of(rows=lambda kind: {"oring": rows}[kind])
    (found,) = rings.suiting(catalog, parts, 42.384 * MM)
    assert found.key == "good"
    assert (found.inside, found.section) == pytest.approx((37.98 * MM, 2.02 * MM))
    assert found.groove == pytest.approx(38.784 * MM)
    assert found.depth == pytest.approx(1.608 * MM)
    assert found.width == pytest.approx(math.pi / 1.35 * MM)
    assert found.stretch == pytest.approx(0.804 / 37.98)
    assert found.squeeze == pytest.approx(0.1)
    assert found.fill == pytest.approx(0.75)
    thick = 2.02 * math.sqrt(40 / (38.584 + 2.02))
    assert found.as_drawn == pytest.approx(1 - 1.9 / thick)


def test_a_gauge_of_12_and_16_mm():
    """The widest hole of 12 is 12.5: one each 17.5 mm, 7 of them and an edge are 127.5; with edges
    it is 22.5 mm deep, and 9 below it the pins begin, each 12.1 + 9 = 21.1 mm from the last."""
    seats = [Of(nominal=size * MM, drawn=Drawn(hole=size * MM)) for size in (12, 16)]
    blocks = gauge.gauge(seats).blocks
    plate, *pins = blocks[:6]
    corners = [(0, -19.5), (3, -22.5), (127.5, -22.5), (127.5, 0), (0, 0)]
    for found, corner in zip(plate.outline, corners, strict=True):
        assert [1e3 * one for one in found] == pytest.approx(corner)
    assert plate.height == pytest.approx(8 * MM)
    steps = (-0.1, 0, 0.1, 0.2, 0.3, 0.4, 0.5)
    for n, (hole, step) in enumerate(zip(plate.holes, steps, strict=True)):
        assert hole.at == pytest.approx(((11.25 + 17.5 * n) * MM, -11.25 * MM))
        assert hole.diameter == pytest.approx((12 + step) * MM)
        assert float(hole.text) == pytest.approx(12 + step)
    for n, (pin, step) in enumerate(zip(pins, (-0.3, -0.2, -0.1, 0, 0.1), strict=True)):
        x, y = zip(*pin.outline, strict=True)
        assert max(x) - min(x) == pytest.approx((12 + step) * MM)
        assert (max(x) + min(x)) / 2 == pytest.approx((6 + 21.1 * n) * MM)
        assert max(y) == pytest.approx((-37.5 + (12 + step) / 2) * MM)
        assert pin.height == pytest.approx((10 + 2 * n) * MM)
        assert float(pin.text) == pytest.approx(12 + step)
    # The largest pin ends at -37.5 - 6.05, and 9 mm below begins the next plate.
    assert max(y for _, y in blocks[6].outline) == pytest.approx(-52.55 * MM)
    below = min(y for _, y in blocks[6].outline)
    assert max(y for _, y in blocks[-1].outline) == pytest.approx(below - (9 - 0.05) * MM)


def test_what_is_drawn_is_less_by_what_comes_out_more():
    """A hole that comes out 0.2 mm small is drawn 0.2 larger, less 0.3 for the reamer."""
    plain = Of(printing=Of(hole_error=-0.2 * MM, shaft_error=0.05 * MM))
    found = drawing_for.drawn(plain, hole=12 * MM, shaft=10 * MM, ream=0.3 * MM)
    assert found.hole == pytest.approx(11.9 * MM)
    assert found.shaft == pytest.approx(9.95 * MM)


def test_a_clearance_is_within_at_both_its_ends():
    def within(as_filed):
        one = clearances.Clearance("", "", as_filed * MM, 0.2 * MM, 0.4 * MM, "")
        return one.within

    assert [within(mm) for mm in (0.1999, 0.2, 0.3, 0.4, 0.4001)] == [
        False,
        True,
        True,
        True,
        False,
    ]


def clear_parts(**lash):
    valves = {name: Of(worked="cam", lash=mm * MM) for name, mm in lash.items()}
    return Of(
        rod=Of(big_end_width=11.6 * MM), cylinder=Of(bore=40 * MM), pin=Of(length=38.8 * MM),
        piston=Of(skirt_clearance=0.3 * MM), plug=Of(gap=0.6 * MM),
        valves=Of(**{"inlet": Of(worked="suction"), **valves}),
    )  # fmt: skip


def test_clearances_of_a_cylinder():
    """Skirt 0.3: 0.2 to 0.4; lash 0.1 and 0.02 by 0.03 either way, never less than none; plug 0.6
    by 0.05; the pin's ends up to a quarter of the bore."""
    plain = Of(crank=Of(crankpin_length=12 * MM))
    found = {
        one.id: [1e3 * size for size in (one.as_filed, one.least, one.most)]
        for one in clearances._of(plain, clear_parts(inlet=0.1, exhaust=0.02))
    }
    assert found == {
        "rod-side": pytest.approx([0.4, 0.2, 1.0]), "pin-end": pytest.approx([1.2, 0.4, 10.0]),
        "skirt": pytest.approx([0.3, 0.2, 0.4]), "inlet-lash": pytest.approx([0.1, 0.07, 0.13]),
        "exhaust-lash": pytest.approx([0.02, 0.0, 0.05]),
        "plug-gap": pytest.approx([0.6, 0.55, 0.65]),
    }  # fmt: skip


@pytest.mark.parametrize(
    ("case", "shaft", "least", "moves"), [(10, 30, 0.11, "closes"), (30, 10, 0.05, "opens")]
)
def test_end_float_leaves_what_a_shaft_outgrows_its_case_by(case, shaft, least, moves):
    """20 in a million of 75 mm for 40 K are 0.06 mm; 0.05 are left besides, and 0.2 more may be."""
    plain = Of(
        case=Of(material="case"), crank=Of(journal=Of(material="shaft"), bearing_span=75 * MM),
        materials={"case": Row(expansion=case * 1e-6), "shaft": Row(expansion=shaft * 1e-6)},
        cylinders=(clear_parts(exhaust=0.1), clear_parts(exhaust=0.2)),
    )  # fmt: skip
    plain.crank.crankpin_length = 12 * MM
    first, *others = clearances.clearances(plain)
    assert (first.least, first.most) == pytest.approx((least * MM, (least + 0.2) * MM))
    assert f"{moves} it by 0.06 mm" in first.how
    assert [one.id for one in others] == [
        "rod-side", "pin-end", "skirt", "exhaust-lash", "plug-gap", "exhaust-lash-2",
    ]  # fmt: skip


def test_pressing_a_pin_into_its_hub(monkeypatch):
    """Slipping at 6 N·m on 12 mm it is pressed with 2 · 6 / 0.012 = 1000 N; a night leaves 4.5. In
    24 mm 10 MPa pull by 10 · 720/432, and press by 10. 12 µm of 12 mm go by 1000 in a million: with
    10 in a million and K between the two, at 100 K."""
    seat = Of(
        joint=Of(diameter=12 * MM), hub=Of(outside=24 * MM, material=Row(expansion=20e-6),
                                           metal=False),
        pin=Row(expansion=10e-6), words=("pin", "hub"),
    )  # fmt: skip
    plain = Of(surroundings=Of(air_temperature=293.15))

    def of(found):
        def law(moment, asked):
            assert asked is seat
            return found[moment]

        return law

    monkeypatch.setattr(
        pressing, "standing", lambda of, place, hours: ({id(plain): place}[id(of)], hours)
    )
    fresh, rested = (1, FRESH), (1, NIGHT)
    monkeypatch.setattr(pressing, "joint_friction", Of(
        press=of({fresh: Of(torque=6.0), rested: Of(torque=4.5)}),
        pressed=of({fresh: Of(by_fit=10e6), rested: Of(bears=Of(value=30e6))}),
    ))  # fmt: skip
    monkeypatch.setattr(pressing, "working_interference", of({fresh: 12e-6}))
    monkeypatch.setattr(pressing, "softens", lambda material: 400.0)  # noqa: ARG005
    found = pressing.pressing(plain, seat, 1)
    assert found.force == pytest.approx(1000.0)
    assert found.stress == pytest.approx(10e6 * 720 / 432 + 10e6)
    assert (found.bears, found.what, found.softens) == (30e6, "hub", 400.0)
    assert found.night == pytest.approx(0.75)
    assert found.frees == pytest.approx(293.15 + 100)


def test_pressing_a_liner_into_its_body(monkeypatch):
    """20 µm that give by 2 µm for each MPa press with 10 MPa; of the friction half is doubted. What
    holds 0.05 mm cold and 0.04 when 10 K warmer lets go at 50 K."""
    parts = Of(
        liner=Of(material="tube", outside_diameter=40 * MM, length=50 * MM),
        body=Of(material="print"),
    )  # fmt: skip
    plain = Of(
        cylinders=(None, parts), materials={"tube": "tube", "print": "print"},
        doubt=Of(press_friction=0.5), surroundings=Of(air_temperature=293.15),
    )  # fmt: skip

    def stands(of, place, hours=NIGHT, rise=0.0):
        return {id(plain): place}[id(of)], hours, rise

    fits_left = {FRESH: 20e-6, NIGHT: 50e-6}
    held = {(1, FRESH, 0.0): 4e-6, (1, NIGHT, 0.0): 3e-6}
    monkeypatch.setattr(pressing, "standing", stands)
    monkeypatch.setattr(pressing, "touching", lambda moment: Of(
        fit_warm=fits_left[moment[1]] - moment[2] * 1e-6, sizes=lambda _: {"of": moment}
    ))  # fmt: skip
    monkeypatch.setattr(
        pressing, "thick_cylinder", Of(give_of_both=lambda of: {(1, FRESH, 0.0): 2e-12}[of])
    )
    monkeypatch.setattr(pressing, "between", lambda moment: held[moment])
    monkeypatch.setattr(pressing, "is_metal", lambda material: material == "tube")
    monkeypatch.setattr(pressing, "softens", lambda material: {"print": 350.0}[material])
    monkeypatch.setattr(pressing, "nearest_to_giving", lambda fresh, rested: {
        (FRESH, NIGHT): ("liner", Of(demand=3e6, capacity=9e6))
    }[fresh[1], rested[1]])  # fmt: skip
    found = pressing.liner_pressing(plain, 1)
    rubs = 0.5 * pressing.assumed.FRICTION_ON_PLASTIC
    assert found.force == pytest.approx(rubs * 10e6 * math.pi * 0.04 * 0.05)
    assert (found.stress, found.bears, found.softens) == (3e6, 9e6, 350.0)
    assert found.night == pytest.approx(0.75)
    assert found.frees == pytest.approx(293.15 + 50)


def test_the_nearest_to_giving_has_most_of_what_it_bears(monkeypatch):
    """Half, four fifths, half: the liner, though the oval one has most of both."""

    def way(demand, capacity, of):
        return lambda moment: Of(judged=moment == of, demand=demand, capacity=capacity)

    monkeypatch.setattr(pressing, "body_splits", way(3.0, 6.0, "fresh"))
    monkeypatch.setattr(pressing, "liner_fit", Of(
        crushes=way(4.0, 5.0, "rested"), ovalises=way(10.0, 20.0, "rested"),
    ))  # fmt: skip
    what, found = pressing.nearest_to_giving("fresh", "rested")
    assert (what, found.demand) == ("liner", 4.0)


def test_where_a_print_is_soft_and_a_metal_never(monkeypatch):
    monkeypatch.setattr(pressing, "is_metal", lambda material: material == "steel")
    monkeypatch.setattr(
        pressing, "softens_at", lambda material, share: {("print", pressing.assumed.SOFT): 360.0}[
            material, share]
    )  # fmt: skip
    assert pressing.softens("print") == 360.0
    assert pressing.softens("steel") is None


def test_each_screw_of_a_circle_is_opposite_to_the_last():
    assert torques.crosswise(8) == (1, 5, 2, 6, 3, 7, 4, 8)
    assert torques.crosswise(5) == (1, 3, 5, 2, 4)


JOINTS = {
    (FRESH, 0.0): Of(tightened=1000.0, settled=970.0, left=960.0),
    (1 / 6, 0.0): Of(tightened=1000.0, settled=960.0, left=864.0),
    (NIGHT, 0.0): Of(tightened=1000.0, settled=960.0, left=768.0),
    (168.0, 0.0): Of(tightened=1000.0, settled=960.0, left=672.0),
    (NIGHT, 60.0): Of(tightened=1000.0, settled=960.0, left=576.0),
}
"""A joint that keeps nine, eight and seven tenths of 960 N after ten minutes, a night, a week."""


def joint_of(monkeypatch):
    def stands(of, place, hours=NIGHT, rise=0.0):
        assert (of.name, place) == ("plain", 0)
        return hours, rise

    monkeypatch.setattr(torques, "standing", stands)
    monkeypatch.setattr(torques, "head_joint", JOINTS.__getitem__)
    held = Of(thread="M6", count=4, torque=9.0)
    return Of(name="plain", cylinders=(Of(head=Of(fasteners=held)),))


def test_what_tightening_again_regains(monkeypatch):
    """At first 1000 - 864. From 0.9 to 0.8 a ninth goes, from 0.8 to 0.7 an eighth; warm once, 576
    of 768 are three quarters."""
    found = list(torques._again(joint_of(monkeypatch), 0))
    assert [one.hours for one in found] == pytest.approx([1 / 6, 12, 7 * 24, 12])
    assert [one.left for one in found] == pytest.approx([864, 8000 / 9, 875, 750])
    assert [one.regained for one in found] == pytest.approx([136, 1000 / 9, 125, 250])


def test_the_torque_sheet_of_a_head(monkeypatch):
    """9 N·m in thirds. M6 of 1 mm: mean 6 - 0.6495 mm, head 7.5; rubbing 0.10 and 0.16."""
    plain = joint_of(monkeypatch)
    asked = []

    def by_friction(pull, **sizes):
        asked.append((pull, sizes))
        return 10.0 * len(asked)

    monkeypatch.setattr(torques, "torque_by_friction", by_friction)
    monkeypatch.setattr(
        torques, "sizes", lambda at: {(NIGHT, 0.0): Of(diameter=6 * MM, pitch=MM)}[at]
    )
    monkeypatch.setattr(torques, "grip_once", lambda at: {(NIGHT, 0.0): Of(holds=5000.0)}[at])
    paths = ("head.fasteners.torque", "doubt.nut_factor")
    monkeypatch.setattr(torques, "spread", lambda *of: {("engine", 0, *paths): (0.8, 1.25)}[of])
    found = torques._head("engine", plain, 0)
    assert found.steps == pytest.approx((3, 6, 9))
    assert found.order == (1, 3, 2, 4)
    assert (found.pull, found.low, found.high) == pytest.approx((1000, 800, 1250))
    assert (found.settled, found.night, found.warm, found.cold) == (970, 768, 576, 576)
    assert (found.by_friction, found.holds) == ((10.0, 20.0), 5000.0)
    for (pull, sizes), rubs in zip(asked, (0.10, 0.16), strict=True):
        assert pull == 1000
        assert sizes == {
            "mean_diameter": pytest.approx(5.3505 * MM), "pitch": MM, "thread_friction": rubs,
            "collar_diameter": pytest.approx(7.5 * MM), "collar_friction": rubs,
        }  # fmt: skip


def test_a_clamps_pull_and_what_the_hand_and_a_night_make_of_it(monkeypatch):
    """3000 N by hand from 0.8 to 1.25 times; a hub that keeps 0.7 of its stress leaves 2100 N."""
    monkeypatch.setattr(torques, "spread", lambda engine, place, path: {
        ("engine", 0, "flywheel.joint.clamp_screw_force"): (0.8, 1.25)
    }[engine, place, path])  # fmt: skip
    stood = {("plain", NIGHT): "stood"}
    monkeypatch.setattr(torques, "standing", lambda of, hours: stood[of, hours])
    monkeypatch.setattr(torques, "stress_left", lambda material, hours, temperature: {
        ("PETG", NIGHT, 293.15): 0.7
    }[material, hours, temperature])  # fmt: skip
    joints = {
        "crankpin": Of(kind="clamped", clamp_screw_force=0.0),
        "journal": Of(kind="solid", clamp_screw_force=500.0),
        "flywheel": Of(kind="clamped", clamp_screw_force=3000.0),
        "cam_wheel": Of(kind="solid", clamp_screw_force=0.0),
    }
    for name, joint in joints.items():
        seat = Of(prefix=f"{name}.joint.", joint=joint, hub=Of(material="PETG"), temperature=293.15)
        monkeypatch.setattr(torques.seats, name, lambda _, seat=seat: seat)
    (found,) = torques._clamps("engine", "plain")
    assert (found.id, found.pull) == ("flywheel", 3000.0)
    assert found.night == pytest.approx(2100.0)
    assert (found.low, found.high) == pytest.approx((2400.0, 3750.0))
    assert "M4: 2.4 N·m" in found.why_not  # a fifth of 3000 N by 4 mm


def test_a_printed_hub_creeps_and_a_steel_one_does_not():
    """wren's flywheel clamped with 1000 N, of PETG and of steel."""

    def left(material):
        engine = with_values(ff.read("engines/wren.toml"), {
            "flywheel.joint.kind": "clamped", "flywheel.joint.clamp_screw_force": "1000 N",
            "flywheel.material": material,
        })  # fmt: skip
        (found,) = torques._clamps(engine, ff.resolve(engine))
        return found.night

    assert left("steel") == 1000.0
    assert 300.0 < left("petg") < 950.0


def test_a_plugs_usual_torque_goes_by_its_threads_area():
    """10 N·m of M10, by 1.4² for M14."""
    plain = Of(cylinders=(Of(plug=Of(thread="M14x1.25")),))
    catalog = Of(row=lambda kind, key: {("thread", "M14x1.25"): Row(diameter=14 * MM)}[kind, key])
    assert "(20 N·m is usual" in torques._plug(plain, catalog).why_not


def test_factors_of_a_product_are_added_as_squares_of_logarithms(monkeypatch):
    """Ends at e⁻³ and e⁵, and a divisor's at e⁻¹² and e⁴: √(3² + 4²) down, √(5² + 12²) up."""
    found = [
        Of(path="cylinders.2.head.torque", low=2 * math.exp(-3), centre=2, high=2 * math.exp(5)),
        Of(path="doubt.nut_factor", low=3 * math.exp(-12), centre=3, high=3 * math.exp(4)),
        Of(path="other", low=1, centre=2, high=3),
    ]
    monkeypatch.setattr(hand_scatter, "unknowns", lambda _: found)
    engine = Of(cylinders=2)
    both = hand_scatter.spread(engine, 1, "head.torque", "doubt.nut_factor")
    assert both == pytest.approx((math.exp(-5), math.exp(13)))
    assert hand_scatter.spread(engine, 0, "head.torque") == (1.0, 1.0)


def bead(structure, **row):
    seal = Of(
        kind="cured_sealant", material="paste", thickness=0.3 * MM, width=6 * MM, open_time=200.0,
        cure_temperature=ROOM + 10, cure_time=7200.0,
    )  # fmt: skip
    stuff = Row("paste", **row)
    stuff.structure = structure
    return Of(cylinders=(Of(gasket=seal),), materials={"paste": stuff})


def test_a_bead_cures_through_with_the_square_of_its_width():
    """3 mm deep in a day at 23 °C: 6 mm take four days. What cures in bulk in an hour takes half of
    it 10 K warmer."""
    open_edge = bead("elastomer", cure_depth_per_day=3 * MM)
    assert sealant.full_cure(open_edge, 0, ROOM) == pytest.approx(4 * 86400)
    bulk = bead("thermoset", cure_time=3600.0)
    assert sealant.full_cure(bulk, 0, ROOM + 10) == pytest.approx(1800)


def test_what_cures_are_worth(monkeypatch):
    """What stands 1 Pa for each second, up to a day's: two hours' are a twelfth of it. A skin after
    600 s comes in half the time when 10 K warmer."""
    plain = bead("thermoset", cure_time=3600.0, skin_time=600.0)

    def holds(of, place, seconds):
        assert of.cylinders[place] is plain.cylinders[0]
        return min(seconds, 86400.0)

    monkeypatch.setattr(sealant, "_holds", holds)
    found = sealant.sealant(plain)
    assert found.why_not == ""
    assert found.close_within == pytest.approx(300)
    assert found.in_time
    assert found.full == pytest.approx(1800)
    assert [at for at, _ in found.full_at] == pytest.approx([283.15, 293.15, 303.15])
    assert [full for _, full in found.full_at] == pytest.approx(
        [3600 * 2**1.3, 3600 * 2**0.3, 3600 / 2**0.7]
    )
    assert found.now == pytest.approx((7200, 7200, 1 / 12))
    assert [one.seconds for one in found.worth] == pytest.approx(
        [1200, 7200, 43200, 86400, 172800, 604800]
    )
    assert [one.share for one in found.worth] == pytest.approx([1 / 72, 1 / 12, 0.5, 1, 1, 1])


class Copied(Of):
    """A stand-in that is copied with other values, as an engine's sections are."""

    def model_copy(self, update):
        return Copied(**{**vars(self), **update})


def test_a_cure_is_judged_with_that_time_in_the_engine(monkeypatch):
    parts = [Copied(gasket=Copied(cure_time=1.0)) for _ in range(2)]
    monkeypatch.setattr(sealant, "standing", lambda plain, place: plain.cylinders[place].gasket)
    monkeypatch.setattr(
        sealant, "blows_out", lambda gasket: Of(judged=True, capacity=2 * gasket.cure_time)
    )
    assert sealant._holds(Copied(cylinders=tuple(parts)), 1, 60.0) == 120.0


def belt_plain(**put):
    drive = {
        "kind": "belt",
        "tension": 50.0,
        "pitch": 5 * math.pi * MM,
        "teeth_crank": 12,
        "teeth_cam": 40,
        "centre_distance": 0.25,
        "width": 10 * MM,
        "count": 2,
        "belt": None,
    }
    return Of(cam_drive=Of(**{**drive, **put}))  # fmt: skip


def test_how_tight_a_belt_is():
    """Wheels of 60 and 200 mm at 250: √(250² - 70²) = 240 mm. 20 g/m under 50 N: 50 m/s, by 0.48 m
    104.2 Hz; 1.21 times as heavy 1/1.1 of it, 0.81 times 1/0.9. 5 N press 240 mm in by 6."""
    weighs = Of(si=2.0, si_low=1.62, si_high=2.42)
    off = Row("off", pitch=5.2 * math.pi * MM)
    row = Row("row", pitch=5.05 * math.pi * MM, mass_per_area=weighs, thickness=11.9 * MM)
    catalog = Of(rows=lambda kind: {"belt": [off, row]}[kind])
    found, why = belt.belt_set(belt_plain(), catalog)
    assert why == ""
    assert (found.tension, found.belts, found.wheel_pull) == (50.0, 2, 200.0)
    assert found.span == pytest.approx(0.24)
    assert found.pitch == pytest.approx(50 / 0.48)
    assert (found.low, found.high) == pytest.approx((50 / 0.48 / 1.1, 50 / 0.48 / 0.9))
    assert (found.press, found.gives) == pytest.approx((5.0, 6 * MM))
    assert found.trusted
    row.numbers["thickness"] = 12.1 * MM
    assert not belt.belt_set(belt_plain(), catalog)[0].trusted
    none, why = belt.belt_set(belt_plain(pitch=5.5 * math.pi * MM), catalog)
    assert none is None
    assert "no belt of 17.28 mm pitch" in why


def printer(usual, error):
    values = Of(number=lambda path: {"printing.repeatability": usual}[path])
    row = Of(
        row=lambda kind, tool: {("instrument", "caliper_inside"): Row(error=error)}[kind, tool]
    )
    return Of(values=lambda number: {1: values}[number], catalog=row)


def test_what_two_readings_say_of_a_printer():
    """+0.1 and +0.3 mm: 0.2 on the mean. Two prints of √2 · 0.04 are off by 0.04 together, the jaws
    by 0.03 each time: 0.05."""
    read = [measured.Printed("hole", 12 * MM, (12 + off) * MM) for off in (0.1, 0.3)]
    (found,) = measured.habits(printer(math.sqrt(2) * 0.04 * MM, 0.03 * MM), read)
    assert (found.error, found.low, found.high) == pytest.approx((0.2 * MM, 0.15 * MM, 0.25 * MM))
    assert (found.scatter, found.count) == (None, 2)


def test_three_readings_tell_their_own_scatter():
    """0, 0.1 and 0.2 mm deviate by 0.1: 1.645 of it. Three of them are off by that over √3."""
    read = [measured.Printed("hole", 12 * MM, (12 + off) * MM) for off in (0, 0.1, 0.2)]
    (found,) = measured.habits(printer(MM, 0.03 * MM), read)
    assert found.scatter == pytest.approx(NINETY * 0.1 * MM)
    half = math.sqrt((NINETY * 0.1) ** 2 / 3 + 0.03**2) * MM
    assert (found.low, found.high) == pytest.approx((0.1 * MM - half, 0.1 * MM + half))


def test_a_reading_a_millimetre_off_is_a_slip():
    found = measured._printed("hole", "12", 12.9 * MM)
    assert (found.drawn, found.measured) == pytest.approx((12 * MM, 12.9 * MM))
    for size in (13.1, 10.9):
        with pytest.raises(measured.NotAQuantity):
            measured._printed("shaft", "12", size * MM)


def test_a_bore_six_hundredths_off_is_a_slip():
    """Of 40 mm 2.4."""
    values = Of(number=lambda path: {"cylinder.bore": 40 * MM}[path])
    engine = Of(cylinders=1, name="Trial", values=lambda number: {1: values}[number])
    bores = {}
    measured._bore(engine, 1, "top along", 42.3 * MM, bores)
    assert bores == {1: {"top along": 42.3 * MM}}
    for size in (42.5, 37.5):
        with pytest.raises(measured.NotAQuantity):
            measured._bore(engine, 1, "top along", size * MM, bores)


def test_a_bore_of_six_readings():
    """Oval by 0.03 in the middle at most; its bottom's mean, 40.13, is 0.1 over its top's."""
    sizes = (40.02, 40.04, 40.06, 40.09, 40.12, 40.14)
    one = Bore({place: size * MM for place, size in zip(PLACES, sizes, strict=True)})
    assert one.mean == pytest.approx(40 * MM + 0.47 / 6 * MM)
    assert one.oval == pytest.approx(0.03 * MM)
    assert one.taper == pytest.approx(0.1 * MM)


def pressed_seat(tight, nominal=10.0, why_not="no law"):
    return Of(id="seat", pin="pin", hub="hub", pressing=None, why_not=why_not,
              tight=tight * MM, nominal=nominal * MM)  # fmt: skip


def test_beyond_a_twentieth_of_its_size_no_law_holds():
    assert not refused._beyond(pressed_seat(0.49))
    assert refused._beyond(pressed_seat(0.51))
    assert refused._does(pressed_seat(0.6)).startswith("stretches it by 6.0 %")


@pytest.mark.parametrize(("most", "nearest"), [(17, 0.17), (1, 0.01), (49, 0.49), (0, None)])
def test_the_tightest_fit_that_holds_is_found_by_hundredths(monkeypatch, most, nearest):
    def cracks(engine, seat, path, steps):
        assert (engine, seat.pin, path) == ("engine", "pin", "path")
        return steps > most

    monkeypatch.setattr(refused, "_cracks", cracks)
    found = refused._nearest("engine", pressed_seat(0.5), "path")
    assert found == (None if nearest is None else pytest.approx(nearest * MM))


def seat_fit(**put):
    """A seat of 10 mm with nothing special."""
    plain = {"id": "one", "path": "", "pin": "pin", "hub": "hub", "count": 1, "nominal": 10 * MM,
             "tight": 0.0, "hole": "", "shaft": "", "drawn": Drawn(), "pressing": None,
             "how": "push"}  # fmt: skip
    return SeatFit(**{**plain, **put})


def test_a_hole_is_of_its_own_size_by_its_class():
    """A pin of 18.01 mm h6 is up to 13 µm smaller; its hole, 20 µm less, is still of 10 to 18 mm:
    H7 up to 18 larger. -20 to 11 µm of play."""
    found = seat_fit(nominal=18.01 * MM, tight=20e-6, hole="H7", shaft="h6").play
    assert found == pytest.approx((-20e-6, 11e-6))


def test_seats_alike_in_two_cylinders_are_counted_together(monkeypatch):
    def of_cylinder(plain, catalog, place, _):
        assert (plain.name, catalog) == ("plain", "catalog")
        return [seat_fit(id="both", count=3), seat_fit(id="own", nominal=(10 + place) * MM)]

    monkeypatch.setattr(all_seats, "shaft_seats", lambda _: [])
    monkeypatch.setattr(all_seats, "cylinder_seats", of_cylinder)
    found = all_seats.all_seats(Of(name="plain", cylinders=(1, 2)), "catalog")
    assert [(one.id, one.count) for one in found] == [("both", 6), ("own", 1), ("own-2", 1)]


ONE = Of(plain=Of(printing=Of(hole_error=-0.2 * MM, shaft_error=0.05 * MM),
                  materials={"ring": Of(key="ring")}, surroundings=Of(air_temperature=293.15)),
         place=0, mark="", moment="moment",
         parts=Of(valves=Of(placed="above"), head=Of(made="printed", valve_bridge=3 * MM,
                                                     chamber_plate=None)))  # fmt: skip
VALVE = Of(head_diameter=20 * MM, stem_diameter=4 * MM, seat_interference=0.05 * MM,
           seat_material="ring")  # fmt: skip


def test_a_valves_seat_ring_and_guide(monkeypatch):
    """A ring of 1.1 · 20 = 22 mm, a fifth of 20 high; with a bridge of 3 mm either side its hub is
    28. Its hole is drawn 22 - 0.05 + 0.2. A stem has 0.04 mm of play."""
    taken = []

    def pressed(plain, seat, place):
        taken.append((plain, seat, place))
        return "pressed"

    monkeypatch.setattr(
        cylinder_seats, "holder", lambda moment: Of(key={"moment": "print"}[moment])
    )
    monkeypatch.setattr(cylinder_seats, "is_metal", lambda _: False)
    monkeypatch.setattr(cylinder_seats, "pressing", pressed)
    found = cylinder_seats._seat_ring(ONE, "inlet", VALVE)
    assert found.nominal == pytest.approx(22 * MM)
    assert found.drawn.hole == pytest.approx(22.15 * MM)
    assert found.pressing == "pressed"
    ((plain, seat, place),) = taken
    assert (plain, place) == (ONE.plain, 0)
    assert seat.joint.length == seat.hub.length == pytest.approx(4 * MM)
    assert seat.joint.diameter == pytest.approx(22 * MM)
    assert seat.hub.outside == pytest.approx(28 * MM)
    guide = cylinder_seats._guide(ONE, "inlet", VALVE)
    assert guide.tight == pytest.approx(-0.04 * MM)


def test_a_plugs_hole_without_a_drill_in_its_row():
    """M10 of 1 mm: 9; drawn 0.3 smaller for the drill, and 0.2 larger for the printer."""
    row = Row("M10x1", diameter=10 * MM, pitch=MM)
    catalog = Of(row=lambda kind, key: {("thread", "M10x1"): row}[kind, key])
    (found,) = cylinder_seats._plug(
        Of(**{**vars(ONE), "catalog": catalog,
              "parts": Of(plug=Of(thread="M10x1"), head=ONE.parts.head)})
    )  # fmt: skip
    assert found.drawn.hole == pytest.approx(8.9 * MM)


def test_a_liners_hole_is_drawn_as_tight_as_it_sits(monkeypatch):
    """40 less 0.05 of fit and 0.2 that holes come out small."""
    parts = Of(liner=Of(kind="metal", made="bought", fit_interference=0.05 * MM,
                        outside_diameter=40 * MM), body=Of(made="printed"))  # fmt: skip
    monkeypatch.setattr(
        cylinder_seats, "liner_pressing", lambda plain, place: {(id(ONE.plain), 0): "pressed"}[
            id(plain), place]
    )  # fmt: skip
    (found,) = cylinder_seats._liner(Of(**{**vars(ONE), "parts": parts}))
    assert found.drawn.hole == pytest.approx(40.15 * MM)
    assert found.pressing == "pressed"


def shaft_place(**joint):
    made = {"kind": "plain_press", "is_bonded": False, "interference": 0.05 * MM,
            "diameter": 12 * MM, "cross_pins": 0, "cross_pin_diameter": 4 * MM}  # fmt: skip
    return Of(joint=Of(**{**made, **joint}), path="crank.joint", pin="crankpin", hub="cheek",
              count=2, pinned=False)  # fmt: skip


@pytest.mark.parametrize(
    ("kind", "tight", "hole", "shaft"),
    [("plain_press", 0.05, 12.15, 11.95), ("bonded", -0.1, 12.3, 11.95),
     ("clamped", -0.02, 12.22, 11.95), ("polygon", None, 12.2, 11.85)],
)  # fmt: skip
def test_a_shafts_seat_as_it_is_drawn(monkeypatch, kind, tight, hole, shaft):
    """12 mm, by its play or less its fit; holes come out 0.2 small and outsides 0.05 large. A
    printed shape is filed: it is drawn 0.1 smaller."""
    plain = Of(printing=ONE.plain.printing, crank=Of(made="printed"))
    seat = Of(hub=Of(metal=False, printed=True), pin="print")
    monkeypatch.setattr(shaft_seats, "is_metal", lambda _: False)
    monkeypatch.setattr(shaft_seats, "pressing", lambda of, _: {id(plain): "pressed"}[id(of)])
    found = shaft_seats._joint(plain, shaft_place(kind=kind), seat)
    assert found.tight == (None if tight is None else pytest.approx(tight * MM))
    assert found.drawn.hole == pytest.approx(hole * MM)
    assert found.drawn.shaft == pytest.approx(shaft * MM)
    assert found.pressing == ("pressed" if kind == "plain_press" else None)


def test_each_of_two_cheeks_has_its_keys():
    assert shaft_seats._key(shaft_place(cross_pins=3)).count == 6


PRESSED = Pressing(
    force=2500.0, stress=20e6, bears=30e6, what="hub", night=1.0, frees=373.15, softens=None,
    ductile=False,
)  # fmt: skip


def test_a_seats_row_tells_kilonewtons_and_degrees():
    """2500 N, free at 373 K; 2 + 26 + 6 + 1 + 8 + 12 + 11 + 6 + 6 columns."""
    heads, row, more, *_ = text._seats(Of(seats=[seat_fit(pressing=PRESSED)]), width=80)
    assert heads.endswith(" press  free")
    assert row.endswith("   2.5   100")
    assert len(heads) == len(row) == 78
    assert "the hub feels 20 MPa of 30 MPa" in more.replace("\u202f", " ")


def test_what_yields_and_what_cracks_is_said_behind_its_stress():
    soft = PRESSED._replace(bears=15e6)
    assert words.more_words(seat_fit(pressing=soft)).endswith("MPa: IT CRACKS.")
    steel = soft._replace(ductile=True)
    assert "MPa: its bore yields a little" in words.more_words(seat_fit(pressing=steel))


def split_ring(least, most):
    return rings.RingFit("split", 1, (40 * MM, 40 * MM), None, None, None,
                         (least * MM, most * MM), None, 0.05 * MM, works=True)  # fmt: skip


def test_a_gap_that_is_the_same_all_round_is_told_once():
    def plain(ring):
        return words.ring_words(ring).replace("\u202f", " ")

    assert "gap 0.20 mm cold" in plain(split_ring(0.2, 0.2))
    assert "gap 0.20 mm to 0.25 mm cold" in plain(split_ring(0.2, 0.25))


def test_a_second_bore_is_told_only_where_it_differs():
    first = CylinderFits(1, None, split_ring(0.2, 0.2), ())
    same, other = CylinderFits(2, None, first.ring, ()), CylinderFits(2, None, None, ())

    def told(second):
        return " ".join(text._bores(Of(cylinders=(first, second)), width=80))

    assert "Cylinder 2: the same." in told(same)
    assert "Cylinder 2: It has no rings." in told(other)


def test_what_is_tightened_begins_with_a_capital():
    (said,) = text_torques.torque_words(torques.Torque("x", "head", "M6", 4, None, why_not="no"))
    assert said == "Head: 4 x M6: no."


def test_what_a_night_leaves_of_a_clamp_is_said():
    clamp = torques.Torque("x", "clamp", "", 1, None, pull=3000.0, night=2100.0, why_not="no")
    first, then = text_torques.torque_words(clamp)
    assert first == "Clamp: no."
    assert then.replace("\u202f", " ") == "Screw pull 3 kN; a night leaves 2.1 kN."


def test_heads_alike_are_tightened_by_one_row(monkeypatch):
    """Of three the third differs by its torque; then the clamps, and the plug last."""
    base = torques.Torque("head", "head", "M6", 4, 9.0)
    heads = [base, base._replace(id="head-2"), base._replace(id="head-3", torque=8.0)]
    plain = Of(cylinders=(1, 2, 3), name="plain")
    monkeypatch.setattr(
        torques,
        "_head",
        lambda made, of, place: {("made", "plain"): heads}[made.name, of.name][place],
    )
    monkeypatch.setattr(
        torques, "_clamps", lambda made, of: {("made", "plain"): ["clamp"]}[made.name, of.name]
    )
    monkeypatch.setattr(
        torques, "_plug", lambda of, catalog: {("plain", "catalog"): "plug"}[of.name, catalog]
    )
    found = torques.torques(Of(name="made", catalog="catalog"), plain)
    assert found == (heads[0], heads[2], "clamp", "plug")


def test_readings_are_sorted_into_prints_and_bores():
    """A hole drawn 12 that came out 11.82 mm, and a bore of 39.96 mm at its top."""
    values = Of(number=lambda path: {"cylinder.bore": 40 * MM}[path])
    made = Of(cylinders=1, name="Trial", values=lambda number: {1: values}[number])
    found = measured.readings(made, ["hole 12=11.82 mm", "bore top along=39.96 mm"])
    (hole,) = found.printed
    assert hole.error == pytest.approx(-0.18 * MM)
    assert found.bores[1].least == pytest.approx(39.96 * MM)


def test_a_fit_that_cracks_is_refused_with_the_nearest(monkeypatch):
    """0.6 mm are said; 0.17 is the tightest that holds."""
    said = Of(path="pin.interference", written="0.6 mm", line=3)
    values = Of(said=lambda _: True, spoken=lambda path: {"path": said}[path])
    made = Of(values=lambda number: {1: values}[number], where="file")
    seat = pressed_seat(0.6)
    seat.path = "path"
    nearest = {("file", "seat", "pin.interference"): 0.17 * MM}
    monkeypatch.setattr(
        refused, "_nearest", lambda engine, one, path: nearest[engine.where, one.id, path]
    )
    with pytest.raises(refused.EngineFileError) as why:
        refused.refuse_cracked(made, [seat])
    (problem,) = why.value.problems
    assert problem.cure == 'pin.interference = "0.17 mm" holds.'
    assert "stretches it by 6.0 %" in problem.fault


def test_all_seats_of_a_cylinder_are_of_its_own_moment(monkeypatch):
    monkeypatch.setattr(
        cylinder_seats, "standing", lambda plain, place: {("plain", 1): "moment"}[plain.name, place]
    )
    valves = Of(inlet="inlet valve", exhaust="exhaust valve")
    plain = Of(name="plain", cylinders=(None, Of(valves=valves)))

    def told(ident):
        def write(one, *more):
            assert (one.plain, one.catalog, one.moment) == (plain, "catalog", "moment")
            return (ident, *more)

        return write

    for name in ("_liner", "_pin", "_big_end", "_plug"):
        monkeypatch.setattr(cylinder_seats, name, told(name))
    for name in ("_guide", "_seat_ring"):
        monkeypatch.setattr(cylinder_seats, name, told(name))
    assert list(cylinder_seats.cylinder_seats(plain, "catalog", 1, "")) == [
        "_liner", "_pin", "_big_end", ("_guide", "inlet", "inlet valve"),
        ("_seat_ring", "inlet", "inlet valve"), ("_guide", "exhaust", "exhaust valve"),
        ("_seat_ring", "exhaust", "exhaust valve"), "_plug",
    ]  # fmt: skip


def test_holes_of_a_pin_are_drawn_for_the_reamer():
    """12 mm less 0.3 for the reamer, and 0.2 that holes come out small: 11.9, in piston and rod."""
    parts = Of(pin=Of(diameter=12 * MM), piston=Of(made="printed"),
               rod=Of(small_end="plain", material="print", made="printed"))  # fmt: skip
    one = Of(**{**vars(ONE), "parts": parts, "metal": lambda material: material != "print"})
    piston, rod = cylinder_seats._pin(one)
    assert piston.drawn.hole == pytest.approx(11.9 * MM)
    assert rod.drawn.hole == pytest.approx(11.9 * MM)
    assert rod.hole == "E9"


def test_every_joint_of_the_shaft_is_a_seat_and_a_key_besides(monkeypatch):
    plain = Of(name="plain")
    place = shaft_place(kind="keyed", cross_pins=1)
    monkeypatch.setattr(shaft_seats, "_bearings", lambda _: ["bearings"])
    monkeypatch.setattr(shaft_seats, "standing", lambda of: of.name)
    monkeypatch.setattr(shaft_seats, "joints", lambda _: [place])
    monkeypatch.setitem(shaft_seats._SEATS, "crank.joint", lambda moment: {"plain": "seat"}[moment])
    monkeypatch.setattr(
        shaft_seats, "_joint", lambda of, at, seat: {("plain", "cheek", "seat"): "joint"}[
            of.name, at.hub, seat]
    )  # fmt: skip
    bearings, joint, key = shaft_seats.shaft_seats(plain)
    assert (bearings, joint, key.count) == ("bearings", "joint", 2)
