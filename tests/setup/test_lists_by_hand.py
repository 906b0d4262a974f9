"""Lists of parts by hand: text, sizes, limits, sums and joints, of stand-ins with round sizes."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from types import SimpleNamespace as Of

import pytest

from firstfire.setup import (
    belt_teeth,
    buy_crank,
    buy_fuel,
    buy_supply,
    buy_valves,
    have,
    item,
    jobs_crank,
    jobs_cylinder,
    joints,
    laid,
    orings,
    parts_chapter,
    printed,
    screws,
    standing,
    text,
    text_have,
    text_items,
    tubes,
    words,
)
from firstfire.setup.laid import Span

MM = 1e-3


class Row:
    """A row of the catalog with numbers and texts by name."""

    def __init__(self, key="row", *, texts=None, **numbers):
        self.key = self.name = key
        self.data = self.numbers = numbers
        self.texts = texts or {}

    def si(self, name):
        return self.numbers[name]

    def __getitem__(self, name):
        return self.numbers[name]


def plain_words(said):
    return said.replace("\u202f", " ")


def limits(one):
    """What a job or a check should come to, at least and at most, in mm."""
    middle = one.target if isinstance(one, item.Job) else one.wanted
    return [None if size is None else 1e3 * size for size in (middle, one.low, one.high)]


def part(**put):
    """Two printed cheeks of 50 g and 40 cm³ each, an hour each."""
    told = {
        "part": "cheek", "section": "crank", "cylinders": (), "count": 2, "material": "pla",
        "material_name": "PLA", "walls": 4, "line_width": 0.5 * MM, "infill": 0.5,
        "layer_height": 0.2 * MM, "stacked": "along_crank", "lies": "flat", "weak": "a pull",
        "assumed": "", "outline": 50e-6, "plastic": 40e-6, "mass": 0.05,
        "time": Span(3600.0, 1800.0, 7200.0), "how": "a bar", "resin": False,
    }  # fmt: skip
    return printed.Printed(**{**told, **put})


@pytest.mark.parametrize(("width", "at"), [(80, 42), (66, 42), (60, 39), (50, 29)])
def test_a_printed_parts_mass_begins_at_42_columns_or_ends_at_the_edge(width, at):
    """100 g and 2 hours, 1 to 4, are 21 columns."""
    line, below = text._part(part(), width=width)
    told = "    100 g   2 h (1–4)"
    assert plain_words(line) == "    2 × cheek".ljust(at) + told
    assert len(line) == min(63, width)
    assert below == "        flat; a pull"


def test_a_long_name_has_a_line_of_its_own():
    name, told, _ = text._part(part(part="x" * 40), width=80)
    assert name == "    2 × " + "x" * 40
    assert plain_words(told) == "        100 g   2 h (1–4)"


def test_the_sum_of_a_material_and_what_to_have_at_hand():
    """2 · 50 and 20 g of PLA: 120 g, and a fifth more. 2 · 40 + 20 cm³ of 1.75 mm round are
    100/(0.875² π) = 41.6 m; resin is told by its volume."""
    rest = part(part="pin", count=1, mass=0.02, plastic=20e-6)
    vat = part(material_name="Resin", resin=True)
    first, second = text._by_material(Of(printed=(part(), rest, vat)))
    assert first[:2] == ("PLA", pytest.approx(0.12))
    assert plain_words(first[2]) == ", 41.6 m of 1.75 mm filament; have 140 g at hand"
    assert second[:2] == ("Resin", pytest.approx(0.1))
    assert plain_words(second[2]) == ", 80 ml; have 120 g at hand"


def test_how_hours_are_had():
    """20 mm of height an hour, 10 to 40; 5 mm³ a second, 3 to 10; a fifth is allowed."""
    said = plain_words(" ".join(text.estimates(Of(printed=(part(), part(resin=True))))))
    assert "allow 20 %" in said
    assert "builds 20 mm of height an hour (10 to 40)" in said
    assert "lays down 5 mm³ a second (3 to 10)" in said


def test_hours_and_minutes():
    assert plain_words(text.hours(Span(7200.0, 3600.0, 9000.0))) == "2 h (1–2.5)"
    assert plain_words(text.hours(Span(3000.0, 1500.0, 6000.0))) == "50 min (25–100)"


def test_printed_parts_stand_under_what_is_printed_alike():
    lines = list(text._printed(Of(printed=(part(), part(part="pin", infill=1.0))), width=80))
    heads = [plain_words(line) for line in lines if line.startswith("  P")]
    assert heads[0] == "  PLA: 4 walls of 0.5 mm, 50 % infill, layers of 0.2 mm"
    assert heads[1] == "  PLA: 4 walls of 0.5 mm, solid, layers of 0.2 mm"


def test_what_follows_beyond_eight_is_counted():
    def moved(count):
        each = [Of(path=f"p{n}", each=(Of(written="1"), Of(written="2"))) for n in range(count)]
        return text_have.follows(Of(follows=each))

    assert moved(8).endswith("p7 1 → 2")
    assert moved(10).endswith("p7 1 → 2; and 2 more")


def check(wanted, low, high, unit="mm"):
    sizes = [None if one is None else one * MM for one in (wanted, low, high)]
    return item.Check("size", "caliper", "once", *sizes, unit, "why")


def test_limits_are_told_to_a_thousandth_where_they_are_that_narrow():
    """Apart by 0.04 mm, and by 0.06."""
    assert plain_words(text_items.limits(check(12.0034, 11.9834, 12.0234))) == (
        "12.003 mm (11.983 to 12.023)"
    )
    assert plain_words(text_items.limits(check(12.0034, 11.9734, 12.0334))) == (
        "12 mm (11.97 to 12.03)"
    )
    assert plain_words(text_items.limits(check(12.0, 11.5, None))) == "12 mm (11.5 at least)"
    assert plain_words(text_items.limits(check(12.0, None, None))) == "12 mm"
    assert plain_words(text_items.limits(check(2e3, 1.7e3, 2.3e3, "N"))) == "2 N (1.7 to 2.3)"


def test_a_tool_sees_half_of_what_limits_are_apart():
    """A caliper off by 0.03 mm is blind where they are 0.05 apart, not where they are 0.07."""
    rows = Of(row=lambda kind, key: {("instrument", "caliper"): {"error": Of(si=0.03 * MM)}}[
        kind, key
    ])  # fmt: skip
    assert text_items._too_fine(check(12.0, 11.975, 12.025), rows)
    assert not text_items._too_fine(check(12.0, 11.965, 12.035), rows)
    assert not text_items._too_fine(check(12.0, 11.99, None), rows)


def test_between_which_sizes_a_job_will_do():
    def job(low, high):
        return item.Job("cut", "it", 1, "", 12 * MM, low * MM, high * MM, "saw", "", "")

    assert plain_words(text_items.will_do(job(11.981, 12.021))) == " 11.981 to 12.021 mm will do."
    assert plain_words(text_items.will_do(job(11.901, 12.102))) == " 11.9 to 12.1 mm will do."


def test_a_list_for_the_store_names_its_tools():
    rows = Of(row=lambda kind, key: {("instrument", "caliper"): Of(name="Caliper, inside jaws")}[
        kind, key
    ])  # fmt: skip
    bolt = item.Item("Screws", "bolt", "M4", 3, "head", "", "", "")
    found = Of(bought=(bolt,), tools=("caliper",), engine=Of(catalog=rows))
    assert list(text_items.store_lines(found)) == [
        "  [ ] 3 × bolt, M4", "", "  To measure with: caliper (inside jaws).",
    ]  # fmt: skip
    assert list(text_items.bought_lines(found)) == ["  Screws", "    3 × bolt, M4; for: head."]


def test_rod_is_sold_by_half_millimetres_and_thirty_seconds():
    """9/32 of an inch are 7.144 mm; 11.2 is nearest to 11, 11.3 to 11.5."""
    sizes = [7.14375, 11.5, 11.2, 11.3]
    found = [words.sold_diameter(size * MM) for size in sizes]
    assert found == [None, None, pytest.approx(11 * MM), pytest.approx(11.5 * MM)]


def test_a_pin_is_cut_from_the_next_longer_or_the_shortest_of_its_thickness():
    """ISO 8734: 3 mm begins at 8, 3.5 like 4 at 10; 17 mm are cut from 18; 101 is beyond all."""
    asked = [(3, 5), (3.5, 5), (3, 8), (3, 17), (4, 16), (4, 101)]
    found = [words.sold_pin(size * MM, long * MM) for size, long in asked]
    assert [one and round(1e3 * one, 6) for one in found] == [8, 10, 8, 18, 16, None]


def test_sizes_side_by_side():
    assert plain_words(words.by(15 * MM, 35 * MM, 11.25 * MM)) == "15 × 35 × 11.25 mm"
    assert words.small("Caliper") == "caliper"


def test_things_alike_are_counted_together():
    one = item.Item("Screws", "bolt", "M4", 3, "head", "", "", "")
    other = replace(one, what="nut")
    found = item.together([one, other, replace(one, count=4)])
    assert [(thing.what, thing.count) for thing in found] == [("bolt", 7), ("nut", 3)]


def test_an_hour_of_resin_and_a_second_of_plastic():
    """10 mm of height at 20 (10 to 40) an hour: 1800 s (900 to 3600); 30 mm³ at 5 (3 to 10)."""
    assert laid.seconds(1.0, 10 * MM, resin=True) == pytest.approx((1800, 900, 3600))
    assert laid.seconds(30e-9, 1.0, resin=False) == pytest.approx((6, 3, 10))
    assert laid.filament_length(math.pi * 0.875e-3**2) == pytest.approx(1.0)


def test_plastic_is_the_share_that_lines_and_infill_have(monkeypatch):
    monkeypatch.setattr(laid, "pulled_share", lambda *of: {("made", 5 * MM): 0.7}[of])
    assert laid.laid_volume("made", 10e-6, 5 * MM) == pytest.approx(7e-6)
    assert laid.laid_volume("made", 10e-6, 5 * MM, resin=True) == 10e-6


def test_what_stands_is_as_warm_as_is_said():
    """A minute is a sixtieth of an hour; 20 K over the air of 290."""
    plain = Of(surroundings=Of(air_temperature=290.0, air_pressure=1e5))
    found = standing.standing(plain, rise=20.0)
    assert pytest.approx(1.0) == 60 * standing.FRESH
    assert set(found.temperatures.parts) == set(standing._PARTS)
    assert {one.mean for one in found.temperatures.parts.values()} == {310.0}


def test_sums_of_what_is_printed():
    """2 · 50 + 30 g; two hours and one, and their spans."""
    found = [part(), part(count=1, mass=0.03, time=Span(3600.0, 600.0, 4200.0))]
    assert printed.total_mass(found) == pytest.approx(0.13)
    assert printed.total_time(found) == pytest.approx((10800, 4200, 18600))


def test_parts_alike_in_both_cylinders_are_counted_together():
    both = [part(cylinders=(n,), count=2) for n in (1, 2)]
    (found,) = printed._together(both)
    assert (found.count, found.cylinders) == (4, (1, 2))


def test_tables_of_parts_tell_all_of_a_kind():
    """Two of 50 g and an hour each."""
    found = Of(printed=(part(),), bought=(), made=(), open=())
    first, *_ = parts_chapter._tables(found)
    name, _, mass, hours, _ = first.rows[0]
    assert name == "2 × cheek"
    assert plain_words(mass) == "100 g"
    assert plain_words(hours) == "2 h (1–4)"


def ringed(kind="o_ring", **put):
    """A bore of 40 with a skirt 0.3 mm smaller, and rings of 2 mm in grooves of 1.65."""
    told = {"kind": kind, "count": 1, "section": 2 * MM, "groove_depth": 1.65 * MM}
    return Of(
        cylinder=Of(bore=40 * MM), piston=Of(skirt_clearance=0.3 * MM), rings=Of(**{**told, **put}),
        liner=Of(tube=None, material="steel", outside_diameter=44 * MM),
    )  # fmt: skip


def test_a_groove_and_the_rings_that_suit_it():
    """40 - 0.3 - 3.3 = 36.4 mm. Of 35.1 and 36 mm, stretched by 3.7 and 1.1 %, the first is nearer
    to 2.5; 34 is stretched by 7, 37 is loose, and 2.1 mm is another section."""
    sizes = ((36, 2.04), (35.1, 1.96), (34, 2), (37, 2), (35.5, 2.1))
    rows = [Row(f"{wide} {thick}", inside=wide * MM, section=thick * MM) for wide, thick in sizes]
    assert orings.groove_diameter(ringed()) == pytest.approx(36.4 * MM)
    found = orings.nearest_rings(Of(rows=lambda _: rows), ringed())
    assert [one.row.key for one in found] == ["35.1 1.96", "36 2.04"]
    assert found[0].stretch == pytest.approx(36.4 / 35.1 - 1)


def test_which_bores_an_o_ring_takes():
    """1.65 + 0.15 = 1.8 of 2 mm: squeezed by 0.1. Down to 0.05 the bore is 2 · 2 · 0.05 wider;
    up to 0.18 0.32 tighter, but the skirt loses no more than 0.1."""
    low, high, _ = tubes.bore_limits(ringed())
    assert (low, high) == pytest.approx((39.9 * MM, 40.2 * MM))
    low, high, _ = tubes.bore_limits(ringed(groove_depth=1.53 * MM))
    assert (low, high) == pytest.approx((39.92 * MM, 40.44 * MM))
    low, high, _ = tubes.bore_limits(ringed("split"))
    assert (low, high) == pytest.approx((39.9 * MM, 40.1 * MM))


def test_a_tube_nearest_in_both_its_sizes():
    """Outside within 0.3 and bore within 0.6 mm, and both together nearest."""

    def tube(outside, bore, material="steel"):
        return Row(f"{outside}/{bore}", texts={"material": material}, outside=outside * MM,
                   bore=bore * MM)  # fmt: skip

    rows = [tube(44.1, 40.2), tube(44, 40.5), tube(43.8, 39.8), tube(44.4, 40), tube(44, 40.7),
            tube(44, 40, "brass")]  # fmt: skip
    found = tubes.tube_for(Of(rows=lambda _: rows), ringed())
    assert found.key == "44.1/40.2"


def drive(**put):
    """Wheels of 20 and 40 teeth of 5 mm, 95 mm apart."""
    told = {"kind": "belt", "teeth_crank": 20, "teeth_cam": 40, "pitch": 5 * MM,
            "centre_distance": 95 * MM, "belt": None}  # fmt: skip
    return Of(**{**told, **put})


def test_teeth_of_a_belt_and_of_a_chain():
    """Wheels alike of 20 teeth: twice 101.3 mm and 20 teeth are 60.52: 61 at 102.5 mm, of a chain
    60 at 100. 0.2 mm are given by slotted holes."""
    alike = {"teeth_cam": 20, "centre_distance": 101.3 * MM}
    found = belt_teeth.belt_teeth(Of(cam_drive=drive(**alike)))
    assert (found.teeth, found.exact) == (61, pytest.approx(60.52))
    assert found.length == pytest.approx(305 * MM)
    assert found.centre_distance == pytest.approx(102.5 * MM)
    assert not found.fits
    chain = belt_teeth.belt_teeth(Of(cam_drive=drive(**alike, kind="chain")))
    assert (chain.teeth, chain.length) == (60, pytest.approx(300 * MM))
    near = belt_teeth.belt_teeth(Of(cam_drive=drive(teeth_cam=20, centre_distance=100.2 * MM)))
    assert (near.teeth, near.fits) == (60, True)
    assert buy_valves.belt_teeth(drive(**alike)) == (61, pytest.approx(102.5 * MM))


def test_a_belt_of_nearly_the_same_pitch():
    rows = Of(rows=lambda _: [Row("xl", pitch=5.4 * MM), Row("t5", pitch=5.001 * MM)])
    assert buy_valves.belt_row(rows, drive()).key == "t5"


def test_what_a_spring_pulls_at_full_lift():
    """6 N and 2 N/mm by 3 mm: 12 N, and 15 % either way. Head by 0.2 mm, stem by 0.03 less."""
    valve = Of(spring_preload=6.0, spring_rate=2000.0, lift=3 * MM, stem_diameter=4 * MM,
               head_diameter=20 * MM)  # fmt: skip
    (force,) = buy_valves._spring(valve, "inlet", "valves.inlet").checks
    assert (force.wanted, force.low, force.high) == pytest.approx((12, 10.2, 13.8))
    head, stem = buy_valves._valve_checks(valve)
    assert limits(head) == pytest.approx([20, 19.8, 20.2])
    assert limits(stem) == pytest.approx([4, 3.97, 4])


def test_a_throats_area_and_its_limits():
    found = buy_fuel._throat(20 * MM)
    assert limits(found) == pytest.approx([20, 18.6, 21.4])
    assert "15 % of its 314 mm²" in plain_words(found.why)


@pytest.mark.parametrize(("feeds", "flow"), [("each", "240"), ("all", "120")])
def test_a_pump_passes_what_all_injectors_do(feeds, flow):
    """2 cm³/s each, 120 a minute."""
    plain = Of(
        cylinders=(1, 2), intake=Of(mixture_by="injector"),
        tank=Of(pump_flow=None, hose_bore=6 * MM, hose_length=0.5),
        injector=Of(pressure=3e5, feeds=feeds, flow=2e-6, regulator="intake"),
    )  # fmt: skip
    pump, *_ = buy_fuel._pumped(plain)
    assert plain_words(pump.size) == f"{flow} cm³/min or more at 3 bar"


def test_limits_of_a_plugs_gap_and_of_a_loads_mass():
    parts = Of(plug=Of(thread="M10", gap=0.6 * MM, return_lead=False))
    rows = Of(row=lambda *_: Row("M10", diameter=Of(source="", sure="")))
    (plug,) = buy_supply._plugs(rows, Of(cylinders=(parts,)))
    assert limits(plug.checks[0]) == pytest.approx([0.6, 0.55, 0.65])
    load = Of(kind="fan", diameter=0.2, pitch=0.1, mass=0.05, torque=1.0, torque_at=100.0)
    (mass,) = next(buy_supply._load(Of(load=load))).checks
    assert (mass.wanted, mass.low, mass.high) == pytest.approx((0.05, 0.04, 0.06))


def screwed(kind="screws", *, through=False):
    hold = Of(kind=kind, through=through, clamped_length=30 * MM, engaged_length=12 * MM)
    return Of(head=Of(fasteners=hold))


@pytest.mark.parametrize(
    ("kind", "through", "least"),
    [("screws", False, 43.0), ("through_bolts", True, 38.1), ("studs", False, 49.1),
     ("nutted_studs", True, 44.2)],
)  # fmt: skip
def test_how_long_a_screw_of_the_head_is(kind, through, least):
    """30 mm, a washer of 1 for M5; 12 engaged, or through with another; each nut 4.5 and two
    threads of 0.8 mm."""
    thread = Row("M5", diameter=5 * MM, pitch=0.8 * MM)
    found = screws.least_length(thread, screwed(kind, through=through))
    assert 1e3 * found == pytest.approx(least)


def test_screws_are_sold_in_steps_and_washers_by_thread():
    """M6 has 1.6 mm; M7, which the table lacks, a fifth of 7. 40.0005 mm are still 40."""
    assert screws.stocked_length(40.0005 * MM) == pytest.approx(40 * MM)
    assert screws.stocked_length(40.002 * MM) == pytest.approx(45 * MM)
    assert screws.washer_thickness(6 * MM) == pytest.approx(1.6 * MM)
    assert screws.washer_thickness(7 * MM) == pytest.approx(1.4 * MM)


def test_an_inserts_length_may_be_three_tenths_short():
    told = Of(si=8 * MM, si_low=7.9 * MM, si_high=8.1 * MM, source="", sure="")
    _, long = screws._insert(
        Row("i", outside=told, length=Of(**{**vars(told), "si": 6 * MM}), hole=7 * MM), 4
    ).checks
    assert limits(long) == [pytest.approx(6), pytest.approx(5.7), None]


def shaft(**put):
    joint = Of(kind="pinned", length=7 * MM, diameter=10 * MM, plate_thickness=0.0, cross_pins=2,
               cross_pin_diameter=3 * MM, interference=0.02 * MM, flats=4)  # fmt: skip
    told = {"cheek_thickness": 10 * MM, "cheek_width": 30 * MM, "main_bearing_width": 12 * MM,
            "main_bearings": 3, "joint": joint, "journal": Of(joint=joint)}  # fmt: skip
    return Of(
        crank=Of(**{**told, **put}), case=Of(wall=6 * MM),
        flywheel=Of(thickness=14 * MM, diameter=0.1, joint=joint),
        cam_drive=Of(joint=joint, pitch=5 * MM),
    )  # fmt: skip


def test_a_loose_journal_reaches_past_what_sits_on_it(monkeypatch):
    """10 of cheek, 20 to its bearings, two of them of 12 on the longer side, 6 of wall, 14 of
    flywheel and 15 for a nut: 89 mm; where 20 isn't known half a bearing, 75."""
    monkeypatch.setattr(joints, "journals", lambda _: [Of(length=20 * MM, roots=(1, 2))])
    assert joints.stub_length(shaft()) == pytest.approx(89 * MM)

    def unknown(_):
        raise joints.OutsideValidity("no")

    monkeypatch.setattr(joints, "journals", unknown)
    assert joints.stub_length(shaft()) == pytest.approx(75 * MM)


