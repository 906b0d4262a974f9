"""How the numbers of a suction-opened inlet are worked out."""

from __future__ import annotations

from collections.abc import Iterator

from firstfire.engine.engine import Engine
from firstfire.engine.resolve import PlainEngine
from firstfire.setup.cams.suction_gas import drawn_in, flow_area
from firstfire.setup.cams.suction_inlet import SuctionInlet
from firstfire.setup.number import Number
from firstfire.setup.opened.sheet import Sheet

_HERE = "valves.inlet."
_BALANCE = "a mass on its spring, and the gas it opens against; from any book on vibrations"
Opened = tuple[Number, Sheet]


def suction_sheets(engine: Engine, plain: PlainEngine, found: SuctionInlet) -> dict[str, Opened]:
    """Every number of it that is no trace of a run, by its id."""
    numbers = (
        _opens(engine, found), _shuts(engine, found), _lags(engine, plain, found),
        _swings(engine, found), _pushed(engine, plain, found), _held(engine, found),
        *_dances(engine, found),
    )  # fmt: skip
    return {number.id: (number, sheet) for number, sheet in numbers}


def _opens(engine: Engine, found: SuctionInlet) -> Opened:
    sheet = Sheet(engine.values(1))
    preload, throat = sheet.path(f"{_HERE}spring_preload"), _throat(sheet)
    sheet.found("value", "suction that opens it", "Pa", f"{preload} / {throat}")
    return Number("opens_at", "suction at which the inlet leaves its seat", found.opens_at, "Pa",
                  why="preload over the throat", source=_BALANCE), sheet  # fmt: skip


def _throat(sheet: Sheet) -> str:
    throat, stem = (sheet.path(f"{_HERE}{one}_diameter") for one in ("throat", "stem"))
    return sheet.found("throat", "area of the throat", "m^2", f"pi / 4 * ({throat}**2 - {stem}**2)")


def _time(sheet: Sheet, name: str) -> str:
    mass, rate, preload, lift = (
        sheet.path(f"{_HERE}{one}") for one in ("mass", "spring_rate", "spring_preload", "lift")
    )
    sheet.found("slow", "a radian of its own swing", "s", f"sqrt({mass} / {rate})")
    sheet.found("share", "force on the seat over that on the stop", "",
                f"{preload} / ({preload} + {rate} * {lift})")  # fmt: skip
    return sheet.found(name, "from stop to seat", "s", "slow * acos(share)")


def _shuts(engine: Engine, found: SuctionInlet) -> Opened:
    sheet = Sheet(engine.values(1))
    _time(sheet, "value")
    return Number("shutting", "time in which its spring shuts it", found.shutting, "s",
                  why="√(m/k) arccos(F₀/(F₀ + k L)), without gas",
                  source=_BALANCE), sheet  # fmt: skip


def _lags(engine: Engine, plain: PlainEngine, found: SuctionInlet) -> Opened:
    sheet = Sheet(engine.values(1))
    time = _time(sheet, "time")
    sheet.put("speed", "crank speed", max(plain.use.full_throttle_speeds), "rad/s",
              "the fastest of use.full_throttle_speeds")  # fmt: skip
    sheet.found("value", "crank in that time", "rad", f"{time} * speed")
    return Number("lag", "what the crank turns while its spring shuts it", found.shutting_angle,
                  "rad", why="that time at top speed", source=_BALANCE), sheet  # fmt: skip


def _swings(engine: Engine, found: SuctionInlet) -> Opened:
    sheet = Sheet(engine.values(1))
    mass, rate = sheet.path(f"{_HERE}mass"), sheet.path(f"{_HERE}spring_rate")
    sheet.found("value", "swings at", "Hz", f"sqrt({rate} / {mass}) / (2 * pi)")
    return Number("swing", "how often it swings on its spring", found.swing, "Hz",
                  why="√(k/m)/2π", source=_BALANCE), sheet  # fmt: skip


def _pushed(engine: Engine, plain: PlainEngine, found: SuctionInlet) -> Opened:
    sheet = Sheet(engine.values(1))
    throat = _throat(sheet)
    top = max(plain.use.full_throttle_speeds)
    drawn, density = drawn_in(plain, top)
    sheet.put("drawn", "volume drawn in where the piston is fastest", drawn, "m^3/s",
              "crank and rod, bore and top speed")  # fmt: skip
    sheet.put("density", "density of the air", density, "kg/m^3", "surroundings")
    sheet.put("flow_area", "what it passes on its stop", flow_area(plain), "m^2",
              "0.6 of the smaller of curtain and throat (Heywood, section 6.3)")  # fmt: skip
    sheet.found("value", "push of the gas", "N",
                f"density / 2 * (drawn / flow_area)**2 * {throat}")  # fmt: skip
    return Number("gas_push", "push of the gas in the middle of the stroke", found.gas_push, "N",
                  why="½ ρ (V̇/A)² on the throat, at top speed", source=_BALANCE), sheet  # fmt: skip


def _held(engine: Engine, found: SuctionInlet) -> Opened:
    sheet = Sheet(engine.values(1))
    preload, rate, lift = (
        sheet.path(f"{_HERE}{one}") for one in ("spring_preload", "spring_rate", "lift")
    )
    sheet.found("value", "spring on the stop", "N", f"{preload} + {rate} * {lift}")
    return Number("stop_force", "what the spring pushes back with on the stop",
                  found.spring_on_stop, "N", why="preload and rate times lift",
                  source="definition"), sheet  # fmt: skip


def _dances(engine: Engine, found: SuctionInlet) -> Iterator[Opened]:
    if not found.dances_at:
        return
    sheet = Sheet(engine.values(1))
    mass, rate, preload = (
        sheet.path(f"{_HERE}{one}") for one in ("mass", "spring_rate", "spring_preload")
    )
    sheet.put("hovers", "lift at which gas and spring balance", found.hovers, "m",
              "½ ρ (V̇/(e x))² on the head against preload and rate")  # fmt: skip
    sheet.found("value", "dances at", "Hz",
                f"sqrt((3 * {rate} + 2 * {preload} / hovers) / {mass}) / (2 * pi)")  # fmt: skip
    yield Number("dance", "how often it swings about where gas and spring balance",
                 found.dances_at, "Hz", why="√((3 k + 2 F₀/x)/m)/2π: the gas is a second spring",
                 source=_BALANCE), sheet  # fmt: skip
