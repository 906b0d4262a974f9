"""More of fits and test pieces by hand: end float, scatter, a puck, drawings, where it opens."""

from __future__ import annotations

import math
from types import SimpleNamespace

import pytest
from tests.setup.test_proof import PRESSED, engine, pieces

import firstfire as ff
from firstfire.parts.head_joint import grip, head_joint
from firstfire.setup.fits.clearances import clearances
from firstfire.setup.fits.fits import fits
from firstfire.setup.fits.hand_scatter import spread
from firstfire.setup.opened.by_law import ByLaw
from firstfire.setup.opened.fits_laws import law_sheets
from firstfire.setup.proof.proof import proof
from firstfire.setup.proof.puck import torque_next_morning
from firstfire.setup.spark.words import _resistor_watts
from firstfire.setup.standing import NIGHT, standing


def float_of(made: ff.Engine):
    return next(one for one in clearances(ff.resolve(made)) if one.id == "end-float")


def test_skirt_side_play_and_pin_by_hand() -> None:
    """0.3 mm of skirt is 0.2 to 0.4 mm by leaf; 12 mm of pin for a big end of 11.6; 40 less 38.8 of
    bore."""
    made = engine("wren", {
        "piston.skirt_clearance": "0.3 mm", "crank.crankpin_length": "12 mm",
        "rod.big_end_width": "11.6 mm", "cylinder.bore": "40 mm", "pin.length": "38.8 mm",
    })  # fmt: skip
    found = {one.id: one for one in clearances(ff.resolve(made))}
    told = {
        name: tuple(1e3 * one for one in found[name][2:5])
        for name in ("skirt", "rod-side", "pin-end")
    }
    assert told["skirt"] == pytest.approx((0.3, 0.2, 0.4))
    assert told["rod-side"] == pytest.approx((0.4, 0.2, 1.0))
    assert told["pin-end"] == pytest.approx((1.2, 0.4, 10.0))


def test_a_resistor_like_the_winding_takes_half_the_current_and_is_bought_twice_as_strong() -> None:
    """12 V less 1 over 3 Ω and as much again: 1.83 A, 10.1 W in it, 20.2 on its label."""
    circuit = SimpleNamespace(voltage=12.0, winding=3.0, driving=lambda volts: volts - 1.0)
    assert _resistor_watts(SimpleNamespace(circuit=circuit)) == pytest.approx(20.17, abs=0.01)


def test_end_float_by_hand() -> None:
    # A case of steel (11.7 ppm/K) that an aluminium shaft (23) outgrows over a span of 60 mm by
    # 40 K: 0.027 mm closes, and 0.05 are left.
    made = engine("wren", {
        "case.material": "steel", "case.made": "bought", "crank.journal.material": "aluminium",
        "crank.bearing_span": "60 mm",
    })  # fmt: skip
    plain = ff.resolve(made)
    steel = plain.materials[plain.case.material]["expansion"]
    light = plain.materials[plain.crank.journal.material]["expansion"]
    one = float_of(made)
    assert one.least == pytest.approx(0.05e-3 + (light - steel) * 0.060 * 40)
    assert one.most - one.least == pytest.approx(0.2e-3)
    assert "closes" in one.how
    # A plastic case outgrows a steel shaft: nothing to leave room for.
    assert float_of(engine("wren")).least == pytest.approx(0.05e-3)
    assert "opens it by 0.05 mm" in float_of(engine("wren")).how


def test_what_a_nut_factor_multiplies_a_pull_is_divided_by() -> None:
    # doubt.nut_factor 0.7 to 1.35: the pull by 1/1.35 to 1/0.7.
    low, high = spread(engine("wren"), 0, "doubt.nut_factor")
    assert (low, high) == pytest.approx((1 / 1.35, 1 / 0.7))
    both = spread(engine("wren"), 0, "doubt.nut_factor", "head.fasteners.torque")
    # by hand 25 % either way besides
    assert both[1] == pytest.approx(math.exp(math.hypot(math.log(1 / 0.7), math.log(1.25))))
    assert spread(engine("heron"), 1, "head.fasteners.torque")[1] == pytest.approx(1.25)
    assert spread(engine("wren"), 0, "nothing.such") == (1.0, 1.0)


