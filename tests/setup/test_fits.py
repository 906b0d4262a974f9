"""Fits by hand: what to draw, press forces, where seats let go, rings, belt, torques, sealant."""

from __future__ import annotations

import json
import math
from dataclasses import replace
from itertools import pairwise

import pytest
from tests.drawing.conftest import FILES

import firstfire as ff
from firstfire.engine.read import with_layer_text
from firstfire.errors import EngineFileError
from firstfire.formulas import cure
from firstfire.formulas.interference import interference_when_warm
from firstfire.parts import joint_friction, seats
from firstfire.parts.head_joint import head_joint
from firstfire.parts.liner_in_body import touching
from firstfire.setup.fits.bore import PLACES, Bore
from firstfire.setup.fits.contract import FitsTold
from firstfire.setup.fits.fits import Fits, fits
from firstfire.setup.fits.gauge import gauge, gauge_sizes
from firstfire.setup.fits.rings import ring_fit, suiting
from firstfire.setup.fits.seat import SeatFit
from firstfire.setup.fits.torques import crosswise
from firstfire.setup.standing import FRESH, NIGHT, standing

NAMES = sorted(FILES)
PRESSED = {
    "crank.joint.kind": "plain_press", "crank.joint.plate_thickness": "0 mm",
    "crank.joint.length": "14 mm", "crank.joint.interference": "0.1 mm",
}  # fmt: skip


def engine(name: str, tried: dict[str, str] | None = None) -> ff.Engine:
    read = ff.read(FILES[name])
    return ff.with_values(read, tried) if tried else read


def seat(found: Fits, ident: str) -> SeatFit:
    return next(one for one in found.seats if one.id == ident)


def test_what_is_drawn_comes_out_as_wanted() -> None:
    # Wren's holes come out 0.2 mm small, outsides 0.05 large. Cam wheel: 10 mm, 0.02 tight.
    found = fits(engine("wren"))
    assert 1e3 * seat(found, "cam-wheel").drawn.hole == pytest.approx(9.98 + 0.2)
    # The pin's hole is left 0.3 mm for a reamer: 12 - 0.3 + 0.2.
    assert 1e3 * seat(found, "pin-in-piston").drawn.hole == pytest.approx(11.9)
    # Heron prints its journals: 15 - 0.05.
    assert 1e3 * seat(fits(engine("heron")), "journal-in-bearing").drawn.shaft == pytest.approx(
        14.95
    )
    # What is bought or ground is not drawn.
    assert seat(found, "crankpin").drawn.hole is None


def test_classes_by_the_standard() -> None:
    # ISO 286-2 at 12 mm: H7 0/+18, h6 -11/0, E9 +32/+75, JS6 ±5.5 µm; the hole of the crankpin
    # is 20 µm smaller than its pin.
    found = fits(engine("wren"))
    assert seat(found, "pin-in-piston").play == pytest.approx((0.0, 29e-6), abs=1e-12)
    assert seat(found, "small-end").play == pytest.approx((32e-6, 86e-6), abs=1e-12)
    assert seat(found, "crankpin").play == pytest.approx((-25.5e-6, -3.5e-6), abs=1e-12)
    assert seat(found, "liner").play is None  # a bought tube is never a fit


def test_a_press_takes_what_the_joint_is_judged_by() -> None:
    made = engine("wren", PRESSED)
    found, plain = fits(made), ff.resolve(made)
    fit = seat(found, "crankpin").pressing
    moment = standing(plain, hours=FRESH)
    held = joint_friction.press(moment, seats.crankpin(moment))
    assert fit.force == pytest.approx(2 * held.torque / 12e-3)
    later = standing(plain, hours=NIGHT)
    assert fit.night == pytest.approx(
        joint_friction.press(later, seats.crankpin(later)).torque / held.torque
    )
    assert 0.5 < fit.night < 0.95
    # By hand: p = 2 E δ/(d ...): a hub 33 mm across, 14 mm long; hoop plus pressure is
    # 2 p D²/(D² - d²).
    pressure = joint_friction.pressed(moment, seats.crankpin(moment)).by_fit
    assert fit.stress == pytest.approx(2 * pressure * 33**2 / (33**2 - 12**2))


def test_where_a_seat_lets_go_it_has_no_interference_left() -> None:
    found = fits(engine("wren"))
    plain = found.plain
    fit = seat(found, "cam-wheel").pressing
    rise = fit.frees - plain.surroundings.air_temperature
    keys = plain.crank.journal.material, plain.cam_drive.wheel_material
    pin, hub = (plain.materials[key]["expansion"] for key in keys)
    # 20 µm less 0.8 × (3 + 20) µm of ripples
    assert interference_when_warm(1.6e-6, 10e-3, rise, pin, hub) == pytest.approx(0.0, abs=1e-9)
    liner = seat(found, "liner").pressing
    warm = standing(plain, rise=liner.frees - plain.surroundings.air_temperature)
    assert touching(warm).fit_warm == pytest.approx(0.0, abs=1e-9)
    assert touching(standing(plain)).fit_warm == pytest.approx(0.05e-3)