def test_joints_of_two_throws(monkeypatch):
    """Four of their pins; the cam wheel's hub is its shaft and two pitches."""
    monkeypatch.setattr(joints, "throws", lambda _: [1, 2])
    monkeypatch.setattr(joints, "journals", lambda _: [Of(roots=(1, 2)), Of(roots=(1,))])
    monkeypatch.setattr(joints, "is_plated", lambda _: False)
    pins, journal, cam, _ = joints.joints(shaft())
    assert (pins.count, journal.count, cam.count) == (4, 3, 1)
    assert cam.wide == pytest.approx(20 * MM)


def test_what_is_pressed_drilled_and_filed_at_a_joint():
    """10 less 0.02 by a hundredth; two pins in each of two; flats a tenth under; H7 of 3 mm."""
    at = Of(joint=shaft().crank.joint, pin="pin", hub="cheek", count=2, path="crank.joint")
    assert limits(jobs_crank._into_cheek(at)) == pytest.approx([9.98, 9.97, 9.99])
    at.joint.pins_run = "across"
    holes = jobs_crank._pin_holes(at)
    assert (holes.count, limits(holes)) == (4, pytest.approx([3, 3, 3.012]))
    assert limits(jobs_crank._flats(at)) == pytest.approx([10, 9.9, 10])
    wheel = Of(flywheel=Of(thickness=1 * MM, bore=15 * MM))
    (hole,) = jobs_crank._wheel(wheel)
    assert limits(hole) == pytest.approx([15, 15, 15.02])


