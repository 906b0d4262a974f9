"""A carburettor or a gas mixer: venturi, jets or orifice, and the mixture that they give."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from firstfire.engine.engine import Engine
from firstfire.engine.quantity import write_quantity
from firstfire.engine.resolve import PlainEngine
from firstfire.errors import OutsideValidity, Problem
from firstfire.formulas import carburettor as law
from firstfire.formulas import nozzle_flow
from firstfire.runs.breathed import fuel_share
from firstfire.runs.fuel_path import OPEN
from firstfire.setup.fuel.drawn import Drawn, Points, Stop
from firstfire.setup.fuel.liquid import Liquid
from firstfire.setup.fuel.nearest import nearest_bore

Floats = NDArray[np.float64]

VENTURI, JET = 0.85, 0.7
"""Discharge coefficients (Heywood 1988, section 7.2, from memory)."""
_MOUTH, _TENSION = 1.5e-3, 22e-3
"""Mouth of the nozzle, m, and surface tension of petrol, N/m. Common practice, no source."""
SURELY = 2.0
"""Peak of the air over that from which a venturi draws, with which it surely does. Common
practice, no source."""
_CHOKED = 25e3
"""Depression at a throat's peak that costs full power dear, Pa. Common practice, no source."""
_GAS, _GAMMA = 287.04, 1.4
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


def throats(plain: PlainEngine) -> int:
    """How many throttles, and with them carburettors, an engine has."""
    return len(plain.cylinders) if plain.intake.kind == "separate" else 1


def around(plain: PlainEngine) -> law.Air:
    """Air before it."""
    return law.Air(plain.surroundings.air_temperature, plain.surroundings.air_pressure)


def held_back(plain: PlainEngine, fuel: Liquid) -> float:
    """Depression that just draws no fuel, Pa."""
    if fuel.gas:
        return plain.gas_mixer.held_back
    return law.held_back(fuel.density, plain.carburettor.lift, _TENSION, _MOUTH)


def _jet(plain: PlainEngine, fuel: Liquid, diameter: float) -> law.Jet:
    return law.Jet(math.pi / 4 * diameter**2, JET, held_back(plain, fuel))


def _area(plain: PlainEngine, fuel: Liquid) -> float:
    made = plain.gas_mixer if fuel.gas else plain.carburettor
    return VENTURI * math.pi / 4 * made.venturi_diameter**2


def _share(plain: PlainEngine) -> float:
    """Of the cycle in which air flows through one throat."""
    return min(OPEN * len(plain.cylinders) / throats(plain), 1.0)


def _peak(plain: PlainEngine, point: Drawn) -> float:
    """Most air that flows through one throat, kg/s: half a sine while inlets are open."""
    if point.kind == "idle":
        return float(_through(point)[1].max())
    return point.at.air_flow / throats(plain) * math.pi / (2.0 * _share(plain))


def _wanted(plain: PlainEngine, fuel: Liquid, point: Drawn) -> float | None:
    """Diameter of a jet that is right at a point, m; None where none is."""
    try:
        whole = _main_fuel(plain, fuel, point, math.sqrt(4.0 / math.pi))
    except OutsideValidity:
        return None
    lacking = fuel_share(plain) * point.at.air_flow / throats(plain)
    return math.sqrt(4.0 / math.pi * lacking / whole) if whole > 0.0 else None


def _main_fuel(plain: PlainEngine, fuel: Liquid, point: Drawn, jet: float) -> float:
    """That the venturi draws through one throat, kg/s; the air is compressed on its way."""
    area, bore, air = _area(plain, fuel), _jet(plain, fuel, jet), around(plain)

    def drawn(flow: float) -> float:
        return law.jet_flow(bore, law.behind_throttle(flow, area, air), fuel.density)

    if point.kind == "idle":
        return _along(point, drawn)
    return law.over_pulses(drawn, point.at.air_flow / throats(plain), _share(plain))


def _along(point: Drawn, drawn: Callable[[float], float]) -> float:
    """Mean of what the run's own flow draws, which a throttle nearly shut has made even, kg/s."""
    time, flow = _through(point)
    fuel = [drawn(max(float(one), 0.0)) for one in flow]
    return float(np.trapezoid(fuel, time) / (time[-1] - time[0]))


def _through(point: Drawn) -> tuple[Floats, Floats]:
    """Air through the first throttle over a cycle, s and kg/s."""
    cycle = point.at.point.fired.cycle
    place = next(n for n, name in enumerate(cycle.passages) if name.startswith("throttle"))
    return cycle.curves.time, cycle.curves.flow[:, place]


