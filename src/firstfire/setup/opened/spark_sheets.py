"""How each number of a spark is worked out: coil, plug, start angle, points."""

from __future__ import annotations

import math

from firstfire.engine.engine import Engine
from firstfire.formulas import spark_gap
from firstfire.setup.number import Number
from firstfire.setup.opened.sheet import Sheet
from firstfire.setup.spark.advance_table import KEPT_FROM_KICK
from firstfire.setup.spark.chapter import spark_numbers
from firstfire.setup.spark.circuit import GIVES_LEAST
from firstfire.setup.spark.facts import SparkFacts
from firstfire.setup.spark.plug import WORN, Jump
from firstfire.setup.spark.sparking import spark

Told = tuple[Number, Sheet]
_COIL = "rise of a coil's current and its energy; capacities of both sides: any text on circuits"
_PLUG = "E. Kuffel and others, High Voltage Engineering, 2nd ed., uniform fields (from memory)"
_WIDEST = 2e-3


def spark_sheets(engine: Engine) -> dict[str, Told]:
    """Every number of a spark by its id, with its working."""
    return sheets_of_spark(spark(engine, table=False))


def sheets_of_spark(found: SparkFacts) -> dict[str, Told]:
    """The same of a spark that is known already."""
    numbers = {one.id: one for one in spark_numbers(found)}
    told: dict[str, Told] = {"start_angle": (numbers["start_angle"], _start(found))}
    if "plug_gap" in numbers:
        told["plug_gap"] = numbers["plug_gap"], _gap(found)
    if "points_bounce" in numbers:
        told["points_bounce"] = numbers["points_bounce"], _bounce(found)
    told["full_current"], told["left_on"] = _left_on(found)
    for jump in found.jumps:
        name = jump.name.replace(" ", "-")
        told[f"{name}.gives"], told[f"{name}.wants"] = _gives(found, jump), _wants(found, jump)
    return told


def _sheet(found: SparkFacts) -> Sheet:
    return Sheet(found.engine.values(1))


def _start(found: SparkFacts) -> Sheet:
    sheet = _sheet(found)
    asked = sheet.path("spark.start_angle")
    if math.isfinite(found.kick.strong) and found.cranked.over:
        sheet.put("kicks", "spark that throws it back", found.kick.strong, "rad",
                  "a strong first combustion on a tired starter, followed over its "
                  "top")  # fmt: skip
        sheet.put("kept", "kept from that", KEPT_FROM_KICK, "rad", "common practice", "assumed")
        sheet.found("limit", "earliest to be asked for", "rad", "kicks - kept")
    sheet.found("value", "asked for in the file, before top", "rad", asked)
    return sheet


def _bounce(found: SparkFacts) -> Sheet:
    sheet = _sheet(found)
    force, mass, rise, ramp = (
        sheet.path(f"spark.points.{name}")
        for name in ("spring_force", "arm_mass", "lobe_rise", "lobe_ramp")
    )
    share = 1.0 if found.plain.spark.wasted else 0.5
    sheet.put("share", "turns of the lobe for one of the crank", share, "", "spark.wasted")
    sheet.put("hardest", "of a 3-4-5 lobe", 10.0 / math.sqrt(3.0), "", "10/√3", "assumed")
    sheet.found("lobe", "speed of the lobe then", "rad/s",
                f"{ramp} * sqrt({force} / ({mass} * hardest * {rise}))")  # fmt: skip
    sheet.found("value", "speed of the crank then", "rad/s", "lobe / share")
    return sheet


def _full(sheet: Sheet, supply: str) -> tuple[str, str]:
    """Resistance in series, and the current that a supply comes to."""
    winding, resistor = (sheet.path(f"spark.coil.{name}") for name in ("resistance", "resistor"))
    sheet.found("in_series", "winding and resistor", "ohm", f"{winding} + {resistor}")
    drop = sheet.path("spark.coil.driver_drop")
    return "in_series", sheet.found("most", "current that never ends rising", "A",
                                    f"({supply} - {drop}) / in_series")  # fmt: skip


def _left_on(found: SparkFacts) -> tuple[Told, Told]:
    """Current and heat of a coil that is left on."""
    coil, first, second = found.circuit, _sheet(found), _sheet(found)
    for sheet in (first, second):
        _full(sheet, sheet.path("spark.coil.voltage"))
    first.found("value", "current of a coil left on", "A", "most")
    second.found("value", "heat of its winding then", "W", "most**2 * spark.coil.resistance")
    return (
        (Number("full_current", "current of a coil that is left on", coil.full_current, "A",
                why="voltage less what its driver keeps, over winding and resistor",
                source=_COIL), first),
        (Number("left_on", "heat of its winding if it is left on", coil.heat_left_on, "W",
                why="the square of that current times the winding's resistance", source=_COIL),
         second),
    )  # fmt: skip