def test_what_is_cut_and_bent_of_stock(monkeypatch):
    """A throw of 20 by 0.2; stubs of 89 by 0.5; pins of 34 by 0.1, one for each of two throws."""
    monkeypatch.setattr(jobs_crank, "throws", lambda _: [1, 2])
    monkeypatch.setattr(jobs_crank, "mechanism", lambda _: (20 * MM, 66 * MM, 0.0))
    monkeypatch.setattr(jobs_crank, "stub_length", lambda _: 89 * MM)
    monkeypatch.setattr(jobs_crank, "pin_length", lambda _: 34 * MM)
    monkeypatch.setattr(jobs_crank, "has_loose_pin", lambda _: True)
    plain = shaft(built="one_piece", made="rod", crankpin_length=20 * MM)
    plain.cylinders = (1,)
    throw, stubs, pins = jobs_crank._stock(plain)
    assert limits(throw) == pytest.approx([20, 19.8, 20.2])
    assert limits(stubs) == pytest.approx([89, 88.5, 89.5])
    assert (pins.count, limits(pins)) == (2, pytest.approx([34, 33.9, 34.1]))


def test_a_hole_is_drawn_by_how_prints_come_out():
    """12 mm that come out 0.2 small are drawn 12.2."""
    plain = Of(printing=Of(hole_error=-0.2 * MM))
    said = plain_words(jobs_cylinder.drawn_hole(plain, 12 * MM))
    assert said == "draw it 12.2 mm: your prints' holes come out 0.2 mm small"
    assert jobs_cylinder.drawn_hole(plain, 21 * MM).startswith("print one ring of it first")


