"""How the winding of a cam's spring is worked out."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass

from firstfire.engine.engine import Engine
from firstfire.formulas.spring_wire import wire_strength
from firstfire.setup.cams.cam import Cam
from firstfire.setup.cams.spring import (
    CLASH,
    DEAD,
    DENSITY,
    SHEAR_MODULUS,
    STRESS_SHARE,
    SURGE,
    WIRE,
    YIELD_SHARE,
    Winding,
)
from firstfire.setup.number import Number
from firstfire.setup.opened.sheet import Sheet

_SHIGLEY = "Shigley's Mechanical Engineering Design, 9th ed."
Opened = tuple[Number, Sheet]


@dataclass(frozen=True)
class _Spring:
    engine: Engine
    cam: Cam
    wound: Winding
    speed: float

    def sheet(self) -> Sheet:
        return Sheet(self.engine.values(1))

    def lift(self, sheet: Sheet) -> str:
        return sheet.path(f"valves.{self.cam.which}.lift")

    def put(self, sheet: Sheet, *names: str) -> None:
        """Put in sizes of the winding."""
        for name in names:
            words, value, unit = self._sizes()[name]
            sheet.put(name, words, value, unit, "the winding that is told")

    def _sizes(self) -> dict[str, tuple[str, float, str]]:
        wound = self.wound
        return {
            "wire": ("wire", wound.wire, "m"),
            "mean": ("mean diameter of its coils", wound.mean, "m"),
            "active": ("active coils", wound.active, ""),
            "preload": ("force on the seat", wound.preload, "N"),
            "rate": ("its rate", wound.rate, "N/m"),
        }  # fmt: skip

    def wire_made(self, sheet: Sheet) -> None:
        sheet.put("modulus", f"shear modulus of {WIRE}", SHEAR_MODULUS, "Pa",
                  f"{_SHIGLEY}, Table 10-5", "catalog")  # fmt: skip


def spring_sheets(engine: Engine, cam: Cam, speed: float) -> dict[str, Opened]:
    """Every number of the spring told for a cam to a crank speed, by its id; none: none fits."""
    if cam.winding is None:
        return {}
    spring = _Spring(engine, cam, cam.winding, speed)
    return {number.id: (number, sheet) for write in _WRITERS for number, sheet in write(spring)}


def _rate(one: _Spring) -> Iterator[Opened]:
    sheet = one.sheet()
    one.put(sheet, "wire", "mean", "active")
    one.wire_made(sheet)
    sheet.found("value", "rate", "N/m", "wire**4 * modulus / (8 * mean**3 * active)")
    told = Number("spring.rate", "its spring, rate", one.wound.rate, "N/m",
                  why="d⁴ G/(8 D³ n): the least that holds it on its cam",
                  source=f"{_SHIGLEY}, Eq. 10-9")  # fmt: skip
    yield told, sheet


def _stress(one: _Spring) -> Iterator[Opened]:
    sheet = one.sheet()
    one.put(sheet, "wire", "mean", "preload", "rate")
    sheet.found("full", "force at full lift", "N", f"preload + rate * {one.lift(sheet)}")
    sheet.found("index", "spring index", "", "mean / wire")
    sheet.found("wahl", "Wahl's factor", "", "(4 * index - 1) / (4 * index - 4) + 0.615 / index")
    sheet.found("value", "shear at full lift", "Pa", "wahl * 8 * full * mean / (pi * wire**3)")
    yield Number("spring.stress", "its spring, shear at full lift", one.wound.stress, "Pa",
                 one.wound.allowed, "at most", "K 8 F D/(π d³) with Wahl's factor",
                 f"{_SHIGLEY}, Eq. 10-4, 10-7"), sheet  # fmt: skip
    allowed = one.sheet()
    allowed.put("strength", f"tensile strength of {WIRE} of that size",
                wire_strength(WIRE, one.wound.wire), "Pa", f"{_SHIGLEY}, Table 10-4",
                "catalog")  # fmt: skip
    allowed.put("yields", "shear yield over that", YIELD_SHARE, "", f"{_SHIGLEY}, Table 10-6",
                "catalog")  # fmt: skip
    allowed.put("share", "how much of it is used", STRESS_SHARE, "", "common practice", "assumed")
    allowed.found("value", "shear allowed", "Pa", "share * yields * strength")
    yield Number("spring.allowed", "its spring, shear allowed", one.wound.allowed, "Pa",
                 why="a share of the wire's yield in shear, once: fatigue is not judged",
                 source=f"{_SHIGLEY}, section 10-4"), allowed  # fmt: skip


def _lengths(one: _Spring) -> Iterator[Opened]:
    sheet = one.sheet()
    _solid(one, sheet, "value")
    told = Number("spring.solid", "its spring, all coils touching", one.wound.solid, "m",
                  why="wire times coils, ends ground",
                  source=f"{_SHIGLEY}, Table 10-1")  # fmt: skip
    yield told, sheet
    sheet = one.sheet()
    solid = _solid(one, sheet, "solid")
    _fitted(one, sheet, solid, "value")
    told = Number("spring.fitted", "its spring, with the valve shut", one.wound.fitted, "m",
                  why="solid, the lift and some of it more", source="definition")  # fmt: skip
    yield told, sheet
    sheet = one.sheet()
    solid = _solid(one, sheet, "solid")
    fitted = _fitted(one, sheet, solid, "fitted")
    one.put(sheet, "preload", "rate")
    sheet.found("value", "free length", "m", f"{fitted} + preload / rate")
    told = Number("spring.free", "its spring, free", one.wound.free, "m",
                  why="as fitted and what its force on the seat takes",
                  source="definition")  # fmt: skip
    yield told, sheet


def _solid(one: _Spring, sheet: Sheet, name: str) -> str:
    one.put(sheet, "wire", "active")
    sheet.put("dead", "dead coils", DEAD, "", "ends squared and ground", "assumed")
    return sheet.found(name, "solid length", "m", "wire * (active + dead)")


def _fitted(one: _Spring, sheet: Sheet, solid: str, name: str) -> str:
    sheet.put("clash", "lift kept free", CLASH, "", "common practice", "assumed")
    return sheet.found(name, "fitted length", "m", f"{solid} + (1 + clash) * {one.lift(sheet)}")


def _surge(one: _Spring) -> Iterator[Opened]:
    for ident in ("surge", "surge_times"):
        sheet = one.sheet()
        one.put(sheet, "wire", "mean", "active", "rate")
        sheet.put("density", f"density of {WIRE}", DENSITY, "kg/m^3", "steel", "catalog")
        sheet.found("coils", "mass of its active coils", "kg",
                    "density * pi**2 * wire**2 * mean * active / 4")  # fmt: skip
        if ident == "surge":
            sheet.found("value", "surge", "Hz", "sqrt(rate / coils) / 2")
            told = Number("spring.surge", "its spring, surge", one.wound.surge, "Hz",
                          why="√(k/m)/2, both ends held",
                          source=f"{_SHIGLEY}, Eq. 10-25")  # fmt: skip
            yield told, sheet
            continue
        sheet.put("speed", "crank speed", one.speed, "rad/s", "top speed")
        sheet.found("value", "surge over the cam's turns", "",
                    "sqrt(rate / coils) / 2 / (speed / (4 * pi))")  # fmt: skip
        yield Number("spring.surge_times", "its spring, surge over the cam's turns",
                     one.wound.times, "", SURGE, "at least", "slower, the lobe shakes its coils",
                     f"{_SHIGLEY}, section 10-8: 15 to 20; Norton: 13"), sheet  # fmt: skip


_WRITERS: tuple[Callable[[_Spring], Iterator[Opened]], ...] = (_rate, _stress, _lengths, _surge)
