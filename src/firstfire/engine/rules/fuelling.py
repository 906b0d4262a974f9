"""Rules for injector, carburettor, gas mixer and tank."""

from __future__ import annotations

import math

from firstfire.engine.rules.cylinder import swept
from firstfire.engine.rules.rule import Asked, Rule
from firstfire.engine.rules.stock import to_step

_AIR_DENSITY, _FILLING, _OPEN = 1.2, 0.9, 0.35
"""Air of a workshop, kg/m³, what a cylinder holds of it at best, and the share of a cycle that an
injector is open at full speed. Common practice, no source."""
TOLD_DENSITY = 745.0
"""Of the petrol that an injector's flow is told for, kg/m³."""
NECKED = 0.72
"""Area of a venturi over that of its bore. Common practice, no source."""
_PER_MINUTE = 60e6
"""cm³/min in one m³/s."""
_DEAD = ((8.0, 2.9e-3), (10.0, 1.9e-3), (12.0, 1.3e-3), (14.0, 1.0e-3), (16.0, 0.8e-3))


def _injected(ask: Asked) -> bool:
    return str(ask["intake.mixture_by"]) == "injector"


def _gas(ask: Asked) -> bool:
    row = ask.row("intake.fuel")
    return row is not None and row.texts.get("state") == "gas"


def _feeds(ask: Asked) -> str:
    """Where the pipes meet before the throttle, one injector there serves both."""
    return "all" if ask["intake.kind"] == "y" else "each"


def _flow(ask: Asked) -> float:
    """What fills a cylinder in 0.35 of a cycle at the fastest speed, to 5 cm³/min."""
    row = ask.row("intake.fuel")
    needs = 14.6 if row is None or "air_fuel_ratio" not in row.data else row.si("air_fuel_ratio")
    fuel = swept(ask) * _AIR_DENSITY * _FILLING * ask.number("intake.equivalence_ratio") / needs
    shared = 2.0 if ask["injector.feeds"] == "all" and ask["layout.kind"] != "single" else 1.0
    seconds = _OPEN * 4.0 * math.pi / max(ask["use.full_throttle_speeds"])
    flow = shared * fuel / seconds / TOLD_DENSITY
    over = ask.number("injector.pressure") / ask.number("injector.flow_at")
    return max(to_step(_PER_MINUTE * flow / math.sqrt(over), 5.0), 10.0) / _PER_MINUTE


def _feed(ask: Asked) -> str:
    if _gas(ask):
        return "bottle"
    return "pump" if _injected(ask) else "gravity"


RULES = (
    Rule("injector.feeds", _feeds, "one at the fork of a Y feeds both"),
    Rule("injector.flow_at", "3 bar", "at which flows are usually told"),
    Rule("injector.pressure", "3 bar", "usual of port injection"),
    Rule("injector.regulator", "open_air", "a plain return to the tank"),
    Rule("injector.flow", _flow, "fills a cylinder in 0.35 of a cycle at the fastest speed"),
    Rule("injector.dead_times", lambda _: _DEAD, "small port injectors of 12 to 16 ohm switched "
         "by a plain transistor"),
    Rule("injector.smallest", "0.6 ms", "below it the needle bounces and the flow scatters"),
    Rule("injector.voltage", "12.6 V", "a charged lead battery with no generator"),
    Rule("injector.distance", lambda ask: ask.number("runner.length"), "at the runner's mouth"),
    Rule("injector.ends", lambda ask: "while_inlet_open" if ask["injector.feeds"] == "all"
         else "before_inlet_opens", "fuel lies on the shut valve; of a shared one it goes with "
         "the air of the cylinder that it is for"),
    Rule("carburettor.venturi_diameter",
         lambda ask: math.sqrt(NECKED) * ask.number("intake.throttle_diameter"),
         "0.72 of the throttle's area"),
    Rule("carburettor.lift", "10 mm", "usual of small float bowls"),
    Rule("gas_mixer.venturi_diameter",
         lambda ask: math.sqrt(NECKED) * ask.number("intake.throttle_diameter"),
         "0.72 of the throttle's area"),
    Rule("gas_mixer.held_back", "20 Pa", "a zero governor's spring on a soft diaphragm"),
    Rule("tank.feed", _feed, "as what meters the fuel asks for"),
    Rule("tank.volume", "250 cm^3", "a small model or moped tank"),
    Rule("tank.head", lambda ask: 0.15 if ask["tank.feed"] == "gravity" else 0.0,
         "on a post beside the engine; a pump's stands level with it"),
    Rule("tank.hose_bore", "4 mm", "usual fuel hose of small engines"),
    Rule("tank.hose_length", "400 mm", "a hand's reach away from the hot parts"),
    Rule("tank.valve", False, "nothing was said of one"),
)  # fmt: skip
