"""Carburettor and gas mixer: closed forms, the book's own ratio, what pulses draw."""

from __future__ import annotations

import math

import pytest
from scipy.integrate import quad

from firstfire.errors import OutsideValidity
from firstfire.formulas import nozzle_flow
from firstfire.formulas.carburettor import (
    Air,
    Carburettor,
    Jet,
    behind_throttle,
    bled,
    depression,
    fuel_flow,
    held_back,
    jet_area,
    jet_flow,
    over_pulses,
    starts_at,
)

ROOM = Air(293.15, 1e5)
PETROL_DENSITY = 745.0
VENTURI = 0.85 * math.pi / 4 * 10e-3**2
"""A 10 mm throat."""


def test_air_before_the_carburettor_is_a_perfect_gas() -> None:
    """1.1884 kg/m³ at 20 °C and 1 bar (handbooks)."""
    assert ROOM.density == pytest.approx(1.1884, rel=2e-4)


def test_depression_is_bernoullis() -> None:
    """Speed in the throat by the flow, and half ρ u²."""
    speed = 3e-3 / (1.2 * VENTURI)
    assert depression(3e-3, VENTURI, 1.2) == pytest.approx(0.5 * 1.2 * speed**2, rel=1e-12)
    with pytest.raises(OutsideValidity):
        depression(30e-3, VENTURI, 1.2)


def test_leaving_out_compressibility_costs_six_per_cent_at_most() -> None:
    """Against the isentropic nozzle at the depression where the law ends."""
    flow = 0.999 * VENTURI * math.sqrt(2.0 * ROOM.density * 10e3)
    there = nozzle_flow.mass_flow(VENTURI, 1e5, 293.15, 287.04, 1.4, 1e5 - 10e3)
    assert flow == pytest.approx(there, rel=0.06)
    assert flow > there


def test_mixture_is_heywoods_ratio() -> None:
    """Eq. 7.6 (1988; from memory): (A/F) = (C_t A_t/C_o A_o) √(ρ_a/ρ_f) √(Δp/(Δp − ρ_f g h))."""
    lift, flow = 12e-3, 4e-3
    jet = Jet(0.28e-6, 0.72, held_back(PETROL_DENSITY, lift))
    drawn = depression(flow, VENTURI, ROOM.density)
    book = VENTURI / (0.72 * 0.28e-6) * math.sqrt(ROOM.density / PETROL_DENSITY)
    book *= math.sqrt(drawn / (drawn - PETROL_DENSITY * 9.81 * lift))
    assert flow / fuel_flow(Carburettor(VENTURI, jet), flow, PETROL_DENSITY, ROOM) == (
        pytest.approx(book, rel=1e-12)
    )


def test_no_fuel_flows_until_its_lift_is_overcome_and_the_mixture_then_grows_richer() -> None:
    jet = Jet(0.28e-6, 0.72, held_back(PETROL_DENSITY, 10e-3))
    made = Carburettor(VENTURI, jet)
    first = starts_at(VENTURI, jet, ROOM.density)
    assert depression(first, VENTURI, ROOM.density) == pytest.approx(745 * 9.81 * 0.01, rel=1e-12)
    assert fuel_flow(made, 0.999 * first, PETROL_DENSITY, ROOM) == 0.0
    ratios = [
        fuel_flow(made, f * first, PETROL_DENSITY, ROOM) / (f * first) for f in (1.01, 1.3, 2, 5)
    ]
    assert ratios == sorted(ratios)
    # at five times the flow all but 2 % of what a jet without lift gives: √(1 − 1/25)
    free = Carburettor(VENTURI, Jet(0.28e-6, 0.72, 0.0))
    share = ratios[-1] / (fuel_flow(free, 5 * first, PETROL_DENSITY, ROOM) / (5 * first))
    assert share == pytest.approx(math.sqrt(1 - 1 / 25), rel=1e-12)


