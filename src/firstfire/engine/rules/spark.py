"""Rules for the spark: its coil, its points or sensor, and the wiring."""

from __future__ import annotations

import math

from firstfire.engine.rules.rule import Asked, Rule
from firstfire.engine.rules.stock import to_step
from firstfire.formulas.ignition_coil import stored_energy


def _wasted(ask: Asked) -> bool:
    return bool(ask["layout.kind"] == "parallel_twin" and ask.number("layout.crank_offset") == 0.0)


def _points(ask: Asked) -> bool:
    """Whether breaker points fire, by a lobe that stands still on its shaft."""
    return str(ask["spark.source"]) == "points"


def _start_angle(ask: Asked) -> float:
    if _points(ask) and ask.said("spark.running_angle"):
        return ask.number("spark.running_angle")
    return math.radians(5)


def _coil_on(ask: Asked) -> str:
    """A starter motor's battery, where that is not a drill's."""
    drill = ask.row("starter.kind").texts.get("coupling") == "rigid"
    return "own" if drill or ask["starter.battery_voltage"] is None else "starter_battery"


def _limit(ask: Asked) -> float | None:
    """To a hundred turns a minute; None where breaker points fire."""
    if _points(ask):
        return None
    return to_step(1.25 * max(ask["use.full_throttle_speeds"]), 100 * math.pi / 30)


def _reed(ask: Asked) -> bool:
    return str(ask["spark.sensor.kind"]) == "reed"


def _latency(ask: Asked) -> float:
    if _points(ask):
        return 0.0
    return 0.6e-3 if _reed(ask) else 0.1e-3


RISES_IN = 2e-3
"""Time constant of a small car or moped coil, s: common practice, no source."""
_USUAL_ENERGY = 30e-3
_WINDING, _TURNS = "spark.coil.resistance", "spark.coil.inductance"


def _in_series(ask: Asked) -> float:
    """Winding and series resistor, ohm."""
    return ask.number(_WINDING) + ask.number("spark.coil.resistor")


def _energy(ask: Asked) -> float:
    if not (ask.said(_WINDING) and ask.said(_TURNS)):
        return _USUAL_ENERGY
    volts = ask.number("spark.coil.voltage") - ask.number("spark.coil.driver_drop")
    return stored_energy(ask.number(_TURNS), max(volts, 0.1) / _in_series(ask))


def _resistance(ask: Asked) -> float:
    """As lets the coil's energy in: within the usual time, or with its own inductance."""
    energy, resistor = ask.number("spark.coil_energy"), ask.number("spark.coil.resistor")
    volts = max(ask.number("spark.coil.voltage") - ask.number("spark.coil.driver_drop"), 0.1)
    if ask.said(_TURNS):
        whole = volts * math.sqrt(0.5 * ask.number(_TURNS) / energy)
    else:
        whole = 0.5 * RISES_IN * volts**2 / energy
    return max(whole - resistor, 0.1)


def _inductance(ask: Asked) -> float:
    volts = max(ask.number("spark.coil.voltage") - ask.number("spark.coil.driver_drop"), 0.1)
    return 2.0 * ask.number("spark.coil_energy") * (_in_series(ask) / volts) ** 2


def _dwell(ask: Asked) -> float:
    """To a tenth of a millisecond; four time constants hold 96 % of the energy."""
    return max(to_step(4.0 * ask.number(_TURNS) / _in_series(ask), 1e-4), 1e-4)


def _voltage(ask: Asked) -> float:
    own = ask["spark.coil_on"] == "own" or ask["starter.battery_voltage"] is None
    return 12.0 if own else ask.number("starter.battery_voltage")


