"""A carburettor or a gas mixer: venturi, jets or orifice, and the mixture that they give."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass

import numpy as np

from firstfire.engine.resolve import PlainEngine
from firstfire.errors import OutsideValidity
from firstfire.formulas import carburettor as law
from firstfire.runs.breathed import fuel_share
from firstfire.setup.fuel.drawn import Drawn, Points
from firstfire.setup.fuel.liquid import Liquid
from firstfire.setup.fuel.venturi import (
    JET,
    VENTURI,
    around,
    depression,
    held_back,
    main_jet,
    peak,
    share_flowing,
    throat_area,
    throats,
    through,
    venturis,
)

JET_OFF = 0.1
"""How far an area drilled by its diameter may be off, 5-95 %, as a share. Common practice, no
source."""


@dataclass(frozen=True)
class Drawing:
    """A venturi at one point.

    Attributes
    ----------
    point
        What is drawn there.
    speed, depression
        In its throat while most air flows, m/s and Pa.
    pull
        That air over the air from which it draws fuel; infinite where nothing holds it back.
    wanted
        Diameter of the jet or orifice that would be right there, m; None: it draws none or is
        choked.
    mixture
        Fuel over air against just enough that the jets give there; None as before.
    """

    point: Drawn
    speed: float
    depression: float
    pull: float
    wanted: float | None
    mixture: float | None


@dataclass(frozen=True)
class MixerFacts:
    """A carburettor or gas mixer for an engine.

    Attributes
    ----------
    gas, count
        Whether it mixes gas, and how many there are: one for each throttle.
    venturi, narrowest, widest
        Its diameter, and those between which it neither chokes full power nor fails to draw at the
        slowest full throttle, m.
    jet, jet_low, jet_high
        Diameter of the main jet or the orifice, m: as said, else as wanted at the most fuel; and
        its span by what is known.
    wanted
        What it should be, m.
    idle_jet, idle_wanted
        Of the idle jet, m; None where idle isn't reached or a gas mixer has none.
    drawings
        At each point.
    """

    gas: bool
    count: int
    venturi: float
    narrowest: float
    widest: float
    jet: float | None
    jet_low: float | None
    jet_high: float | None
    wanted: float | None
    idle_jet: float | None
    idle_wanted: float | None
    drawings: tuple[Drawing, ...]

    @property
    def at_idle(self) -> Drawing | None:
        """At idle."""
        return next((one for one in self.drawings if one.point.kind == "idle"), None)


def mixer_facts(plain: PlainEngine, fuel: Liquid, found: Points) -> MixerFacts:
    """What this engine asks of its carburettor or mixer, and what that gives."""
    made = plain.gas_mixer if fuel.gas else plain.carburettor
    said = plain.gas_mixer.orifice if fuel.gas else plain.carburettor.main_jet
    wanted = _wanted(plain, fuel, found.most)
    jet = wanted if said is None else said
    idle_wanted = None if fuel.gas else _idle_wanted(plain, fuel, found, jet)
    idle = None if fuel.gas else plain.carburettor.idle_jet or idle_wanted
    drawings = tuple(_drawing(plain, fuel, one, jet, idle) for one in found.all)
    _, narrow, wide = venturis(plain, fuel, found.full)
    span = (None, None) if jet is None else tuple(
        jet * math.sqrt(1.0 + sign * JET_OFF) for sign in (-1.0, 1.0)
    )  # fmt: skip
    return MixerFacts(
        fuel.gas, throats(plain), made.venturi_diameter, narrow, wide, jet, span[0], span[1],
        wanted, idle, idle_wanted, drawings,
    )  # fmt: skip


def _wanted(plain: PlainEngine, fuel: Liquid, point: Drawn) -> float | None:
    """Diameter of a jet that is right at a point, m; None where none is."""
    try:
        whole = main_fuel(plain, fuel, point, math.sqrt(4.0 / math.pi))
    except OutsideValidity:
        return None
    lacking = fuel_share(plain) * point.at.air_flow / throats(plain)
    return math.sqrt(4.0 / math.pi * lacking / whole) if whole > 0.0 else None


def main_fuel(plain: PlainEngine, fuel: Liquid, point: Drawn, jet: float) -> float:
    """That the venturi draws through one throat, kg/s; the air is compressed on its way."""
    area, bore, air = throat_area(plain, fuel), main_jet(plain, fuel, jet), around(plain)

    def drawn(flow: float) -> float:
        return law.jet_flow(bore, law.behind_throttle(flow, area, air), fuel.density)

    if point.kind == "idle":
        return _along(point, drawn)
    return law.over_pulses(drawn, point.at.air_flow / throats(plain), share_flowing(plain))


def _along(point: Drawn, drawn: Callable[[float], float]) -> float:
    """Mean of what the run's own flow draws, which a throttle nearly shut has made even, kg/s."""
    time, flow = through(point)
    fuel = [drawn(max(float(one), 0.0)) for one in flow]
    return float(np.trapezoid(fuel, time) / (time[-1] - time[0]))


def behind_idle(plain: PlainEngine, point: Drawn) -> float:
    """Depression over an idle jet, Pa, whose port lies behind the throttle."""
    intake = sum(point.at.intake) / len(point.at.intake)
    drawn = max(plain.surroundings.air_pressure - intake, 0.0)
    usual = law.Carburettor(1.0, law.Jet(1.0, JET, 0.0))
    return law.bled(drawn, usual.idle_port, usual.idle_bleed)


def _idle_wanted(
    plain: PlainEngine, fuel: Liquid, found: Points, jet: float | None
) -> float | None:
    """Diameter of the idle jet that gives what the venturi doesn't, m."""
    if found.idle is None or jet is None:
        return None
    lacking = found.idle.at.fuel_flow / throats(plain) - main_fuel(plain, fuel, found.idle, jet)
    whole = law.jet_flow(
        law.Jet(1.0, JET, held_back(plain, fuel)), behind_idle(plain, found.idle), fuel.density
    )
    if lacking <= 0.0 or whole <= 0.0:
        return None
    return math.sqrt(4.0 / math.pi * lacking / whole)


def _drawing(
    plain: PlainEngine, fuel: Liquid, point: Drawn, jet: float | None, idle: float | None
) -> Drawing:
    air, area, most = around(plain), throat_area(plain, fuel), peak(plain, point)
    back = held_back(plain, fuel)
    drawn = depression(most, area, air)
    starts = law.starts_at(area, law.Jet(1.0, JET, back), air.density)
    mixture = None
    if jet is not None and math.isfinite(drawn):
        given = main_fuel(plain, fuel, point, jet)
        if idle is not None and point.kind == "idle":
            given += law.jet_flow(
                main_jet(plain, fuel, idle), behind_idle(plain, point), fuel.density
            )
        share = given / (point.at.air_flow / throats(plain))
        mixture = plain.intake.equivalence_ratio * share / fuel_share(plain)
    return Drawing(
        point, most / (air.density * area / VENTURI), drawn,
        most / starts if starts > 0.0 else math.inf, _wanted(plain, fuel, point), mixture,
    )  # fmt: skip