def test_skin_of_the_fuel_holds_it_back() -> None:
    """Laplace: 4σ/d over a round mouth; 56 Pa of petrol in 1.5 mm."""
    skin = held_back(745.0, 10e-3, 0.021, 1.5e-3) - held_back(745.0, 10e-3)
    assert skin == pytest.approx(56.0, rel=1e-12)


def test_a_jet_is_sized_back_from_what_it_gives() -> None:
    jet = Jet(1.0, 0.7, 90.0)
    area = jet_area(VENTURI, jet, 4e-3, 0.08, (PETROL_DENSITY, ROOM.density))
    made = Carburettor(VENTURI, jet._replace(area=area))
    assert fuel_flow(made, 4e-3, PETROL_DENSITY, ROOM) == pytest.approx(0.08 * 4e-3, rel=1e-12)
    # jets of small engines: 0.3 to 0.8 mm (common practice)
    assert 0.3e-3 < math.sqrt(4 / math.pi * area) < 0.8e-3
    # of a flow in pulses too
    pulsed = jet_area(VENTURI, jet, 1e-3, 0.08, (PETROL_DENSITY, ROOM.density), 0.3)
    made = Carburettor(VENTURI, jet._replace(area=pulsed))
    found = over_pulses(lambda q: fuel_flow(made, q, PETROL_DENSITY, ROOM), 1e-3, 0.3)
    assert found == pytest.approx(0.08 * 1e-3, rel=1e-12)
    with pytest.raises(OutsideValidity):
        jet_area(VENTURI, jet, 0.1e-3, 0.08, (PETROL_DENSITY, ROOM.density))


def test_throttle_holds_back_what_the_nozzle_law_says() -> None:
    for area in (2e-6, 5e-6, 40e-6):
        flow = 0.3e-3
        behind = behind_throttle(flow, area, ROOM)
        back = nozzle_flow.mass_flow(area, 1e5, 293.15, 287.04, 1.4, 1e5 - behind)
        assert back == pytest.approx(flow, rel=1e-4)
    # of little depression it is Bernoulli's
    assert behind_throttle(0.3e-3, 12e-6, ROOM) == pytest.approx(
        depression(0.3e-3, 12e-6, ROOM.density), rel=0.01
    )
    with pytest.raises(OutsideValidity):
        behind_throttle(0.3e-3, 1e-6, ROOM)


def test_a_bled_well_lets_as_much_air_in_as_out() -> None:
    """A_b √Δp_well = A_p √(Δp − Δp_well)."""
    well = bled(20e3, 0.8e-6, 1.3e-6)
    assert 1.3e-6 * math.sqrt(well) == pytest.approx(0.8e-6 * math.sqrt(20e3 - well), rel=1e-12)
    assert bled(20e3, 0.8e-6, 0.0) == 20e3


def test_idle_jet_feeds_where_the_venturi_cannot() -> None:
    """An idling 50 cm³ engine: a tenth of its full flow, its throttle all but shut."""
    main = Jet(0.3e-6, 0.7, 90.0)
    idle = Jet(0.03e-6, 0.6, 220.0)
    made = Carburettor(VENTURI, main, idle, 0.5e-6, 0.9e-6)
    flow = 0.25e-3
    closed = fuel_flow(made, flow, PETROL_DENSITY, ROOM, throttle=1.5e-6)
    by_hand = jet_flow(idle, bled(behind_throttle(flow, 1.5e-6, ROOM), 0.5e-6, 0.9e-6), 745.0)
    assert closed == by_hand > 0.0
    assert fuel_flow(made, flow, PETROL_DENSITY, ROOM) == 0.0
    # wide open the main jet does it: behind the throttle is hardly any depression
    wide = fuel_flow(made, 2.5e-3, PETROL_DENSITY, ROOM, throttle=100e-6)
    alone = fuel_flow(made._replace(idle=None), 2.5e-3, PETROL_DENSITY, ROOM)
    assert wide == pytest.approx(alone, rel=0.02)


