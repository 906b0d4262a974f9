"""A valve's spring by hand: the least that holds, a winding of it, and which is taken."""

from __future__ import annotations

import math
from itertools import product
from types import SimpleNamespace

import numpy as np
import pytest

from firstfire.errors import OutsideValidity
from firstfire.formulas.cam_spring import SpringLine
from firstfire.setup.cams import spring

TEN = SpringLine(12.15, 2025.0)
"""Wire of 1 mm and 5 coils give it at 10 mm: 81 GPa × 1 mm⁴/(8 × (10 mm)³ × 5) = 2025 N/m."""
TWENTY = SpringLine(23.8, 4050.0)
"""Wire of 2 mm and 5 coils give it at 20 mm: twice as large all over, twice as stiff."""


def cam(**valve):
    """What a cam works: 4 mm of lift, a stem of 5 mm, a head of 16 mm."""
    put = {"lift": 4e-3, "stem_diameter": 5e-3, "head_diameter": 16e-3} | valve
    return SimpleNamespace(valve=SimpleNamespace(**put))


def test_wires_are_bought_from_half_a_millimetre_to_three_and_coils_wound_by_halves():
    wires, coils = spring._WIRES, spring._COILS
    assert wires == pytest.approx([
        5e-4, 6e-4, 7e-4, 8e-4, 9e-4, 1e-3, 1.1e-3, 1.2e-3, 1.4e-3, 1.6e-3, 1.8e-3, 2e-3, 2.2e-3,
        2.5e-3, 2.8e-3, 3e-3,
    ])  # fmt: skip
    assert coils == pytest.approx([
        3.0, 3.5, 4.0, 4.5, 5.0, 5.5, 6.0, 6.5, 7.0, 7.5, 8.0, 8.5, 9.0, 9.5, 10.0,
    ])  # fmt: skip


def test_a_winding_by_hand():
    """2025 N/m on 1 mm of wire and 5 coils is 10 mm wide, ten times its wire.

    20.25 N at full lift, by Wahl's (40 - 1)/(40 - 4) + 0.0615: that times 8 × 20.25 N × 10 mm over
    π mm³. 85 % of 45 % of the 2211 MPa of 1 mm of music wire are allowed. 7 coils of 1 mm touch at
    7 mm; 4 mm of lift and 15 % of it above are 11.6 mm, and 12.15 N are 6 mm more.
    Its coils weigh 7850 kg/m³ × π² × 1 mm² × 10 mm × 5/4 and surge at half of √(k/m); a cam turns
    once while 400 rad/s turn 4 π.
    """
    found = spring._wound(cam(), TEN, 400.0, 1e-3, 5.0)
    assert (found.wire, found.active, found.total) == (1e-3, 5.0, 7.0)
    assert found.mean == pytest.approx(10e-3)
    assert (found.preload, found.rate) == (12.15, pytest.approx(2025.0))
    wahl = 39.0 / 36.0 + 0.0615
    assert found.stress == pytest.approx(wahl * 8 * 20.25 * 10e-3 / (math.pi * 1e-9))
    assert found.allowed == pytest.approx(0.85 * 0.45 * 2211e6, rel=1e-6)
    assert found.solid == pytest.approx(7e-3)
    assert found.fitted == pytest.approx(11.6e-3)
    assert found.free == pytest.approx(17.6e-3)
    mass = 7850.0 * math.pi**2 * 1e-6 * 10e-3 * 1.25
    assert found.mass == pytest.approx(mass)
    assert found.surge == pytest.approx(0.5 * math.sqrt(2025.0 / mass))
    assert found.times == pytest.approx(found.surge * 4 * math.pi / 400.0)
    assert not found.bows


@pytest.mark.parametrize(("preload", "bows"), [(82.5, False), (83.5, True)])
def test_a_spring_much_longer_than_wide_bows_out(monkeypatch, preload, bows):
    """10 mm wide and held at both ends, it may be 2.63 × 10/0.5 = 52.6 mm long.

    Of them 11.6 mm are fitted and 41 come with 83 N on the seat, for a wire that bears them.
    """
    monkeypatch.setattr(spring, "STRESS_SHARE", 10.0)
    assert spring._wound(cam(), SpringLine(preload, 2025.0), 400.0, 1e-3, 5.0).bows is bows