def _behind(plain: PlainEngine, point: Drawn) -> float:
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
    lacking = found.idle.at.fuel_flow / throats(plain) - _main_fuel(plain, fuel, found.idle, jet)
    whole = law.jet_flow(
        law.Jet(1.0, JET, held_back(plain, fuel)), _behind(plain, found.idle), fuel.density
    )
    if lacking <= 0.0 or whole <= 0.0:
        return None
    return math.sqrt(4.0 / math.pi * lacking / whole)


def _drawing(
    plain: PlainEngine, fuel: Liquid, point: Drawn, jet: float | None, idle: float | None
) -> Drawing:
    air, area, peak = around(plain), _area(plain, fuel), _peak(plain, point)
    back = held_back(plain, fuel)
    depression = _depression(peak, area, air)
    starts = law.starts_at(area, law.Jet(1.0, JET, back), air.density)
    mixture = None
    if jet is not None and math.isfinite(depression):
        given = _main_fuel(plain, fuel, point, jet)
        if idle is not None and point.kind == "idle":
            given += law.jet_flow(_jet(plain, fuel, idle), _behind(plain, point), fuel.density)
        share = given / (point.at.air_flow / throats(plain))
        mixture = plain.intake.equivalence_ratio * share / fuel_share(plain)
    return Drawing(
        point, peak / (air.density * area / VENTURI), depression,
        peak / starts if starts > 0.0 else math.inf, _wanted(plain, fuel, point), mixture,
    )  # fmt: skip


def _depression(flow: float, area: float, air: law.Air) -> float:
    """Depression in a throat, Pa; infinite where so much does not go through."""
    try:
        return law.behind_throttle(flow, area, air)
    except OutsideValidity:
        return math.inf


def venturis(
    plain: PlainEngine, fuel: Liquid, full: tuple[Drawn, ...]
) -> tuple[float, float, float]:
    """The venturi, and the narrowest and widest that work, m.

    Full power's peak may cost 25 kPa; the slowest full throttle's is to be twice what draws.
    """
    air = around(plain)

    def bore(flow: float, drawn: float) -> float:
        each = nozzle_flow.mass_flow(
            1.0, air.pressure, air.temperature, _GAS, _GAMMA, air.pressure - drawn
        )
        return math.sqrt(flow / each / VENTURI * 4.0 / math.pi)

    most = max(_peak(plain, one) for one in full)
    least = min(_peak(plain, one) for one in full)
    back = SURELY**2 * held_back(plain, fuel)
    made = plain.gas_mixer if fuel.gas else plain.carburettor
    wide = bore(least, back) if back > 0.0 else math.inf
    return made.venturi_diameter, bore(most, _CHOKED), wide


def mixer_faults(
    engine: Engine, plain: PlainEngine, fuel: Liquid, facts: MixerFacts, stop: Stop = None
) -> Iterator[Problem]:
    """What doesn't work with this venturi and these jets, each with the nearest that does."""
    path = f"{'gas_mixer' if fuel.gas else 'carburettor'}.venturi_diameter"
    fault = _venturi_fault(facts)
    if fault:
        said = write_quantity(facts.venturi, "length", digits=3)
        nearest = nearest_bore(engine, path, lambda at, full: venturis(at, fuel, full), stop)
        cure = (
            "None of this throttle works: ask for less between use.full_throttle_speeds."
            if nearest is None
            else f'The nearest that works is "{nearest}".'
        )
        yield Problem(path, f'is "{said}": {fault}', cure)
    yield from _jet_faults(plain, fuel, facts)


def _venturi_fault(facts: MixerFacts) -> str:
    """What is wrong with a venturi; "" where nothing is."""
    if facts.venturi < facts.narrowest:
        return "too narrow, it chokes full power"
    if facts.venturi > facts.widest:
        return "so wide that it hardly draws fuel at its slowest full throttle"
    return ""


def _jet_faults(plain: PlainEngine, fuel: Liquid, facts: MixerFacts) -> Iterator[Problem]:
    told = (
        (("gas_mixer.orifice", plain.gas_mixer.orifice, facts.wanted),)
        if fuel.gas
        else (
            ("carburettor.main_jet", plain.carburettor.main_jet, facts.wanted),
            ("carburettor.idle_jet", plain.carburettor.idle_jet, facts.idle_wanted),
        )
    )
    for path, said, wanted in told:
        if said is None or wanted is None:
            continue
        area = (said / wanted) ** 2
        if abs(area - 1.0) > 0.15:
            yield Problem(
                path,
                f'is "{write_quantity(said, "length", digits=3)}": it gives {100 * area:.0f} % of '
                "the fuel wanted there",
                f'The nearest that works is "{_mm(wanted)}".',
            )


def _mm(length: float) -> str:
    return write_quantity(length, "length", digits=3)
