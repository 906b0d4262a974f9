"""How the numbers of what meters the fuel are worked out: an injector, or a throat and its jets."""

from __future__ import annotations

import math

from firstfire.engine.rules.fuelling import TOLD_DENSITY
from firstfire.runs.breathed import fuel_share
from firstfire.setup.fuel.facts import FuelFacts
from firstfire.setup.fuel.injector import MOST_DUTY, InjectorFacts, Pulse, flow_for
from firstfire.setup.fuel.mixer import MixerFacts, behind_idle, main_fuel
from firstfire.setup.fuel.venturi import (
    CHOKES,
    GAMMA,
    GAS,
    JET,
    SURELY,
    VENTURI,
    held_back,
    peak,
    throats,
)
from firstfire.setup.opened.sheet import Sheet

_RUN = "the cycle run at that point"
_WHOLE = math.sqrt(4.0 / math.pi)
"""Diameter of a jet of 1 m², m."""


class InjectorSheets:
    """Workings of an injector's numbers.

    Parameters
    ----------
    found, facts, sheet
        The engine's fuel, its injector, and where it is written down.
    """

    def __init__(self, found: FuelFacts, facts: InjectorFacts, sheet: Sheet) -> None:
        self.found, self.facts, self.sheet = found, facts, sheet

    def of(self, ident: str) -> None:
        """Write down a number's working: its limit, then what the file has."""
        self.sheet.put("dense", "density of the fuel", self.found.fuel.density, "kg/m^3",
                       "its row", "catalog")  # fmt: skip
        if ident == "flow_for_power":
            self._for_power()
        else:
            self._for_idle()
        self._held_open()

    def _held_open(self) -> None:
        flow, at, over = (self.sheet.path(f"injector.{n}") for n in ("flow", "flow_at", "pressure"))
        self.sheet.put("told", "density of the petrol it is told for", TOLD_DENSITY, "kg/m^3",
                       "common practice", "assumed")  # fmt: skip
        self.sheet.found("value", "held open at its pressure", "m^3/s",
                         f"{flow} * sqrt(told / dense) * sqrt({over} / {at})")  # fmt: skip

    def _there(self, one: Pulse) -> None:
        self.sheet.put("there", "flow held open at the regulator's pressure over that there",
                       self.facts.flow / one.flow, "",
                       "root of both pressures: the intake's suction comes on top")  # fmt: skip

    def _for_power(self) -> None:
        fired = [one for one in self.facts.pulses if one.point.kind != "cranking"]
        shared, scale = self.facts.shared, self.facts.flow
        hard = max(fired, key=lambda one: flow_for(one, shared) * scale / one.flow)
        fuel, sheet = hard.point.at.fuel, self.sheet
        sheet.put("mass", f"fuel of a cycle, {hard.point.name}",
                  math.fsum(fuel) if shared else max(fuel), "kg", _RUN)  # fmt: skip
        sheet.put("cycle", "time of a cycle", hard.point.at.seconds, "s", "two turns")
        sheet.put("dead", "dead time of a pulse", hard.dead_time, "s", "injector.dead_times")
        sheet.put("pulses", "pulses in a cycle", float(len(hard.times) if shared else 1), "",
                  "one for each cylinder that it feeds")  # fmt: skip
        sheet.put("duty", "share of a cycle it may be on", MOST_DUTY, "", "common practice",
                  "assumed")  # fmt: skip
        self._there(hard)
        sheet.found("limit", "least that full power asks for", "m^3/s",
                    "mass / (duty * cycle - pulses * dead) * there / dense")  # fmt: skip

    def _for_idle(self) -> None:
        one = self.facts.idle
        if one is None:
            return
        sheet = self.sheet
        sheet.put("mass", "least fuel of a cycle at idle", min(one.point.at.fuel), "kg", _RUN)
        self._there(one)
        smallest = sheet.path("injector.smallest")
        sheet.found("limit", "most that idle allows", "m^3/s", f"mass / {smallest} * there / dense")