@pytest.mark.parametrize(("stem", "fits"), [(5.9e-3, True), (6.1e-3, False)])
def test_it_goes_round_a_guide_with_a_wall_of_one_and_a_half_millimetres(stem, fits):
    """10 mm less the wire are 9 mm inside: a stem of 6 mm and 1.5 mm on each side of it."""
    found = spring._wound(cam(stem_diameter=stem), TEN, 400.0, 1e-3, 5.0)
    assert (found is not None) is fits


@pytest.mark.parametrize(
    ("stem", "head", "fits"),
    [(8e-3, 18.1e-3, True), (8e-3, 17.9e-3, False), (9.1e-3, 16e-3, True), (8.9e-3, 16e-3, False)],
)
def test_it_stands_out_no_further_than_head_or_guide_leave(stem, head, fits):
    """20 mm and its wire are 22 mm: 4 mm more than a head of 18, or than 6 more than 12 of guide.

    A stem of 9 mm has a guide of 12.
    """
    made = cam(stem_diameter=stem, head_diameter=head)
    found = spring._wound(made, TWENTY, 200.0, 2e-3, 5.0)
    assert (found is not None) is fits


@pytest.mark.parametrize(("speed", "fits"), [(690.0, True), (710.0, False)])
def test_its_coils_surge_at_thirteen_times_the_cams_turns(speed, fits):
    """Half of √(2025 N/m/0.968 g) is 723 Hz, 13 times 55.6: the crank's 699 rad/s."""
    assert (spring._wound(cam(), TEN, speed, 1e-3, 5.0) is not None) is fits


@pytest.mark.parametrize(("preload", "fits"), [(20.9, True), (21.6, False)])
def test_it_bears_its_stress_at_full_lift(preload, fits):
    """846 MPa allowed over 1.1448 × 8 × 10 mm/π mm³ are 29.0 N; 8.1 N of them come with lift."""
    line = SpringLine(preload, 2025.0)
    assert (spring._wound(cam(), line, 400.0, 1e-3, 5.0) is not None) is fits


def test_the_most_eased_of_those_hardly_longer_than_the_shortest_is_taken(monkeypatch):
    """The shortest is 20 mm: up to 30 mm may be taken, and 31 is too long, eased as it may be.

    400 of 800 MPa is eased more than 350 of 500.
    """
    made, line = cam(), SpringLine(10.0, 2000.0)
    each = {
        (1e-3, 3.0): (20e-3, 450.0, 500.0), (1e-3, 4.0): (29e-3, 400.0, 800.0),
        (1.2e-3, 5.0): (28e-3, 350.0, 500.0), (2e-3, 6.0): (31e-3, 100.0, 800.0),
    }  # fmt: skip
    asked = []

    def wound(of, on, speed, wire, coils):
        assert (of, on, speed) == (made, line, 300.0)
        asked.append((wire, coils))
        for (at, by), (fitted, stress, allowed) in each.items():
            if wire == pytest.approx(at) and coils == by:
                return SimpleNamespace(fitted=fitted, stress=stress, allowed=allowed)
        return None

    monkeypatch.setattr(spring, "_wound", wound)
    assert spring.winding(made, line, 300.0).fitted == 29e-3
    assert asked == list(product(spring._WIRES, spring._COILS))
    each.clear()
    with pytest.raises(OutsideValidity, match="3 to 10 active coils gives 2 N/mm from 10 N"):
        spring.winding(made, line, 300.0)


def test_the_least_spring_holds_what_the_valve_is_slowed_by_and_against_suction(monkeypatch):
    """50 g slowed by 300 and 200 m/s² want 15 and 10 N; shut, or sped up, they want none.

    0.7 bar on a throat of 20 mm, 100 π mm², are 7 π N. It is to hold at 1.2 times the speed.
    """
    valve = SimpleNamespace(mass=50e-3, throat_diameter=20e-3, lift=4e-3)
    made = SimpleNamespace(valve=valve, valve_lift=np.array([0.0, 1e-3, 2e-3, 4e-3]))
    slowed = np.array([-500.0, 250.0, -200.0, -300.0])

    def acceleration(of, speed):
        assert of is made
        return slowed * (speed / 120.0)

    monkeypatch.setattr(spring, "acceleration", acceleration)
    monkeypatch.setattr(spring, "least_spring", lambda *given: given)
    lifts, needed, lift, seat = spring.needed_line(made, 100.0)
    assert lifts == [2e-3, 4e-3]
    assert needed == pytest.approx([10.0, 15.0])
    assert lift == 4e-3
    assert seat == pytest.approx(7.0 * math.pi)