RULES = (
    Rule("spark.source", "sensor", "a Hall sensor doesn't wear"),
    Rule("spark.timed_by", "edge", "an edge holds its angle while the shaft slows"),
    Rule("spark.latency", _latency,
         "a microcontroller's interrupt and a transistor, a reed's tongue besides; points break "
         "the coil's current themselves"),
    Rule("spark.start_angle", _start_angle,
         "late, so that it doesn't kick back; of points the one that was said"),
    Rule("spark.running_angle",
         lambda ask: ask.number("spark.start_angle") if _points(ask) else math.radians(20),
         "usual for small engines at 2000 to 4000 rpm; points have one angle at every speed"),
    Rule("spark.wasted", _wasted, "one coil fires both plugs where pistons move together"),
    Rule("spark.coil_energy", _energy, "a small car or moped coil; where winding and inductance "
         "are said, what they hold", "10 to 100 mJ, J. B. Heywood, "
         "Internal Combustion Engine Fundamentals, 1988, section 9.5, from memory"),
    Rule("spark.coil_on", _coil_on, "an electric starter's battery feeds all; a drill has its own"),
    Rule("spark.limit_speed", _limit, "a quarter above full throttle: a controller has it for "
         "nothing, and springs and rods are sized for it; points have none"),
    Rule("spark.limited_by", lambda ask: "nothing" if ask["spark.limit_speed"] is None else "spark",
         "no limiter was said"),
    Rule("spark.coil.voltage", _voltage, "a small lead battery, or the one that turns it over"),
    Rule("spark.coil.resistance", _resistance, "so that full current holds its energy, and rises "
         "in 2 ms", "coils of mopeds and small cars have 3 to 5 ohms; common practice, no source"),
    Rule("spark.coil.inductance", _inductance, "so that full current holds its energy",
         "energy of a coil, L I²/2"),
    Rule("spark.coil.resistor", "0 ohm", "nothing was said of one"),
    Rule("spark.coil.turns_ratio", 80.0, "60 to 120 are wound"),
    Rule("spark.coil.capacitance", "100 pF", "winding 50 to 80 pF, lead and plug the rest"),
    Rule("spark.coil.passed_on", 0.6, "iron, leakage and the break itself keep the rest"),
    Rule("spark.coil.mass", "300 g", "a moped's"),
    Rule("spark.coil.dwell", _dwell, "four time constants: 96 % of what full current holds"),
    Rule("spark.coil.driver_drop", lambda ask: 0.0 if _points(ask) else 1.5,
         "an ignition transistor keeps 1 to 2 V; points none"),
    Rule("spark.coil.driver_clamp", lambda ask: None if _points(ask) else 400.0,
         "ignition transistors clamp at 350 to 450 V; points have only their condenser"),
    Rule("spark.points.shut_angle", "110 deg", "shut for less than a third of the crank's turn"),
    Rule("spark.points.gap", "0.35 mm", "small engines have 0.3 to 0.45 mm"),
    Rule("spark.points.lobe_rise", lambda ask: ask.number("spark.points.gap") + 0.15e-3,
         "0.15 mm of clearance: the points open where the lobe is steep, and not with play"),
    Rule("spark.points.lobe_ramp", "30 deg", "gentle enough for its arm to follow"),
    Rule("spark.points.arm_mass", "3 g", "a stamped arm of some 8 g, turning about its end"),
    Rule("spark.points.spring_force", "6 N", "400 to 600 g at the contacts"),
    Rule("spark.points.condenser", "0.22 uF", "0.18 to 0.25 uF serve 12 V coils"),
    Rule("spark.sensor.kind", "hall", "it doesn't bounce"),
    Rule("spark.sensor.tooth", "20 deg", "wide enough to see, narrow enough to fire from"),
    Rule("spark.sensor.ahead", "20 deg", "a controller counts from there to the spark"),
    Rule("spark.sensor.radius", "26 mm", "of a wheel that a hand can file"),
    Rule("spark.sensor.play", "0.05 mm", "a printed plate and a shaft's clearance"),
    Rule("spark.sensor.scatter", lambda ask: 0.1e-3 if _reed(ask) else 0.01e-3,
         "a Hall switch within microseconds, with its interrupt ten; a reed's tongue a tenth of a "
         "millisecond"),
    Rule("spark.sensor.blanked", "1 ms", "a reed bounces half of that, and a spark disturbs"),
    Rule("wiring.length", "1 m", "the battery stands beside the bench"),
    Rule("wiring.controller_current", "0.1 A", "a microcontroller board with its regulator"),
    Rule("wiring.injector_resistance", "12 ohm", "small port injectors have 10 to 16 ohms"),
    Rule("wiring.pump_current", lambda ask: 2.0 if ask["intake.mixture_by"] == "injector" else 0.0,
         "an injector wants pressure; a carburettor's tank stands above it"),
)  # fmt: skip
