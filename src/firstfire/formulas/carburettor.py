"""A carburettor and a gas mixer: fuel drawn through a jet by the depression of a venturi.

Air and fuel are taken as incompressible; what holds the fuel back (its lift to the nozzle, the skin
of its surface, a governor) must be overcome before any flows, so a mixture grows richer with the
flow. The same law serves a gas behind a zero governor. Idle fuel is drawn by the depression behind
the throttle, thinned by an air bleed. A choke before the venturi draws on both.

References
----------
J. B. Heywood, *Internal Combustion Engine Fundamentals*, McGraw-Hill 1988, section 7.2: Eqs. 7.3
to 7.7 without their compressibility Φ, and idle system, choke (from memory).
"""

from __future__ import annotations

import math
from collections.abc import Callable
from typing import NamedTuple

from firstfire.formulas import nozzle_flow
from firstfire.formulas.fuel_mix import AIR_MOLAR_MASS
from firstfire.formulas.validity import require_not_negative, require_positive, require_within

GRAVITY = 9.81
"""m/s²."""
_GAS, _GAMMA = 8.314462618, 1.4
_MOST = 10e3
_POINTS = 200


class Jet(NamedTuple):
    """A bore that fuel is drawn through.

    Attributes
    ----------
    area
        m².
    discharge
        Discharge coefficient: 0.6 to 0.8 of small jets (Heywood, figure 7-4).
    held_back
        Depression that just does not draw fuel, Pa; less than zero where a governor gives gas
        above the air's pressure.
    """

    area: float
    discharge: float
    held_back: float


class Carburettor(NamedTuple):
    """What a carburettor, or a gas mixer without an idle jet, is made of.

    Attributes
    ----------
    venturi
        Area of the throat times its discharge coefficient (about 0.85), m².
    main
        The main jet.
    idle
        The idle jet, or None.
    idle_port, idle_bleed
        Effective areas of the port behind the throttle and of the air bleed of the idle jet, m².
    """

    venturi: float
    main: Jet
    idle: Jet | None = None
    idle_port: float = 0.5e-6
    idle_bleed: float = 0.5e-6


class Air(NamedTuple):
    """Air before the carburettor: temperature, K, and pressure, Pa."""

    temperature: float
    pressure: float

    @property
    def density(self) -> float:
        """Of dry air, kg/m³."""
        return self.pressure * AIR_MOLAR_MASS / (_GAS * self.temperature)


def held_back(
    density: float, lift: float, surface_tension: float = 0.0, nozzle: float = 1e-3
) -> float:
    """Depression that just does not draw fuel, Pa: ``ρ g h + 4σ/d``.

    Parameters
    ----------
    density
        Of the fuel, kg/m³.
    lift
        Of the nozzle over the float's level, m; about 10 mm.
    surface_tension, nozzle
        Of the fuel, N/m, and diameter of the nozzle's mouth, m.

    Examples
    --------
    >>> round(held_back(745.0, 10e-3), 1), round(held_back(745.0, 10e-3, 0.021, 1.5e-3), 1)
    (73.1, 129.1)
    """
    require_positive(density=density, nozzle=nozzle)
    require_not_negative(lift=lift, surface_tension=surface_tension)
    return density * GRAVITY * lift + 4.0 * surface_tension / nozzle


def depression(air_flow: float, area: float, density: float) -> float:
    """Depression in a throat, Pa: ``ṁ²/(2 ρ (C A)²)``.

    Parameters
    ----------
    air_flow
        kg/s.
    area
        Effective, m².
    density
        Of the air, kg/m³.

    Raises
    ------
    OutsideValidity
        Above 10 kPa, where leaving out compressibility costs 6 % of the flow.

    Examples
    --------
    >>> round(depression(2e-3, 66e-6, 1.2))
    383
    """
    require_not_negative(air_flow=air_flow)
    require_positive(area=area, density=density)
    found = (air_flow / area) ** 2 / (2.0 * density)
    require_within(0.0, _MOST, because="air is compressed from there on", depression=found)
    return found


def jet_flow(jet: Jet, drawn: float, density: float) -> float:
    """Fuel through a jet, kg/s: ``C A √(2 ρ (Δp − Δp_0))``, none until Δp_0 is overcome.

    Parameters
    ----------
    jet
        The jet.
    drawn
        Depression at its nozzle, Pa.
    density
        Of the fuel, kg/m³; of a gas as it stands at the jet.

    Examples
    --------
    >>> round(1e6 * jet_flow(Jet(0.2e-6, 0.7, 73.0), 1000.0, 745.0), 1)
    164.5
    """
    require_positive(density=density)
    over = drawn - jet.held_back
    return jet.discharge * jet.area * math.sqrt(2.0 * density * over) if over > 0.0 else 0.0


def starts_at(venturi: float, jet: Jet, air_density: float) -> float:
    """Steady air flow from which a venturi draws fuel, kg/s.

    Examples
    --------
    >>> round(1e3 * starts_at(66e-6, Jet(0.2e-6, 0.7, 73.0), 1.2), 3)
    0.874
    """
    require_positive(venturi=venturi, air_density=air_density)
    return venturi * math.sqrt(2.0 * air_density * max(jet.held_back, 0.0))