def bored(**put):
    """A printed piston in a bore of 40, with an O-ring of 2 mm in grooves of 1.65."""
    told = {
        "cylinder": Of(bore=40 * MM), "body": Of(made="printed"), "pin": Of(length=34 * MM),
        "liner": Of(made="tube", kind="metal", length=70 * MM, outside_diameter=44 * MM,
                    fit_interference=0.06 * MM, bore_finish="smooth"),
        "piston": Of(made="printed", skirt_clearance=0.3 * MM,
                     shield=Of(thickness=1 * MM, diameter=30 * MM, screws=0)),
        "rings": Of(kind="o_ring", count=1, section=2 * MM, groove_depth=1.65 * MM, gap=0.0,
                    groove_width=3 * MM),
        "head": Of(chamber_plate="steel", chamber_plate_thickness=1 * MM),
        "gasket": Of(kind="sheet", inside_diameter=41 * MM, width=5 * MM),
        "valves": Of(inlet=valve(), exhaust=valve()),
    }  # fmt: skip
    return Of(**{**told, **put})


def valve():
    return Of(throat_diameter=16 * MM, stem_diameter=4 * MM, head_diameter=20 * MM, lash=0.1 * MM,
              made="shop_made", seat_angle=math.pi / 4, worked="cam")  # fmt: skip