def test_steel_on_steel_never_lets_go_by_growing_alike() -> None:
    from firstfire.setup.fits.words import frees

    assert frees(seat(fits(engine("wren")), "flywheel")) is None


def test_a_fit_that_cracks_is_refused_with_the_nearest_that_holds() -> None:
    tight = {**PRESSED, "crank.joint.interference": "0.5 mm"}
    with pytest.raises(EngineFileError) as refused:
        fits(engine("wren", tight))
    (problem,) = refused.value.problems
    assert problem.path == "crank.joint.interference"
    nearest = float(problem.cure.split('"')[1].removesuffix(" mm"))
    fits(engine("wren", {**tight, "crank.joint.interference": f"{nearest} mm"}))
    with pytest.raises(EngineFileError):
        fits(engine("wren", {**tight, "crank.joint.interference": f"{nearest + 0.01:.2f} mm"}))


@pytest.mark.parametrize(("name", "tight"), [("wren", "0.6 mm"), ("heron", "0.9 mm")])
def test_a_fit_beyond_every_law_is_refused_too(name: str, tight: str) -> None:
    """Six and fifteen hundredths of the wheel's hole: Lamé's small strains end at five."""
    path = "cam_drive.joint.interference"
    with pytest.raises(EngineFileError) as refused:
        fits(engine(name, {path: tight}))
    (problem,) = refused.value.problems
    assert problem.path == path
    assert "none bears 5" in problem.fault
    holds = problem.cure.split('"')[1]
    (fit,) = [one for one in fits(engine(name, {path: holds})).seats if one.path == path]
    assert fit.pressing is not None
    assert not fit.pressing.cracks
    assert fit.pressing.stress > 0.9 * fit.pressing.bears  # and it is the tightest


def test_metal_that_yields_a_little_is_told_and_not_refused() -> None:
    fit = seat(fits(engine("wren")), "crankpin").pressing
    assert fit.stress > fit.bears
    assert fit.yields
    assert not fit.cracks


def test_readings_become_a_layer_that_moves_what_is_drawn() -> None:
    read = ["hole 12=11.82 mm", "hole 8 = 7.80 mm", "hole 16=15.84mm", "shaft 10=10.02 mm"]
    found = fits(engine("wren"), read)
    # errors -0.18, -0.20, -0.16: mean -0.18, deviation 0.02
    hole, shaft = found.habits
    assert hole.error == pytest.approx(-0.18e-3)
    assert hole.scatter == pytest.approx(1.645 * 0.02e-3, rel=1e-3)
    assert shaft.error == pytest.approx(0.02e-3)
    assert shaft.scatter is None
    assert hole.low < hole.error < hole.high
    assert 1e3 * seat(found, "cam-wheel").drawn.hole == pytest.approx(9.98 + 0.18)
    again = with_layer_text(found.layer, "printer.toml", engine("wren"))
    plain = ff.resolve(again)
    assert plain.printing.hole_error == pytest.approx(-0.18e-3)
    assert plain.printing.shaft_error == pytest.approx(0.02e-3)
    assert plain.printing.repeatability == pytest.approx(0.033e-3, abs=1e-7)
    assert again.stack.top("printing.hole_error").layer == "printer"
    # a caliper's inside jaws, 0.06 mm, are behind it
    assert again.stack.top("printing.hole_error").error == pytest.approx(0.06e-3)


def test_a_pin_that_slides_in_reads_as_the_hole() -> None:
    found = fits(engine("wren"), ["hole 12.2=12 mm"])
    assert found.habits[0].error == pytest.approx(-0.2e-3)


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("hole 44=43 mm", "5 to 20 mm"),
        ("hole 12=11 mm hm", "not a length"),
        ("hole 12=11.82", "bare number"),
        ("hole 12=14 mm", "off what was drawn"),
        ("bore top=39.9 mm", "is no reading"),
        ("bore top along=35 mm", "file's bore is 40.00 mm"),
        ("2 bore top along=39.9 mm", "has one cylinder"),
        ("nonsense", "is no reading"),
    ],
)
def test_readings_that_are_none_are_refused(text: str, says: str) -> None:
    with pytest.raises(EngineFileError) as refused:
        fits(engine("wren"), [text, "hole 12=11.8 mm", "zebra=1"])
    assert says in str(refused.value)
    assert len(refused.value.problems) == 2