def jet_area(
    venturi: float,
    jet: Jet,
    air_flow: float,
    fuel_air: float,
    densities: tuple[float, float],
    share: float | None = None,
) -> float:
    """Area of a jet that gives a mixture at an air flow, m²: `jet`'s own area does not count.

    Parameters
    ----------
    venturi
        Effective, m².
    jet
        Its discharge coefficient and what holds it back.
    air_flow, fuel_air
        Mean, kg/s, and fuel over air by mass.
    densities
        Of fuel and air, kg/m³.
    share
        Of the cycle that it flows in, of :func:`over_pulses`; None where it flows steadily.

    Raises
    ------
    OutsideValidity
        Where that flow draws no fuel yet.

    Examples
    --------
    >>> round(1e6 * jet_area(66e-6, Jet(1.0, 0.7, 73.0), 5e-3, 0.07, (745.0, 1.2)), 3)
    0.269
    """
    require_positive(fuel_air=fuel_air, air_flow=air_flow)
    whole = jet._replace(area=1.0)

    def drawn(flow: float) -> float:
        return jet_flow(whole, depression(flow, venturi, densities[1]), densities[0])

    fuel = drawn(air_flow) if share is None else over_pulses(drawn, air_flow, share)
    require_positive(fuel_drawn=fuel)
    return fuel_air * air_flow / fuel


def behind_throttle(air_flow: float, area: float, air: Air) -> float:
    """Depression behind a throttle, Pa, at a steady flow.

    Parameters
    ----------
    air_flow
        kg/s.
    area
        Effective, m².
    air
        Before it.

    Raises
    ------
    OutsideValidity
        For more than flows through it choked.

    Examples
    --------
    >>> round(behind_throttle(0.3e-3, 2e-6, Air(293.15, 1e5)) / 1e3, 1)
    10.7
    """
    require_not_negative(air_flow=air_flow)
    require_positive(area=area, pressure=air.pressure, temperature=air.temperature)

    def flow(down: float) -> float:
        up, warm = air.pressure, air.temperature
        return nozzle_flow.mass_flow(area, up, warm, _GAS / AIR_MOLAR_MASS, _GAMMA, down)

    low, high = 0.5283 * air.pressure, air.pressure
    require_within(0.0, flow(low), because="more does not go through", air_flow=air_flow)
    while high - low > 1e-12 * air.pressure:
        middle = 0.5 * (low + high)
        low, high = (middle, high) if flow(middle) > air_flow else (low, middle)
    return air.pressure - 0.5 * (low + high)


def bled(drawn: float, port: float, bleed: float) -> float:
    """Depression left over an idle jet whose well takes air in by a bleed, Pa.

    Air in by the bleed goes out by the port: ``Δp A_port²/(A_port² + A_bleed²)``.

    Parameters
    ----------
    drawn
        Depression at the port, Pa.
    port, bleed
        Effective areas, m².

    Examples
    --------
    >>> bled(10e3, 1e-6, 2e-6)
    2000.0
    """
    require_positive(port=port)
    require_not_negative(bleed=bleed)
    return drawn / (1.0 + (bleed / port) ** 2)


def fuel_flow(
    made: Carburettor,
    air_flow: float,
    fuel_density: float,
    air: Air,
    *,
    throttle: float = math.inf,
    choke: float = math.inf,
) -> float:
    """Fuel that a carburettor gives to a steady flow of air, kg/s.

    Parameters
    ----------
    made
        The carburettor or gas mixer.
    air_flow
        kg/s.
    fuel_density
        kg/m³.
    air
        Before it.
    throttle, choke
        Effective areas that they leave open, m²; infinite where there is none.

    Examples
    --------
    With a choke almost shut a cranked engine draws much, through the open venturi nothing:

    >>> small = Carburettor(66e-6, Jet(0.25e-6, 0.7, 73.0))
    >>> at = Air(293.15, 1e5)
    >>> round(1e6 * fuel_flow(small, 0.8e-3, 745.0, at, choke=15e-6), 1)
    232.6
    >>> fuel_flow(small, 0.8e-3, 745.0, at)
    0.0
    """
    before = 0.0 if math.isinf(choke) else depression(air_flow, choke, air.density)
    after = depression(air_flow, made.venturi, air.density)
    fuel = jet_flow(made.main, before + after, fuel_density)
    if made.idle is not None and not math.isinf(throttle):
        behind = behind_throttle(air_flow, throttle, air) + before
        well = bled(behind, made.idle_port, made.idle_bleed)
        fuel += jet_flow(made.idle, well, fuel_density)
    return fuel


def over_pulses(drawn: Callable[[float], float], air_flow: float, share: float) -> float:
    """Mean of what a flow in pulses draws: half a sine while a valve is open, else none.

    What goes with the flow itself (the square root of its square) comes out as of a steady flow;
    what must first be overcome is overcome by the pulse where the mean would not. What a governor
    above the air's pressure gives while no air flows is not counted.

    Parameters
    ----------
    drawn
        Fuel by flow of air, both kg/s.
    air_flow
        Mean over the cycle, kg/s.
    share
        Of the cycle that it flows in, above 0 to 1; a single cylinder's about 0.3.

    Raises
    ------
    OutsideValidity
        For a share outside of that.

    Examples
    --------
    >>> round(over_pulses(lambda flow: 0.07 * flow, 1e-3, 0.25), 8)
    7e-05
    """
    require_not_negative(air_flow=air_flow)
    require_within(1e-3, 1.0, because="it is a share of the cycle", share=share)
    if air_flow <= 0.0:
        return 0.0
    peak = air_flow * math.pi / (2.0 * share)
    # Equal portions of a pulse's air, so that what goes with the flow comes out exactly.
    portions = ((i + 0.5) / _POINTS for i in range(_POINTS))
    flows = [peak * 2.0 * math.sqrt(one * (1.0 - one)) for one in portions]
    return air_flow * sum(drawn(flow) / flow for flow in flows) / _POINTS