def test_jobs_at_the_bore(monkeypatch):
    """Its seat is 44 - 0.06 by 0.05. A bore whose limits are 0.02 apart is measured finer."""
    near = [39.99 * MM, 40.01 * MM, ""]
    monkeypatch.setattr(jobs_cylinder, "bore_limits", lambda _: near)
    saw = 1e3 * jobs_cylinder._SAWN
    cut, sand, press = jobs_cylinder._liner(bored())
    assert limits(cut) == pytest.approx([70, 70 - saw, 70 + saw])
    assert limits(sand) == pytest.approx([40, 39.99, 40.01])
    assert "telescopic" in sand.tool
    assert limits(press) == pytest.approx([43.94, 43.89, 43.99])
    near[:2] = 39.8 * MM, 40.2 * MM
    assert "telescopic" not in list(jobs_cylinder._liner(bored()))[1].tool


def test_jobs_at_the_piston():
    """A skirt of 39.7 by a sixth of 0.3; a groove by two hundredths of 2 mm; a pin only shorter."""
    (skirt,) = jobs_cylinder._piston(bored())
    assert limits(skirt) == pytest.approx([39.7, 39.65, 39.75])
    (groove,) = jobs_cylinder._rings(bored())
    assert limits(groove) == pytest.approx([1.65, 1.61, 1.69])
    (pin,) = jobs_cylinder._pin(bored())
    assert limits(pin) == pytest.approx([34, 34 - 1e3 * jobs_cylinder._SAWN, 34])
    split = Of(**{**vars(bored().rings), "kind": "split", "gap": 0.2 * MM})
    groove, ends = jobs_cylinder._rings(bored(rings=split))
    assert limits(groove) == pytest.approx([1.65, 1.6, 1.7])
    assert limits(ends) == pytest.approx([0.2, 0.2, 0.3])