def test_a_bore_at_three_heights_and_two_ways() -> None:
    assert len(PLACES) == 6
    sizes = [39.95, 39.99, 39.96, 39.97, 40.05, 40.03]
    found = fits(
        engine("wren"),
        [f"bore {place}={size} mm" for place, size in zip(PLACES, sizes, strict=True)],
    )
    bore = found.cylinders[0].bore
    assert not bore.missing
    assert bore.oval == pytest.approx(0.04e-3)
    assert bore.taper == pytest.approx(0.07e-3)  # 40.04 less 39.97
    assert (bore.least, bore.most) == pytest.approx((39.95e-3, 40.05e-3))
    wide, narrow = found.cylinders[0].ring.squeeze
    assert narrow > wide
    # half of what the bore is wider is taken from the squeeze of a section of some 2.6 mm
    assert narrow - wide == pytest.approx(0.05e-3 / 2.59e-3, rel=0.01)
    assert Bore({"top along": 0.04}).missing == PLACES[1:]
    assert Bore({"top along": 0.04}).oval is None


def test_an_oring_of_the_handbook_in_its_groove() -> None:
    # 2.62 × 37.77 on 39.40 in a bore of 44, 3.6 wide: stretch 4.32 %, squeeze 10.46 %, fill
    # 62.6 % (worked by the gland formulas of the seal handbooks, elsewhere).
    plain = ff.resolve(engine("wren"))
    parts = plain.cylinders[0]
    parts = parts.model_copy(update={
        "cylinder": parts.cylinder.model_copy(update={"bore": 44e-3}),
        "piston": parts.piston.model_copy(update={"skirt_clearance": 0.2e-3}),
        "rings": parts.rings.model_copy(update={
            "inside_diameter": 37.77e-3, "section": 2.62e-3, "groove_depth": 2.2e-3,
            "groove_width": 3.6e-3,
        }),
    })  # fmt: skip
    found = ring_fit(plain, parts, 44e-3, 44e-3)
    assert found.stretch == pytest.approx(0.0432, abs=1e-4)
    assert found.squeeze == pytest.approx((0.1046, 0.1046), abs=1e-3)
    assert found.fill == pytest.approx(0.626, abs=1e-3)
    assert found.works
    assert not ring_fit(plain, parts, 44e-3, 44.4e-3).works


def test_rings_that_suit_a_measured_bore() -> None:
    wren = engine("wren")
    parts = ff.resolve(wren).cylinders[0]
    found = suiting(wren.catalog, parts, 39.9e-3)
    assert found[0].section == pytest.approx(parts.rings.section)
    for one in found:
        assert 0.0 <= one.stretch <= 0.05
        # by the definition: (bore - floor)/2 leaves 1 - squeeze of the stretched section
        section = one.section * math.sqrt((one.inside + one.section) / (one.groove + one.section))
        assert (39.9e-3 - one.groove) / 2 == pytest.approx(section * (1 - one.squeeze), rel=1e-6)
        assert one.squeeze == pytest.approx(parts.rings.squeeze)
        assert one.fill == pytest.approx(0.75)
    # A wider bore wants a wider ring.
    wider = suiting(wren.catalog, parts, 44e-3)
    assert {one.key for one in wider} & {"as568_128", "as568_129"}
    assert wider[0].inside > found[0].inside


def test_split_rings_butt_where_their_gap_has_gone() -> None:
    # Plover: PTFE (gap 0.04 of the bore) in brass; π B (α_r - α_b) ΔT closes it.
    found = fits(engine("plover"))
    ring = found.cylinders[0].ring
    parts = found.plain.cylinders[0]
    grows = (
        found.plain.materials[parts.rings.material]["expansion"]
        - found.plain.materials[parts.liner.material]["expansion"]
    )
    assert ring.butts_at == pytest.approx(parts.rings.gap / (math.pi * parts.cylinder.bore * grows))
    assert ring.side == pytest.approx(parts.rings.groove_width - parts.rings.axial_height)
    # The gap of a ring filed for the drawn bore opens by π times what the bore is wider.
    wide = ring_fit(found.plain, parts, parts.cylinder.bore, parts.cylinder.bore + 0.1e-3)
    assert wide.gap[1] - wide.gap[0] == pytest.approx(math.pi * 0.1e-3)


def test_belt_by_hand() -> None:
    # 3 mm pitch, 18 and 36 teeth, 9 mm wide, 2.5 kg/m²; span √(C² - (8.594)²).
    belt = fits(engine("wren")).belt
    plain = ff.resolve(engine("wren"))
    span = math.sqrt(plain.cam_drive.centre_distance**2 - (9 * 3e-3 / math.pi) ** 2)
    assert belt.span == pytest.approx(span)
    assert belt.pitch == pytest.approx(math.sqrt(belt.tension / (2.5 * 9e-3)) / (2 * span))
    assert belt.low < belt.pitch < belt.high
    assert belt.gives == pytest.approx(0.1 * span / 4)
    assert belt.wheel_pull == pytest.approx(2 * 2 * belt.tension)
    no_belt = fits(engine("wren", {"cam_drive.kind": "gear"}))
    assert no_belt.belt is None
    assert "gears" in no_belt.no_belt


