"""The wiring of an engine: what hangs on its battery, by which wires, how thick."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Literal

from firstfire.engine.battery import battery_of
from firstfire.engine.coils import Pair, coils_of
from firstfire.engine.resolve import PlainEngine
from firstfire.formulas.wire import wire_resistance, wire_section

Kind = Literal[
    "battery", "fuse", "stop", "switch", "contact", "relay", "coil", "points", "condenser",
    "driver", "resistor", "regulator", "controller", "sensor", "plug", "injector", "diode", "pump",
    "starter",
]  # fmt: skip

DROP = 0.03
"""Of the supply, that all wires of a path may lose (as IEC 60364-5-52 advises for lighting; from
memory)."""
STARTER_DROP, STARTER_SECONDS = 0.05, 10.0
FUSES = (1.0, 2.0, 3.0, 4.0, 5.0, 7.5, 10.0, 15.0, 20.0, 25.0, 30.0, 40.0)
"""Ratings of blade fuses, A (ISO 8820-3, from memory)."""
FUSE_OVER = 1.25
"""Of a fuse over the current behind it, at the least. Common practice, no source."""
SENSOR_CURRENT, RELAY_CURRENT = 0.02, 0.15
ON_ENGINE = 0.5
"""Length of a wire from thing to thing on an engine, m. Common practice, no source."""
RETURN_SECTION = 1.5
"""Of a spark's return lead, mm²: for strength, it carries next to nothing. Common practice."""


@dataclass(frozen=True)
class Element:
    """One thing of the wiring: a letter code and number (IEC 81346-2), what it is, its value."""

    id: str
    kind: Kind
    name: str
    value: str = ""


@dataclass(frozen=True)
class Path:
    """What lies between plus and minus, from top to bottom, and what hangs beside it.

    Attributes
    ----------
    id, name
        Fixed, and in words.
    elements
        In their order from plus to minus.
    beside
        Across one of them: its id, and what lies there.
    current
        Most of it, A.
    seconds
        How long at a time, s.
    fed_by
        What switches its plus: ``main`` (fuse and stop), ``relay`` or ``battery``.
    """

    id: str
    name: str
    elements: tuple[Element, ...]
    current: float
    beside: tuple[tuple[str, Element], ...] = ()
    plugs: tuple[Element, ...] = ()
    seconds: float = math.inf
    fed_by: Literal["main", "relay", "battery"] = "main"


@dataclass(frozen=True)
class Wire:
    """One wire.

    Attributes
    ----------
    id, path
        Number, and whose it is.
    start, end
        From pin to pin.
    current, length
        A, and m.
    section
        mm²; None: none that is kept is thick enough.
    drop
        That it loses, V.
    kind
        ``plain``, ``screened`` or ``high voltage``.
    """

    id: str
    path: str
    start: str
    end: str
    current: float
    length: float
    section: float | None
    drop: float
    kind: Literal["plain", "screened", "high voltage"] = "plain"


@dataclass(frozen=True)
class Wiring:
    """All of it.

    Attributes
    ----------
    voltage
        Of the battery, V.
    paths
        From plus to minus.
    fuse
        A; None where it would have to be larger than blade fuses are.
    current
        All paths behind it together, A.
    wires
        Numbered.
    pairs
        Which coil feeds which plugs.
    """

    voltage: float
    paths: tuple[Path, ...]
    fuse: float | None
    current: float
    wires: tuple[Wire, ...]
    pairs: tuple[Pair, ...]


def wiring(plain: PlainEngine) -> Wiring:
    """The wiring of an engine, chosen by its spark, its fuel and its starter."""
    paths = (*_sparks(plain), *_controller(plain), *_fuel(plain), *_starter(plain))
    current = math.fsum(path.current for path in paths if path.fed_by != "battery")
    fuse = next((rating for rating in FUSES if rating >= FUSE_OVER * current), None)
    wires = tuple(_wires(plain, paths, current, fuse or 0.0))
    return Wiring(plain.spark.coil.voltage, paths, fuse, current, wires, coils_of(plain))


def caution(wiring: Wiring) -> str:
    """What to mind at this wiring."""
    kinds = {one.kind for path in wiring.paths for one in path.elements}
    held = (
        "The driver is held off in hardware until the controller runs. "
        if "driver" in kinds
        else ""
    )
    cuts = "spark and pump" if "pump" in kinds else "the spark"
    return (
        f"Battery off while you wire. Tens of kilovolts at T and E. {held}S1 cuts {cuts}; shut "
        "the fuel valve besides. Wires from IEC 60228 (class 5) and IEC 60335-1 Table 11, a "
        "starter's for 10 s (IEC 60364-5-54). Estimates; local codes decide."
    )


def _sparks(plain: PlainEngine) -> Iterator[Path]:
    spark, coil = plain.spark, plain.spark.coil
    full = max(coil.voltage - coil.driver_drop, 0.0) / (coil.resistance + coil.resistor)
    for number, pair in enumerate(coils_of(plain), 1):
        own: list[Element] = []
        if coil.resistor > 0.0:
            own.append(Element(f"R{number}", "resistor", "resistor", f"{coil.resistor:.2g} Ω"))
        own.append(Element(f"T{number}", "coil", "ignition coil", f"{coil.resistance:.2g} Ω"))
        beside: tuple[tuple[str, Element], ...] = ()
        if spark.source == "points":
            own.append(Element(f"S{number + 1}", "points", "breaker points"))
            value = f"{1e6 * spark.points.condenser:.2g} µF"
            beside = ((own[-1].id, Element(f"C{number}", "condenser", "condenser", value)),)
        else:
            own.append(Element(f"Q{number}", "driver", "driver", f"{2 * full:.2g} A"))
        plugs = tuple(Element(f"E{one}", "plug", f"plug {one}") for one in pair.cylinders)
        yield Path(f"spark {number}", "spark", tuple(own), full, beside, plugs)