def test_jobs_at_plates_and_gasket():
    """A shield of 30 and a plate as large as the gasket, 41 + 10 mm, by 0.3."""
    shield, plate = jobs_cylinder._plates(bored())
    assert limits(shield) == pytest.approx([30, 29.7, 30.3])
    assert limits(plate) == pytest.approx([51, 50.7, 51.3])
    (gasket,) = jobs_cylinder._gasket(bored())
    assert limits(gasket) == pytest.approx([41, 41, 41.5])


def test_jobs_at_a_valve():
    turn, ream, _, lash, *_ = jobs_cylinder._valves(bored())
    assert limits(turn) == pytest.approx([20, 19.9, 20.1])
    assert limits(ream) == pytest.approx([4.04, 4.03, 4.05])
    assert limits(lash) == pytest.approx([0.1, 0.07, 0.13])


def test_holes_of_a_thread_that_says_no_more_than_its_size():
    """M5: 4.25 to tap, 5.5 clear; a plug's hole of 10."""
    threads = {"M5": Row("M5", diameter=5 * MM), "M10": Row("M10", diameter=10 * MM)}
    rows = Of(row=lambda _, key: threads[key])
    hold = Of(thread="M5", kind="screws", insert=None, count=4, engaged_length=12 * MM,
              circle_diameter=60 * MM, long=False)  # fmt: skip
    parts = bored(plug=Of(thread="M10"), head=Of(made="printed", fasteners=hold),
                  gasket=Of(kind="none"))  # fmt: skip
    tap, clear, plug = jobs_cylinder._head(rows, None, parts)
    assert limits(tap) == pytest.approx([4.25, 4.25, 4.35])
    assert limits(clear) == pytest.approx([5.5, 5.5, 5.7])
    assert limits(plug) == pytest.approx([10, 10, 10.1])