def test_torques_are_those_that_the_head_is_judged_with() -> None:
    found = fits(engine("wren"))
    head = found.torques[0]
    joint = head_joint(standing(found.plain, hours=NIGHT))
    assert head.pull == pytest.approx(joint.tightened)
    assert head.night == pytest.approx(joint.left)
    assert head.settled == pytest.approx(joint.settled)
    assert head.low < head.pull < head.high
    assert head.steps == pytest.approx([head.torque / 3, head.torque * 2 / 3, head.torque])
    assert sorted(head.order) == [1, 2, 3, 4]
    for again in head.again:
        assert again.left + again.regained == pytest.approx(head.pull)
    lost = [again.regained for again in head.again[:3]]
    assert lost == sorted(lost, reverse=True)  # each stretch of time loses less
    # What is lost one after the other multiplies to what one night loses at once.
    ten, night = head.again[0], head.again[1]
    kept = (ten.left / head.settled) * (night.left / head.pull)
    assert kept == pytest.approx(head.night / head.settled, rel=1e-6)


@pytest.mark.parametrize("count", [3, 4, 5, 6, 8, 10])
def test_screws_crosswise_each_once_and_never_beside_the_last(count: int) -> None:
    order = crosswise(count)
    assert sorted(order) == list(range(1, count + 1))
    if count >= 4:
        for one, following in pairwise(order):
            apart = abs(one - following) % count
            assert min(apart, count - apart) >= (2 if count >= 6 else 1)
        if count % 2 == 0:
            assert all(b - a == count // 2 for a, b in zip(order[::2], order[1::2], strict=True))


def test_sealant_cures_through_and_twice_as_fast_for_ten_kelvin() -> None:
    found = fits(engine("heron")).sealant
    plain = ff.resolve(engine("heron"))
    material = plain.materials[plain.cylinders[0].gasket.material]
    deep = material["cure_depth_per_day"]
    assert cure.depth_cured(deep, found.full, found.temperature) == pytest.approx(found.width)
    (_, cold), (_, room), (_, warm) = found.full_at
    assert (cold / room, room / warm) == pytest.approx((2.0, 2.0))
    assert room == pytest.approx(found.full)
    stands = [one.holds for one in found.worth]
    assert stands == sorted(stands)
    assert found.worth[-1].share == pytest.approx(1.0)
    # four times as long is twice as deep
    assert found.worth[4].holds / found.worth[2].holds == pytest.approx(2.0)
    assert found.now.seconds == pytest.approx(1200.0)


def test_a_gauge_has_the_engines_own_sizes() -> None:
    found = fits(engine("wren"))
    assert gauge_sizes(found.seats) == pytest.approx((10e-3, 19.8e-3))
    made = gauge(found.seats)
    plate = made.blocks[0]
    drawn = [1e3 * one.diameter for one in plate.holes]
    assert drawn == pytest.approx([9.9, 10.0, 10.1, 10.2, 10.3, 10.4, 10.5])
    heights = [one.height for one in made.blocks if not one.holes][:5]
    assert heights == sorted(heights)
    assert gauge_sizes(()) == (12e-3,)
    # nothing touches anything else: boxes are apart
    boxes = [
        (min(x for x, _ in one.outline), min(y for _, y in one.outline),
         max(x for x, _ in one.outline), max(y for _, y in one.outline))
        for one in made.blocks
    ]  # fmt: skip
    for n, (l0, b0, r0, t0) in enumerate(boxes):
        for l1, b1, r1, t1 in boxes[n + 1 :]:
            assert r0 < l1 or r1 < l0 or t0 < b1 or t1 < b0


@pytest.mark.parametrize("name", NAMES)
def test_every_engine_is_told_in_80_columns_and_by_its_contract(name: str) -> None:
    found = fits(engine(name))
    text = str(found)
    assert max(map(len, text.splitlines())) <= 80
    told = FitsTold.model_validate(json.loads(found.to_json()))
    assert told.schema_ == "firstfire.fits/1"
    assert len(told.seats) == len(found.seats)
    assert len({one.id for one in found.seats}) == len(found.seats)


def test_twins_that_differ_are_told_apart() -> None:
    found = fits(engine("heron", {"cylinders.2.liner.fit_interference": "0.1 mm"}))
    assert 1e3 * seat(found, "liner").tight == pytest.approx(0.05)
    assert 1e3 * seat(found, "liner-2").tight == pytest.approx(0.1)
    alike = fits(engine("heron"))
    assert seat(alike, "liner").count == 2
    assert replace(seat(alike, "liner"), count=1) == replace(seat(found, "liner"), count=1)