def _gives(found: SparkFacts, jump: Jump) -> Told:
    number = Number(
        f"{jump.name}.gives", f"voltage that the coil lifts its plug to, {jump.name}", jump.gives,
        "V", None if jump.why_not else jump.wants_most / GIVES_LEAST,
        "" if jump.why_not else "at least",
        "what the coil has taken up by then, in the capacities of both sides; the limit is what a "
        f"worn plug asks for of such a coil that gives {GIVES_LEAST:g} of it", _COIL,
    )  # fmt: skip
    sheet, coil = _sheet(found), found.circuit
    by = "of its battery, as far as the starter leaves it" if jump.name == "cranked" else "battery"
    sheet.put("supply", "voltage left for the coil", jump.supply, "V", by)
    sheet.put("charging", "how long it is charged", jump.charging, "s",
              "dwell or shut points at that speed")  # fmt: skip
    resistance, most = _full(sheet, "supply")
    inductance = sheet.path("spark.coil.inductance")
    sheet.found("current", "current when it is broken", "A",
                f"{most} * (1 - exp(-charging * {resistance} / {inductance}))")  # fmt: skip
    sheet.found("energy", "energy in the coil", "J", f"{inductance} / 2 * current**2")
    _lifted(found, sheet, math.isfinite(coil.clamp))
    return number, sheet


def _lifted(found: SparkFacts, sheet: Sheet, clamped: bool) -> None:
    """The voltage that energy comes to, and what the driver lets through of it."""
    turns, own = sheet.path("spark.coil.turns_ratio"), sheet.path("spark.coil.capacitance")
    passed = sheet.path("spark.coil.passed_on")
    both = own
    if found.circuit.condenser > 0.0:
        both = f"({own} + {sheet.path('spark.points.condenser')} / {turns}**2)"
    lifted = f"sqrt(2 * {passed} * energy / {both})"
    if clamped:
        lifted = f"min({lifted}, {sheet.path('spark.coil.driver_clamp')} * {turns})"
    elif found.circuit.condenser <= 0.0:
        del sheet.paths["spark.coil.turns_ratio"]
    sheet.found("value", "voltage at the plug", "V", lifted)


def _gas(sheet: Sheet, jump: Jump) -> None:
    sheet.put("pressure", "pressure in the gap", jump.gas.pressure, "Pa", "the cycle run")
    sheet.put("warm", "absolute temperature there, K", jump.gas.temperature, "", "the cycle run")
    sheet.put("thick", "density of air over that at 1 atm and 20 °C", 293.15 / 101_325.0, "",
              "293.15 K over 101325 Pa", "assumed")  # fmt: skip


def _other(jump: Jump) -> float:
    """What the second plug of a pair asks for, V."""
    gap, gas = jump.gap, jump.gas
    return jump.wants - spark_gap.breakdown_voltage(gap, gas.pressure, gas.temperature)


def _wants(found: SparkFacts, jump: Jump) -> Told:
    number = Number(
        f"{jump.name}.wants", f"voltage that its plug asks for, {jump.name}",
        math.nan if jump.why_not else jump.wants, "V",
        why=jump.why_not or "24.22 kV for each cm of gap at normal density, and 6.08 kV for its "
        "root; ±30 % for sharp and for worn electrodes", source=_PLUG,
    )  # fmt: skip
    sheet = _sheet(found)
    if jump.why_not:
        return number, sheet
    sheet.put("gap", "plug's gap", jump.gap, "m", "plug.gap, the widest of its cylinders")
    _gas(sheet, jump)
    sheet.found("reduced", "gap in cm at normal density", "", "100 * gap * pressure / warm * thick")
    more = ""
    if (other := _other(jump)) > 1.0:
        more = f" + {sheet.put('other', 'asked for by its pair', other, 'V', 'the same law')}"
    sheet.found("value", "voltage asked for", "V",
                f"24220 * reduced + 6080 * sqrt(reduced){more}")  # fmt: skip
    return number, sheet


def _gap(found: SparkFacts) -> Sheet:
    """The widest gap that surely jumps at the hardest moment, by the law turned round."""
    sheet = _sheet(found)
    known = [one for one in found.jumps if one.gap_that_would is not None]
    jump = min(known, key=lambda one: one.gap_that_would or 0.0)
    if abs(_other(jump)) > 1.0:
        sheet.put("limit", "widest that both plugs of the pair surely jump",
                  jump.gap_that_would or 0.0, "m", "halving the law until both fit")  # fmt: skip
        sheet.found("room", "by which it is narrower", "m", f"limit - {sheet.path('plug.gap')}")
        sheet.found("value", "gap in the file", "m", "limit - room")
        return sheet
    sheet.put("least", "that the weakest such coil gives", jump.gives_least, "V",
              f"{GIVES_LEAST:g} of spark.{jump.name.replace(' ', '-')}.gives")  # fmt: skip
    sheet.put("worn", "times as much for worn electrodes", WORN, "", "±30 %", "assumed")
    _gas(sheet, jump)
    sheet.found("root", "root of the gap in bar cm at 20 °C", "",
                "(sqrt(6720**2 + 4 * 24360 * least / worn) - 6720) / (2 * 24360)")  # fmt: skip
    sheet.put("widest", "widest that is asked about", _WIDEST, "m", "plugs", "assumed")
    sheet.put("cm", "one bar cm at 1 atm", 0.01 / 1.01325, "m", "1.01325 bar", "assumed")
    sheet.found("limit", "widest that surely jumps", "m",
                "min(root**2 * cm / (pressure / warm * thick), widest)")  # fmt: skip
    sheet.found("value", "gap in the file", "m", sheet.path("plug.gap"))
    return sheet
