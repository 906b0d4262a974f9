"""Rules for intake, exhaust, starter, surroundings, use and doubt."""

from __future__ import annotations

import math

from firstfire.engine.rules.cylinder import swept
from firstfire.engine.rules.rule import Asked, Rule
from firstfire.engine.rules.stock import to_step


def _throttle(ask: Asked) -> float:
    """0.7 mm × √(litres × rpm): what small utility engines have."""
    litres = 1e3 * swept(ask)
    rpm = max(ask["use.full_throttle_speeds"]) * 30 / math.pi
    return to_step(0.7e-3 * math.sqrt(litres * rpm), 0.5e-3)


def _intake_kind(ask: Asked) -> str:
    return "single" if ask["layout.kind"] == "single" else "y"


def _plenum(ask: Asked) -> float:
    """The carburettor's own throat, or a Y's crotch; a real plenum is about one swept volume."""
    return (1.0 if ask["intake.kind"] == "plenum" else 0.15) * swept(ask)


def _stall_torque(ask: Asked) -> float:
    """The row's, or for a rope what its pull gives on its drum."""
    force, drum = ask["starter.pull_force"], ask["starter.drum_diameter"]
    if force is not None and drum is not None:
        return float(force) * float(drum) / 2
    return float(ask.row("starter.kind").si("stall_torque"))


def _no_load_speed(ask: Asked) -> float:
    """The row's; a rope's arm is as fast on any drum."""
    row, drum = ask.row("starter.kind"), ask["starter.drum_diameter"]
    speed = float(row.si("no_load_speed"))
    if drum is None or "drum_diameter" not in row.data:
        return speed
    return speed * float(row.si("drum_diameter")) / float(drum)


def _gas(ask: Asked) -> bool:
    """Whether the fuel is taken as a gas."""
    row = ask.row("intake.fuel")
    return row is not None and row.texts.get("state") == "gas"


_HALVES = 2e-6 / (88.36e-6 * 400 * math.pi / 30)
"""Area that halves what a gauge shows, over swept volume and cranking speed, m² s/m³: 2 mm² of a
cylinder of 50 by 45 mm cranked at 400 rpm leave 5.2 of 12.4 bar absolute (reckoned with SciPy, no
heat lost). Only area over volume and speed counts."""


def _hole(ask: Asked) -> float:
    """To a tenth of a millimetre, with the 0.7 that a hole passes of what its area would."""
    area = _HALVES * swept(ask) * ask.number("use.cranking_speed") / 0.7
    return min(max(to_step(math.sqrt(4 / math.pi * area), 0.1e-3), 0.5e-3), 6e-3)


RULES = (
    Rule("intake.kind", _intake_kind, "one runner; twins share a Y"),
    Rule("intake.plenum_volume", _plenum, "the carburettor's throat; a plenum one swept volume"),
    Rule("intake.throttle_diameter", _throttle, "0.7 mm × √(litres × rpm)",
         "carburettor makers' rule, constant as in small utility engines; from memory"),
    Rule("intake.throttle_opening", 1.0, "wide open"),
    Rule("intake.material", lambda ask: str(ask["printing.material"]), "as most parts"),
    Rule("intake.wall", "3 mm", "usual of a printed pipe"),
    Rule("intake.suction", "0.7 bar", "behind a shut throttle; before it some hundredths"),
    Rule("intake.air_cleaner", "none", "nothing was said of one"),
    Rule("intake.air_cleaner_loss",
         lambda ask: {"none": 0.0, "foam": 60.0, "paper": 150.0, "gauze": 30.0}[
             str(ask["intake.air_cleaner"])
         ], "small, clean and dry"),
    Rule("intake.mixture_by", lambda ask: "gas_mixer" if _gas(ask) else "carburettor",
         "as the fuel asks for"),
    Rule("intake.fuel", "petrol", "what is at hand"),
    Rule("intake.equivalence_ratio", lambda ask: 1.0 if _gas(ask) else 1.1,
         "a little rich burns fastest and starts best; gas mixers run just enough"),
    Rule("runner.length", "40 mm", "carburettor close to the head"),
    Rule("runner.diameter", lambda ask: ask.number("valves.inlet.throat_diameter") * 0.95,
         "a little less than the throat"),
    Rule("stub.length", "60 mm", "a short pipe"),
    Rule("stub.diameter", lambda ask: ask.number("valves.exhaust.throat_diameter"), "the throat's"),
    Rule("stub.silencer", False, "a short open pipe"),
    Rule("starter.kind", "cordless_low", "at hand, strong and slow"),
    Rule("starter.no_load_speed", _no_load_speed, "as its catalog row says; an arm pulls a rope as "
         "fast on any drum", "row of the starter in the catalog"),
    Rule("starter.stall_torque", _stall_torque, "as its catalog row says; a rope's is its pull on "
         "half its drum", "row of the starter in the catalog"),
    Rule("starter.ratio", 1.0, "drill on the crank"),
    Rule("starter.coupling", "one_way", "a rigid bit hides whether it runs, and kicks the wrist"),
    Rule("starter.decompression", False, "nothing was said of one"),
    Rule("starter.decompression_diameter", _hole, "leaves about half of the compression at "
         "cranking speed; real releases have 1 to 3 mm"),
    Rule("starter.decompression_until", lambda ask: 0.7 * ask.number("use.cranking_speed"),
         "let go by hand once it turns nearly as fast as it will"),
    Rule("starter.decompression_shuts", "0 deg", "a valve held open by hand leaks all along"),
    Rule("surroundings.air_temperature", "20 °C", "a workshop"),
    Rule("surroundings.air_pressure", "1.013 bar", "sea level"),
    Rule("surroundings.humidity", 0.5, "a workshop"),
    Rule("surroundings.cooling", "still_air", "no fan was said"),
    Rule("surroundings.air_speed",
         lambda ask: 4.0 if ask["surroundings.cooling"] == "fan" else 0.0, "a desk fan close by"),
    Rule("surroundings.water_temperature", "80 °C", "an open water jacket"),
    Rule("use.full_throttle_speeds", ["2000 rpm", "4000 rpm"], "where such engines run"),
    Rule("use.cranking_speed",
         lambda ask: min(0.8 * ask.number("starter.no_load_speed") * ask.number("starter.ratio"),
                         2000 * math.pi / 30),
         "a starter under load turns at about 0.8 of its idle speed"),
    Rule("use.stood", "1 min", "turned by hand to just past a firing top, where a start begins"),
    Rule("use.idle_speed", "1500 rpm", "small engines idle at 1400 to 1850 rpm",
         "owner's manuals of small engines"),
    *(Rule(f"doubt.{name}", 1.0, "centre; the spread is what published correlations differ by")
      for name in ("wall_heat", "burn_duration", "combustion_loss", "flow", "outside_cooling",
                   "port_film", "contact", "softening", "nut_factor", "press_friction",
                   "strength_bias", "strength_scatter", "friction.ring", "friction.skirt",
                   "friction.bearings", "friction.valve_gear", "friction.belt",
                   "friction.stuck")),
    Rule("doubt.burn_phase", "0 deg", "centre"),
)  # fmt: skip