def test_a_trials_share_of_the_whole():
    """Half of the second of four: three eighths; never more than its whole."""
    told = []
    tell = have._share(lambda what, share: told.append((what, share)), "trial", 1, 4)
    tell("gas", 0.5)
    tell("", 3.0)
    assert told == [("trial: gas", pytest.approx(0.375)), ("trial", pytest.approx(0.5))]
    assert have._share(None, "trial", 1, 4) is None


@dataclass(frozen=True)
class Moved:
    """A way to fail whose factor moved."""

    name: str
    old: float
    new: float

    @property
    def before(self):
        return Of(factor=self.old, word="holds")

    @property
    def after(self):
        return Of(factor=self.new, word="holds")

    @property
    def least(self):
        return min(self.old, self.new)


def test_the_largest_step_of_a_factor_is_told_first():
    """By 2 down is more than by 1.5 up; what is far from failing is left out."""
    assert have._step(Moved("", 3.0, 1.5)) == pytest.approx(math.log(2))
    assert have._step(Moved("", 1.5, 3.0)) == pytest.approx(math.log(2))
    assert have._step(Moved("", 0.0, 3.0)) == math.inf
    small, large = Moved("small", 1.0, 1.5), Moved("large", 1.2, 0.6)
    far = Moved("far", 1e4, 1e5)
    found = have._moved_most([small, far, large, small])
    assert [one.name for one in found] == ["large", "small"]


def test_what_a_tool_cannot_see_is_said_behind_its_limits():
    """Limits 0.055 mm apart, by a caliper that may be off by 0.03."""
    row = {"error": Of(si=0.03 * MM)}
    rows = Of(row=lambda *_: Of(name="Caliper", get=row.get))
    told = text_items.checks_words([check(12.0, 11.97, 12.025)], "it fits", rows)
    said = plain_words(told)
    assert said.startswith("size 12 mm (11.97 to 12.02) with a caliper, once: it fits.")
    assert said.endswith("at size it tells a wrong part, not the fit.")


def test_a_bonded_joint_wants_its_glue(monkeypatch):
    joint = Of(is_bonded=True, bond="epoxy", kind="bonded")
    place = Of(joint=joint, pinned=False, pin="pin", hub="cheek", path="crank.joint", count=2)
    names = {("material", "epoxy"): Of(name="Epoxy (two parts)")}
    monkeypatch.setattr(buy_crank, "_plates", lambda *_: [])
    monkeypatch.setattr(buy_crank, "joints", lambda _: [place])
    (glue,) = buy_crank._joints(Of(row=lambda *of: names[of]), None)
    assert (glue.what, glue.path) == ("epoxy", "crank.joint.bond")


def test_jobs_at_cheek_and_bearing(monkeypatch):
    """A seat of 35 by 0.03 under and 0.02 over; a journal of 15 by what is ground over and 0.005;
    a plate for each cheek of two throws, 30 wide by 0.5."""
    plain = shaft(main_bearing_outside=35 * MM, main_journal_diameter=15 * MM, made="printed")
    plain.crank.journal.joint = Of(**{**vars(plain.crank.joint), "kind": "solid"})
    plain.case.made = "printed"
    for name in ("_stock", "_joints", "_wheel"):
        monkeypatch.setattr(jobs_crank, name, lambda _: [])
    monkeypatch.setattr(jobs_crank, "drawn_hole", lambda *_: "")
    seat, journal = jobs_crank.crank_jobs(plain)
    over = 1e3 * jobs_crank._GROUND_OVER
    assert (seat.count, limits(seat)) == (3, pytest.approx([35, 34.97, 35.02]))
    assert limits(journal) == pytest.approx([15, 15 - over, 15.005])


def test_plates_of_two_throws(monkeypatch):
    monkeypatch.setattr(jobs_crank, "throws", lambda _: [1, 2])
    monkeypatch.setattr(jobs_crank, "is_plated", lambda _: True)
    monkeypatch.setattr(jobs_crank, "joints", lambda _: [])
    (plates,) = jobs_crank._joints(shaft())
    assert (plates.count, limits(plates)) == (4, pytest.approx([30, 29.5, 30.5]))


