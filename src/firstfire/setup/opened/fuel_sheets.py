"""How each number of a fuel chapter is worked out: injector, throat and jets, throttle, hose."""

from __future__ import annotations

from firstfire.engine.engine import Engine
from firstfire.formulas import pipe_flow
from firstfire.formulas.carburettor import GRAVITY
from firstfire.setup.fuel import feed
from firstfire.setup.fuel.chapter import fuel_numbers
from firstfire.setup.fuel.facts import FuelFacts
from firstfire.setup.fuel.sheet import fuel_sheet
from firstfire.setup.fuel.venturi import share_flowing, throats
from firstfire.setup.number import Number
from firstfire.setup.opened.fuel_meter_sheets import InjectorSheets, ThroatSheets
from firstfire.setup.opened.sheet import Sheet

Told = tuple[Number, Sheet]
_RUN = "the cycle run at that point"


def fuel_sheets(engine: Engine) -> dict[str, Told]:
    """Every number of an engine's fuel by its id, with its working."""
    return sheets_of_fuel(fuel_sheet(engine))


def sheets_of_fuel(found: FuelFacts) -> dict[str, Told]:
    """The same of fuel that is known already."""
    told: dict[str, Told] = {}
    for number in fuel_numbers(found):
        sheet = Sheet(found.engine.values(1))
        if number.judged:
            _write(found, number, sheet)
        told[number.id] = number, sheet
    if found.injector is not None:
        told |= _pulses(found)
    return told


def _write(found: FuelFacts, number: Number, sheet: Sheet) -> None:
    if number.id == "throttle":
        _throttle(found, sheet)
    elif number.id == "head":
        _head(found, sheet)
    elif number.id == "hose_bore":
        _hose_bore(found, number, sheet)
    elif found.injector is not None:
        InjectorSheets(found, found.injector, sheet).of(number.id)
    elif found.mixer is not None:
        ThroatSheets(found, found.mixer, sheet).of(number.id)


def _pulses(found: FuelFacts) -> dict[str, Told]:
    """Time that an injector is switched on at each point."""
    told: dict[str, Told] = {}
    facts = found.injector
    for one in () if facts is None else facts.pulses:
        sheet = Sheet(found.engine.values(1))
        sheet.put("mass", "fuel for one cycle", one.point.at.fuel[0], "kg", _RUN)
        sheet.put("flow", "held open there", one.flow, "kg/s", "fuel.flow_for_power, as its "
                  "pressure there lets it")  # fmt: skip
        sheet.put("dead", "dead time at its voltage", one.dead_time, "s", "injector.dead_times")
        sheet.found("value", "switched on for", "s", "mass / flow + dead")
        name = one.point.name.replace(", ", "-").replace(" ", "-")
        told[f"{name}.pulse"] = (
            Number("pulse", f"injector switched on, {one.point.name}", one.times[0], "s",
                   why="fuel over what it passes held open, and the time by which it opens later "
                   "than it shuts", source="SAE J1832 (from memory)"), sheet)  # fmt: skip
    return told


def _throttle(found: FuelFacts, sheet: Sheet) -> None:
    plain, around = found.plain, found.plain.surroundings
    air = max(one.at.air_flow for one in found.points.full) / throats(plain)
    dense = around.air_pressure / (287.04 * around.air_temperature)
    sheet.put("air", "most air through one throat, mean", air, "kg/s", _RUN)
    sheet.put("dense", "density of the air", dense, "kg/m^3", "surroundings, 287 J/(kg K)")
    sheet.put("share", "of the cycle that it flows in", share_flowing(plain), "",
              "an inlet open for some 0.27 of it", "assumed")  # fmt: skip
    sheet.put("fast", "fastest that is sensible", feed.THROTTLE_FAST, "m/s", "common practice",
              "assumed")  # fmt: skip
    sheet.found("peak", "while most of it flows", "m^3/s", "air / dense * pi / (2 * share)")
    sheet.found("limit", "narrowest", "m", "sqrt(4 / pi * peak / fast)")
    sheet.found("value", "throttle in the file", "m", sheet.path("intake.throttle_diameter"))


def _flowing(found: FuelFacts, sheet: Sheet, bore: str, wide: float) -> None:
    """Put in what flows in the hose, and its loss by the law that holds there."""
    fuel, most = found.fuel, found.feed.most
    sheet.put("flow", "most fuel", most, "m^3/s", _RUN)
    sheet.put("dense", "density of the fuel", fuel.density, "kg/m^3", "its row", "catalog")
    sheet.put(
        "thick", "its viscosity", fuel.viscosity, "m^2/s", "handbooks, from memory", "assumed"
    )
    length = sheet.path("tank.hose_length")
    sheet.found("reynolds", "Reynolds number", "", f"4 * flow / (pi * {bore} * thick)")
    smooth = pipe_flow.reynolds(most, wide, fuel.viscosity) < pipe_flow.LAMINAR
    factor = "64 / reynolds" if smooth else "0.3164 / reynolds**0.25"
    sheet.found("speed", "speed in it", "m/s", f"flow / (pi / 4 * {bore}**2)")
    sheet.found("loss", "pressure that it costs", "Pa",
                f"{factor} * {length} / {bore} * dense / 2 * speed**2")  # fmt: skip


def _head(found: FuelFacts, sheet: Sheet) -> None:
    bore = sheet.path("tank.hose_bore")
    _flowing(found, sheet, bore, found.plain.tank.hose_bore)
    sheet.put("spare", "for the float's needle", feed.SPARE, "m", "common practice", "assumed")
    sheet.put("sure", "times what the hose costs", feed.SURE, "", "common practice", "assumed")
    sheet.put("gravity", "gravity", GRAVITY, "m/s^2", "standard", "assumed")
    sheet.found("limit", "least head", "m", "spare + sure * loss / (dense * gravity)")
    sheet.found("value", "head in the file", "m", sheet.path("tank.head"))


def _hose_bore(found: FuelFacts, number: Number, sheet: Sheet) -> None:
    """The narrowest hose, proved by what it costs; below 2 mm dirt decides."""
    narrow = number.limit or 0.0
    sheet.put("limit", "narrowest that does, 2 mm at least", narrow, "m",
              "halving the law until it fits what head or pump can spare")  # fmt: skip
    _flowing(found, sheet, "limit", narrow)
    bore = sheet.path("tank.hose_bore")
    sheet.found("room", "by which yours is wider", "m", f"{bore} - limit")
    sheet.found("value", "hose in the file", "m", "limit + room")
