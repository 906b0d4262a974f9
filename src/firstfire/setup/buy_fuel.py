"""What to buy for fuel and air: what meters it, and all from the tank to there."""

from __future__ import annotations

import math
from collections.abc import Iterator

from firstfire.catalog import Catalog
from firstfire.engine.resolve import PlainEngine
from firstfire.setup.item import PRACTICE, Check, Item
from firstfire.setup.words import mm, small
from firstfire.verdict.numbers import shown

_GROUP, _FILE = "Fuel and air", "engine file"
_MIXERS = {"carburettor": "carburettor", "injector": "port injector", "gas_mixer": "gas mixer"}
_SHARED = {**_MIXERS, "injector": "injector for both cylinders"}


def fuel_items(rows: Catalog, plain: PlainEngine) -> Iterator[Item]:
    """Everything to buy that brings fuel and air together."""
    yield from _metered(rows, plain)
    fuel = small(rows.row("fuel", plain.intake.fuel).name)
    yield Item(_GROUP, f"fuel: {fuel}", "", 1, "tank", "", _FILE, "intake.fuel")
    if not plain.fuel.gas:
        yield from _from_the_tank(plain, fuel)
    if plain.tank.feed == "pump" and not plain.fuel.gas:
        yield from _pumped(plain)
    silent = sum(parts.stub.silencer for parts in plain.cylinders)
    if silent:
        yield Item(
            _GROUP, "silencer", f"for a pipe of {mm(plain.cylinders[0].stub.diameter)}",
            silent, "exhaust", "", _FILE, "stub.silencer",
        )  # fmt: skip


def _metered(rows: Catalog, plain: PlainEngine) -> Iterator[Item]:
    """Carburettor, injector or mixer, with its throttle and air cleaner."""
    intake, cylinders = plain.intake, len(plain.cylinders)
    throat, injected = intake.throttle_diameter, intake.mixture_by == "injector"
    own = plain.injector.feeds == "each" if injected else intake.kind == "separate"
    each = cylinders if own else 1
    check = _throat(throat)
    word = _MIXERS[intake.mixture_by] if each == cylinders else _SHARED[intake.mixture_by]
    if injected:
        bodies = cylinders if intake.kind == "separate" else 1
        yield Item(
            _GROUP, "throttle body", f"{mm(throat)} bore", bodies, "intake", "", _FILE,
            "intake.throttle_diameter", (check,),
        )  # fmt: skip
    fuel = small(rows.row("fuel", intake.fuel).name)
    yield Item(
        _GROUP, f"{word} for {fuel}", _injector(plain) if injected else f"{mm(throat)} throat",
        each, "intake", "", _FILE, "intake.mixture_by", () if injected else (check,),
    )  # fmt: skip
    if intake.air_cleaner != "none":
        yield Item(
            _GROUP, f"air cleaner, {intake.air_cleaner}", f"for {mm(throat)} of throat", 1,
            "intake", "", _FILE, "intake.air_cleaner",
        )  # fmt: skip


def _throat(throat: float) -> Check:
    area = math.pi / 4 * throat**2
    return Check(
        "throat", "caliper_inside", "two directions at the throttle", throat, 0.93 * throat,
        1.07 * throat, "mm",
        f"7 % of it is 15 % of its {shown(area, 'mm^2')} (limit: {PRACTICE})",
    )  # fmt: skip


def _injector(plain: PlainEngine) -> str:
    told = plain.injector
    return f"{shown(told.flow, 'cm^3/min')} held open at {shown(told.flow_at, 'bar')}"


def _from_the_tank(plain: PlainEngine, fuel: str) -> Iterator[Item]:
    """Tank, its valve, hose, clips and filter."""
    tank, stands = plain.tank, f"of what stands {fuel.split(' (', maxsplit=1)[0]}"
    yield Item(
        _GROUP, "fuel tank", f"{shown(tank.volume, 'cm^3')}, {stands}", 1,
        "fuel, away from exhaust and spark", "", _FILE, "tank.volume",
        note=f"Its floor {mm(tank.head)} above what meters the fuel, at least."
        if tank.feed == "gravity" else "",
    )  # fmt: skip
    yield Item(
        _GROUP, "fuel valve", f"for a hose of {mm(tank.hose_bore)}", 1, "right at the tank", "",
        _FILE if tank.valve else PRACTICE, "tank.valve",
        note="" if tank.valve else "The file has none: without it a leak empties the tank. Write "
        "tank.valve = true once it is there.",
    )  # fmt: skip
    yield Item(
        _GROUP, "fuel hose", f"{mm(tank.hose_bore)} bore, {mm(tank.hose_length)} long, {stands}", 1,
        "tank to intake", "", _FILE, "tank.hose_bore",
        note="Whether it is wide enough for full power: `firstfire fuel`.",
    )  # fmt: skip
    yield Item(_GROUP, "hose clips", f"for a hose of {mm(tank.hose_bore)}", 4,
               "both ends of the hose, and the filter", "", PRACTICE, "tank.hose_bore")  # fmt: skip
    yield Item(_GROUP, "fuel filter", f"for a hose of {mm(tank.hose_bore)}", 1,
               "in the hose, below the valve", "", PRACTICE, "tank.hose_bore",
               note="Jets and injectors here are finer than dust.")  # fmt: skip


_FLOAT = 0.2e5
"""Pressure that a float's needle bears, Pa. Common practice, no source."""


def _pumped(plain: PlainEngine) -> Iterator[Item]:
    """Pump, and the regulator that sends back what is too much."""
    tank, told = plain.tank, plain.injector
    injected = plain.intake.mixture_by == "injector"
    pressure = told.pressure if injected else _FLOAT
    count = len(plain.cylinders) if told.feeds == "each" else 1
    flow = tank.pump_flow
    if flow is None and injected:
        flow = count * told.flow
    size = "" if flow is None else f"{shown(flow, 'cm^3/min')} or more "
    yield Item(
        _GROUP, "electric fuel pump", f"{size}at {shown(pressure, 'bar')}", 1, "tank to intake",
        "", _FILE if tank.pump_flow is not None else PRACTICE, "tank.pump_flow",
        note="As much as the injectors pass held open; full power asks for less: `firstfire fuel`."
        if tank.pump_flow is None and injected else "",
    )  # fmt: skip
    if injected:
        yield Item(
            _GROUP, "fuel pressure regulator with a return", shown(pressure, "bar"), 1,
            "behind the injector", "", _FILE, "injector.pressure",
            note="Its vent to the intake." if told.regulator == "intake" else "",
        )  # fmt: skip
        yield Item(
            _GROUP, "fuel hose for pressure", f"{mm(tank.hose_bore)} bore, "
            f"{mm(2 * tank.hose_length)} long, for {shown(2 * pressure, 'bar')}", 1,
            "pump to injector, and back to the tank", "", PRACTICE, "injector.pressure",
        )  # fmt: skip