def test_choke_draws_fuel_at_cranking_that_the_venturi_alone_does_not() -> None:
    made = Carburettor(VENTURI, Jet(0.3e-6, 0.7, held_back(PETROL_DENSITY, 10e-3, 0.021, 1.5e-3)))
    flow = 0.25e-3  # 50 cm³ cranked at 600 rpm
    steady = fuel_flow(made, flow, PETROL_DENSITY, ROOM)

    def with_choke(choke: float) -> float:
        return over_pulses(
            lambda q: fuel_flow(made, q, PETROL_DENSITY, ROOM, choke=choke), flow, 0.27
        )

    assert steady == 0.0
    open_one, half, shut = with_choke(math.inf), with_choke(30e-6), with_choke(15e-6)
    # only the tips of the pulses draw through an open venturi: leaner than can burn
    assert open_one / flow * 14.6 < 0.8
    # several times the fuel of a warm engine, as cold starts want
    assert 1.0 < half / flow * 14.6 < shut / flow * 14.6
    assert shut / flow * 14.6 > 3.0


def test_pulses_draw_as_the_integral_over_the_cycle() -> None:
    """By SciPy over time; what goes with the flow comes out as of a steady one."""
    jet = Jet(0.3e-6, 0.7, 60.0)

    def drawn(flow: float) -> float:
        return jet_flow(jet, depression(flow, VENTURI, 1.2), 745.0)

    peak = 0.4e-3 * math.pi / (2 * 0.3)
    first = math.asin(starts_at(VENTURI, jet, 1.2) / peak) / math.pi
    whole = quad(lambda x: drawn(peak * math.sin(math.pi * x)), first, 1.0 - first)[0]
    assert over_pulses(drawn, 0.4e-3, 0.3) == pytest.approx(0.3 * whole, rel=2e-3)
    free = jet._replace(held_back=0.0)
    steady = jet_flow(free, depression(0.4e-3, VENTURI, 1.2), 745.0)
    found = over_pulses(lambda q: jet_flow(free, depression(q, VENTURI, 1.2), 745.0), 0.4e-3, 0.3)
    assert found == pytest.approx(steady, rel=1e-12)
    # a flow squared: π²/(8 share) times that of the mean (two hundred points: 1.1e-4 off)
    square = over_pulses(lambda q: q * q, 0.4e-3, 0.3)
    assert square == pytest.approx(0.4e-3**2 * math.pi**2 / (8 * 0.3), rel=2e-4)
    assert over_pulses(drawn, 0.0, 0.3) == 0.0


def test_a_gas_behind_a_zero_governor_keeps_its_mixture() -> None:
    """Fuel over air is (C_o A_o/C_t A_t) √(ρ_g/ρ_a) at any flow."""
    propane = 1.83  # kg/m³ at 20 °C and 1 bar (handbooks)
    made = Carburettor(VENTURI, Jet(4.5e-6, 0.8, 0.0))
    known = 0.8 * 4.5e-6 / VENTURI * math.sqrt(propane / ROOM.density)
    for flow in (0.1e-3, 1e-3, 5e-3):
        found = fuel_flow(made, flow, propane, ROOM) / flow
        assert found == pytest.approx(known, rel=1e-12)
    assert 0.8 < known * 15.68 < 1.2
    # a governor that gives 20 Pa too little starves it at cranking, one too much floods it
    lean = fuel_flow(Carburettor(VENTURI, Jet(4.5e-6, 0.8, 20.0)), 0.25e-3, propane, ROOM)
    rich = fuel_flow(Carburettor(VENTURI, Jet(4.5e-6, 0.8, -20.0)), 0.25e-3, propane, ROOM)
    assert lean == 0.0
    assert rich / 0.25e-3 > 1.7 * known


def test_what_no_carburettor_does_is_refused() -> None:
    with pytest.raises(OutsideValidity):
        depression(-1e-3, VENTURI, 1.2)
    with pytest.raises(OutsideValidity):
        over_pulses(lambda q: q, 1e-3, 1.5)
    with pytest.raises(OutsideValidity):
        held_back(745.0, -0.01)