class ThroatSheets:
    """Workings of a venturi's and its jets' numbers.

    Parameters
    ----------
    found, facts, sheet
        The engine's fuel, its carburettor or mixer, and where it is written down.
    """

    def __init__(self, found: FuelFacts, facts: MixerFacts, sheet: Sheet) -> None:
        self.found, self.facts, self.sheet = found, facts, sheet
        self.where = "gas_mixer" if facts.gas else "carburettor"

    def of(self, ident: str) -> None:
        """Write down a number's working."""
        full = [peak(self.found.plain, one) for one in self.found.points.full]
        if ident == "venturi":
            self._throat(max(full), CHOKES, "that costs full power dear")
        elif ident == "venturi_widest":
            back = held_back(self.found.plain, self.found.fuel)
            self._throat(min(full), SURELY**2 * back, "four times what just draws no fuel")
        elif ident == "jet":
            self._jet()
        else:
            self._idle_jet()

    def _throat(self, most: float, drawn: float, why: str) -> None:
        sheet, around = self.sheet, self.found.plain.surroundings
        sheet.put("most", "most air through one throat", most, "kg/s", _RUN)
        sheet.put("drawn", f"depression {why}", drawn, "Pa", "common practice", "assumed")
        air = sheet.path("surroundings.air_pressure")
        sheet.put("kelvin", "air's absolute temperature, K", around.air_temperature, "",
                  "surroundings.air_temperature")  # fmt: skip
        sheet.put("gas", "gas constant of air, J/(kg K)", GAS, "", "handbooks", "assumed")
        sheet.put("gamma", "ratio of its heats", GAMMA, "", "handbooks", "assumed")
        sheet.put("coefficient", "flow of a throat over the ideal", VENTURI, "", "Heywood, from "
                  "memory", "assumed")  # fmt: skip
        sheet.found("left", "pressure left in the throat, of all", "", f"1 - drawn / {air}")
        sheet.found(
            "each", "air through each mm² of an ideal throat", "kg/(s*m^2)",
            f"{air} / sqrt(gas * kelvin) * sqrt(2 * gamma / (gamma - 1) * "
            "(left**(2 / gamma) - left**((gamma + 1) / gamma)))",
        )  # fmt: skip
        sheet.found("limit", "diameter then", "m", "sqrt(4 / pi * most / each / coefficient)")
        sheet.found("value", "venturi in the file", "m",
                    sheet.path(f"{self.where}.venturi_diameter"))  # fmt: skip

    def _jet(self) -> None:
        plain, fuel, point = self.found.plain, self.found.fuel, self.found.points.most
        sheet, throat = self.sheet, throats(plain)
        sheet.put("air", f"air through one throat, {point.name}", point.at.air_flow / throat,
                  "kg/s", _RUN)  # fmt: skip
        sheet.put("mixture", "fuel over air", fuel_share(plain), "",
                  "the fuel's row and intake.equivalence_ratio")  # fmt: skip
        sheet.put("each", "fuel through each mm² of jet", main_fuel(plain, fuel, point, _WHOLE),
                  "kg/(s*m^2)", "the venturi's depression over the pulses of air; Heywood, "
                  "section 7.2")  # fmt: skip
        sheet.found("value", "jet wanted", "m", "sqrt(4 / pi * air * mixture / each)")

    def _idle_jet(self) -> None:
        plain, fuel, idle = self.found.plain, self.found.fuel, self.found.points.idle
        jet, sheet = self.facts.jet, self.sheet
        if idle is None or jet is None:
            return
        sheet.put("wanted", "fuel at idle, one throat", idle.at.fuel_flow / throats(plain), "kg/s",
                  _RUN)  # fmt: skip
        sheet.put("main", "of it by the main jet", main_fuel(plain, fuel, idle, jet), "kg/s",
                  "the venturi's depression over the pulses of air")  # fmt: skip
        sheet.put("behind", "depression over the idle jet", behind_idle(plain, idle), "Pa",
                  "behind the throttle, less what its air bleed takes")  # fmt: skip
        sheet.put("back", "depression that draws none", held_back(plain, fuel), "Pa",
                  "lift and skin of the fuel")  # fmt: skip
        sheet.put("dense", "density of the fuel", fuel.density, "kg/m^3", "its row", "catalog")
        sheet.put("coefficient", "flow of a jet over the ideal", JET, "", "Heywood, from memory",
                  "assumed")  # fmt: skip
        sheet.found("each", "fuel through each mm² of jet", "kg/(s*m^2)",
                    "coefficient * sqrt(2 * dense * (behind - back))")  # fmt: skip
        sheet.found("value", "idle jet wanted", "m", "sqrt(4 / pi * (wanted - main) / each)")