def test_a_puck_by_hand() -> None:
    # M5 (14.2 mm²) of steel over 24 mm: 206 GPa × 14.2/24 mm = 121.9 N/µm. PA6-CF across its
    # layers over 20 mm, as wide as the washer with a hole of 5.5.
    made = engine("wren")
    plain = ff.resolve(made)
    head = plain.cylinders[0].head
    material = plain.materials["pa6_cf"]
    bolt = 206e9 * 14.2e-6 / 24e-3
    face = math.pi / 4 * (head.fasteners.washer_diameter**2 - 5.5e-3**2)
    puck = material["modulus_across"] * face / 20e-3
    kept = 0.55 ** (math.log10(12 * 3600 / 10) / math.log10(3.6e6 / 10))
    series = (1 / bolt + 1 / puck) / (1 / bolt + 1 / (puck * kept))
    assert torque_next_morning(plain) == pytest.approx(head.fasteners.torque * series, rel=1e-6)


def test_the_scrap_joint_is_drawn_for_its_fit_and_printer() -> None:
    made = engine("wren", {**PRESSED, "crank.crankpin_material": "silver steel"})
    hub = pieces(made)["joint"].piece.blocks[0]
    # 12 mm pin, 0.1 tight, holes come out 0.2 small
    assert hub.holes[0].diameter == pytest.approx(12e-3 - 0.1e-3 + 0.2e-3)
    assert hub.height == pytest.approx(14e-3)
    wide = max(x for x, _ in hub.outline) - min(x for x, _ in hub.outline)
    assert wide == pytest.approx(33e-3)


def test_where_head_and_gasket_open_by_hand() -> None:
    plain = ff.resolve(engine("heron"))
    one = proof(plain).cylinders[0]
    there = standing(plain, hours=NIGHT)
    joint = head_joint(there)
    lifts = 4 * grip(there).holds / (math.pi / 4 * joint.seal_diameter**2)
    assert one.what == "the head lifts"
    assert one.opens_at == pytest.approx(lifts, rel=1e-6)
    assert one.opens_at < one.pressure
    wren = ff.resolve(engine("wren"))
    held = proof(wren).cylinders[0]
    assert held.what == "the gasket opens"
    # Clamped by what a night leaves, it opens no later than where the faces have parted.
    left = head_joint(standing(wren, hours=NIGHT))
    parted = left.number * left.left / (1 - left.share) / (math.pi / 4 * left.seal_diameter**2)
    assert held.opens_at < parted


def last_two(made: ff.Engine, ident: str) -> tuple[float, float]:
    _, worked = law_sheets(made)[ident]
    assert isinstance(worked, ByLaw)
    numbers, lines = worked.shown(made)
    by_name = {line.name: line.value for line in lines}
    assert numbers
    return by_name["demand"], by_name["capacity"]


@pytest.mark.parametrize("ident", ["crankpin", "journal", "flywheel", "cam-wheel", "liner"])
def test_an_opened_seat_ends_in_the_numbers_of_the_sheet(ident: str) -> None:
    made = engine("wren")
    fit = next(one for one in fits(made).seats if one.id == ident).pressing
    assert last_two(made, ident) == pytest.approx((fit.stress, fit.bears), rel=1e-9)


def test_opened_torques_and_sealant_end_in_the_numbers_of_the_sheet() -> None:
    made = engine("heron")
    found = fits(made)
    assert last_two(made, "head")[1] == pytest.approx(found.torques[0].night, rel=1e-9)
    assert last_two(made, "sealant")[1] == pytest.approx(found.sealant.now.holds, rel=1e-9)


@pytest.mark.parametrize(
    ("name", "ident", "says"),
    [("wren", "sealant", "Nothing cures"), ("heron", "crankpin", "Nothing is pressed")],
)
def test_what_cannot_be_opened_says_why(name: str, ident: str, says: str) -> None:
    number, _ = law_sheets(engine(name))[ident]
    assert not number.judged
    assert number.why.startswith(says)