def _controller(plain: PlainEngine) -> Iterator[Path]:
    if plain.spark.source != "sensor" and plain.intake.mixture_by != "injector":
        return
    kind = "Hall sensor" if plain.spark.sensor.kind == "hall" else "reed switch"
    sensed = (("A1", Element("B1", "sensor", kind)),)
    yield Path(
        "controller", "controller",
        (Element("U1", "regulator", "regulator", "5 V"),
         Element("A1", "controller", "controller")),
        plain.wiring.controller_current + SENSOR_CURRENT,
        sensed if plain.spark.source == "sensor" else (),
    )  # fmt: skip


def _fuel(plain: PlainEngine) -> Iterator[Path]:
    injected, pump = plain.intake.mixture_by == "injector", plain.wiring.pump_current
    if not injected and pump == 0.0:
        return
    yield Path("relay", "relay", (Element("K1", "relay", "relay"),), RELAY_CURRENT)
    if pump > 0.0:
        yield Path("pump", "fuel pump", (Element("M1", "pump", "fuel pump", f"{pump:.2g} A"),),
                   pump, fed_by="relay")  # fmt: skip
    if not injected:
        return
    count = len(plain.cylinders) if plain.intake.kind == "separate" else 1
    ohms = plain.wiring.injector_resistance
    for number in range(1, count + 1):
        valve = Element(f"Y{number}", "injector", "injector", f"{ohms:.2g} Ω")
        yield Path(
            f"injector {number}", "injector",
            (valve, Element(f"Q{number + 10}", "driver", "driver")),
            plain.spark.coil.voltage / ohms,
            ((valve.id, Element(f"D{number}", "diode", "flyback diode")),), fed_by="relay",
        )  # fmt: skip


def _starter(plain: PlainEngine) -> Iterator[Path]:
    """A motor on this very battery; a drill has its own."""
    battery = battery_of(plain.starter)
    if battery is None or plain.spark.coil_on != "starter_battery":
        return
    yield Path(
        "starter", "starter",
        (Element("K2", "switch", "starter switch"), Element("M2", "starter", "starter")),
        battery.stall_current, seconds=STARTER_SECONDS, fed_by="battery",
    )  # fmt: skip


def _wires(
    plain: PlainEngine, paths: tuple[Path, ...], current: float, fuse: float
) -> Iterator[Wire]:
    """The feed first, then each path from plus to minus, then sparks' and sensors' leads."""
    long, volts = plain.wiring.length, plain.spark.coil.voltage
    numbers = iter(range(1, 1000))

    def wire(
        path: str, start: str, end: str, amps: float, metres: float, share: float, seconds: float
    ) -> Wire:
        behind = 0.0 if math.isfinite(seconds) else fuse
        section = wire_section(amps, metres, share * volts, seconds, behind)
        drop = math.nan if section is None else amps * wire_resistance(section, metres)
        return Wire(f"W{next(numbers)}", path, start, end, amps, metres, section, drop)

    yield wire("feed", "G1 +", "F1, S1", current, long, 0.25 * DROP, math.inf)
    yield wire("feed", "G1 -", "minus rail", current, long, 0.25 * DROP, math.inf)
    for path in paths:
        own = path.fed_by == "battery"
        source = {"main": "S1", "relay": "K1 contact", "battery": "G1 +"}[path.fed_by]
        starts = (source, *(f"{one.id} -" for one in path.elements))
        ends = (*(f"{one.id} +" for one in path.elements), "G1 -" if own else "minus rail")
        share = STARTER_DROP if own else 0.5 * DROP
        for start, end in zip(starts, ends, strict=True):
            metres = long if own and "G1" in start + end else ON_ENGINE
            yield wire(path.id, start, end, path.current, metres, share / len(starts), path.seconds)
    yield from _leads(paths, numbers)


def _leads(paths: tuple[Path, ...], numbers: Iterator[int]) -> Iterator[Wire]:
    """High voltage out and home, and the sensor's."""
    for path in paths:
        coil = next((one.id for one in path.elements if one.kind == "coil"), "")
        for plug in path.plugs:
            yield Wire(f"W{next(numbers)}", path.id, f"{coil} HV", f"{plug.id} top", 0.0, 0.2,
                       None, 0.0, "high voltage")  # fmt: skip
        if len(path.plugs) == 2:
            first, second = path.plugs
            yield Wire(f"W{next(numbers)}", path.id, f"{first.id} shell", f"{second.id} shell",
                       0.0, 0.3, RETURN_SECTION, 0.0)  # fmt: skip
        elif path.plugs:
            yield Wire(f"W{next(numbers)}", path.id, f"{path.plugs[0].id} shell", "minus rail",
                       0.0, 0.3, RETURN_SECTION, 0.0)  # fmt: skip
        for owner, one in path.beside:
            if one.kind == "sensor":
                yield Wire(f"W{next(numbers)}", path.id, f"{one.id} +, out, -",
                           f"{owner} 5 V, in, -", SENSOR_CURRENT, 0.5, 0.5, 0.0,
                           "screened")  # fmt: skip