def test_a_belts_width_and_ten_of_its_teeth(monkeypatch):
    """9 mm by 0.5; ten teeth of 5 mm by a hundredth. 61 teeth of 5 are 305 mm."""
    row = Row("xl", texts={"widths": "6, 9"}, pitch=Of(source="book", sure="sure"))
    monkeypatch.setattr(buy_valves, "belt_row", lambda *of: {("rows", 9 * MM): row}[
        of[0], of[1].width
    ])  # fmt: skip
    asked = drive(teeth_cam=20, centre_distance=101.3 * MM, width=9 * MM, count=1)
    (belt,) = buy_valves._drive("rows", asked)
    width, ten = belt.checks
    assert limits(width) == pytest.approx([9, 8.5, 9.5])
    assert limits(ten) == pytest.approx([50, 49.5, 50.5])
    assert plain_words(belt.size) == "61 teeth (305 mm round), 9 mm wide"
    assert plain_words(belt.note) == (
        "A belt of 61 teeth wants the shafts 102.5 mm apart. Of its make, 6, 9 are sold."
    )


def test_grams_of_a_printed_part(monkeypatch):
    """Of a body of 50 × 30 × 10 mm seven tenths, 10.5 cm³ of 1200 kg/m³: 12.6 g; 10 mm high."""
    how = Of(material="pla", walls=4, line_width=0.5 * MM, infill=0.5,
             layers_stacked="along_crank", made="printed")  # fmt: skip
    body = Of(part="crank cheek", section="crank", cylinder=0, count=2, volume=15e-6,
              thickness=10 * MM, sizes=(50 * MM, 30 * MM, 10 * MM), how="a bar")  # fmt: skip
    plain = Of(name="plain", printing=Of(layer_height=0.2 * MM, material="pla"))
    row = Row("PLA", texts={"structure": "plastic", "made": "printed"})
    values = Of(material_property=lambda *of: {("pla", "density"): 1200.0}[of])
    made = Of(catalog=Of(row=lambda *of: {("material", "pla"): row}[of]), values=lambda _: values)
    monkeypatch.setattr(printed, "outlines", lambda _: [body])
    monkeypatch.setattr(printed, "made", lambda of, one: {"plain": how}[of.name] if one else None)
    monkeypatch.setattr(laid, "pulled_share", lambda *of: {10 * MM: 0.7}[of[1]])
    (found,) = printed.printed_parts(made, plain)
    assert found.plastic == pytest.approx(10.5e-6)
    assert found.mass == pytest.approx(12.6 * MM)
    assert found.time == pytest.approx((2100, 1050, 3500))


@pytest.mark.parametrize("made", ["bought", "shop_made"])
def test_a_valve_with_its_seat_guide_and_spring(monkeypatch, made):
    """Of both kinds: a stem of 4.2 mm is sold as 4; a guide two stems across, a seat 1.15 heads."""
    one = Of(**{**vars(valve()), "made": made, "stem_diameter": 4.2 * MM, "material": "steel",
                "seat_material": "iron", "guide_material": "bronze", "spring_preload": 6.0,
                "spring_rate": 2000.0, "lift": 3 * MM})  # fmt: skip
    parts = Of(valves=Of(inlet=one, exhaust=one))
    names = {("material", key): Of(name=key.title()) for key in ("steel", "iron", "bronze")}
    monkeypatch.setattr(buy_valves, "_drive", lambda rows, of: {"drive": [rows.name]}[of])
    plain = Of(cylinders=(parts,), cam_drive="drive")
    rows = Of(row=lambda *of: names[of], name="rows")
    stem, seat, guide, spring, *others, drive_item = buy_valves.valve_items(Of(catalog=rows), plain)
    assert "4 mm" in plain_words(stem.note)
    assert plain_words(seat.size) == "bored 16 mm, 23 mm across at least"
    assert plain_words(guide.size) == "bored 4.2 mm, 8.4 mm across"
    assert (spring.path, len(others), drive_item) == ("valves.inlet.spring_rate", 4, "rows")


def test_a_screw_at_hand_is_asked_about_by_its_length(monkeypatch):
    """M5x40 is no row, but a thread and 40 mm; a row of a name is asked about as it is."""
    thread, ring = Of(key="M5", kind="thread"), Of(key="ring", kind="oring")
    known = {("thread", "M5"): thread, ("oring", "ring"): ring}
    catalog = Of(row=lambda *of: known[of])

    def named(rows, name):
        assert rows is catalog
        if name != "ring":
            raise have.FirstfireError(name)
        return (ring,)

    monkeypatch.setattr(have, "named_rows", named)
    monkeypatch.setattr(have.places, "screw", lambda made, *of: (made.name, *of))
    monkeypatch.setitem(have.OFFERS, "oring", lambda made, *of: (made.name, *of))
    made = Of(catalog=catalog, name="made")
    ((row, asked),) = have._offers(made, "plain", "M5x40")
    assert row is thread
    assert asked == ("made", "plain", thread, pytest.approx(40 * MM))
    assert list(have._offers(made, "plain", "ring")) == [(ring, ("made", "plain", ring))]
