"""The named uncertain inputs of an engine, each with its centre and its 5-95 % span."""

from __future__ import annotations

import math
from collections.abc import Collection, Iterator
from dataclasses import dataclass, replace
from typing import Any

from firstfire.engine.engine import Engine
from firstfire.engine.grammar import leaves
from firstfire.engine.hand_set import glues, of_a_cylinder, of_the_shaft
from firstfire.engine.layers import Entry
from firstfire.engine.rules.leaks import OTHER_SPAN, RING_SPANS, Span
from firstfire.engine.start_set import of_the_start
from firstfire.engine.unknown import Distribution, Unknown
from firstfire.engine.values import Values
from firstfire.formulas.fits import LARGEST, tolerance
from firstfire.formulas.normal import NINETY, NINETY_FIVE

__all__ = ["Unknown", "unknowns"]

# A table's low-high is a spread over makers and papers. It is read as about two standard
# deviations each way (2.5-97.5 %), so that 5-95 % is somewhat less: common practice, no source.
TABLE_TO_5_95 = NINETY / NINETY_FIVE


def unknowns(engine: Engine) -> tuple[Unknown, ...]:
    """Every uncertain input of an engine, doubt multipliers included."""
    values = engine.values(1)
    found = [
        *_doubts(values), *_surroundings(values), *_materials(values), *of_the_shaft(values),
        *of_the_start(values),
    ]  # fmt: skip
    for cylinder in range(1, engine.cylinders + 1):
        found += _cylinder(engine.values(cylinder), cylinder, engine.cylinders)
    return tuple(_as_said(unknown, values) for unknown in found)


def _as_said(unknown: Unknown, values: Values) -> Unknown:
    """An unknown with the span that whoever measured it says it has."""
    entry = values.stack.top(unknown.path)
    if entry is None or entry.low is None or entry.high is None:
        return unknown
    shape, low, high = unknown.distribution, entry.low, entry.high
    if not unknown.either_sign:
        shape, low, high = _said_span(unknown.centre, low, high)
    source = entry.note or "as measured"
    return replace(
        unknown, distribution=shape, low=low, high=high, source=source, extrapolated=False
    )


@dataclass(frozen=True)
class _Spread:
    low: float
    high: float
    source: str


_DOUBTS = {
    "doubt.wall_heat": _Spread(0.5, 2.0, "Woschni, Hohenberg and Annand differ by 1.6; "
                               "small plastic cylinders are outside all three"),
    "doubt.burn_duration": _Spread(0.7, 1.4, "published fits against speed and mixture"),
    "doubt.combustion_loss": _Spread(0.5, 2.0, "engines waste 2 to 10 % of their fuel by size and "
                                     "crevices (Cheng and others, SAE 932708, from memory)"),
    "doubt.flow": _Spread(0.85, 1.12, "published discharge coefficients of poppet valves"),
    "doubt.outside_cooling": _Spread(0.5, 2.0, "free and forced convection from a body with fins "
                                     "and bolts, handbooks' +-25 % widened"),
    "doubt.port_film": _Spread(0.6, 1.7, "turbulent tube flow in a port that pulses and bends: "
                               "handbooks' +-25 % widened"),
    "doubt.contact": _Spread(0.4, 2.5, "handbooks' contact resistances of pressed and screwed "
                             "faces, 2e-4 to 2e-3 m² K/W"),
    "doubt.softening": _Spread(0.9, 1.1, "temperature of half strength: published curves of one "
                               "plastic lie 10 K apart in a rise of 100"),
    "doubt.nut_factor": _Spread(0.7, 1.35, "preload by torque wrench scatters by +-25 to 30 %: "
                                "Shigley 9, section 8-8, and VDI 2230-1 Table A8, from memory"),
    "doubt.press_friction": _Spread(0.6, 1.5, "steel on plastic 0.12 to 0.3, handbooks"),
    "doubt.strength_scatter": _Spread(0.82, 1.22, "part to part: coefficients of variation of "
                                      "0.05 along and 0.16 across the layers, as materials say"),
    "doubt.friction.ring": _Spread(0.5, 2.0, "seal handbooks' friction charts, from memory"),
    "doubt.friction.skirt": _Spread(0.5, 2.0, "published totals for small metal engines"),
    "doubt.friction.bearings": _Spread(0.6, 1.6, "bearing makers' formulas"),
    "doubt.friction.valve_gear": _Spread(0.6, 1.6, "published totals for small metal engines"),
    "doubt.friction.belt": _Spread(0.5, 2.0, "belt makers' losses of 1 to 5 %, from memory"),
}  # fmt: skip

_RPM = math.pi / 30


def _origin(entry: Entry) -> str:
    return f"{entry.layer}, {entry.kind}"


def _doubts(values: Values) -> Iterator[Unknown]:
    for path, usual in _DOUBTS.items():
        entry = values.spoken(path)
        spread, beyond = _widened(path, usual, values)
        centre = float(entry.value)
        yield Unknown(
            path, "lognormal", centre, centre * spread.low, centre * spread.high,
            _origin(entry), spread.source, beyond,
        )  # fmt: skip
    phase = values.spoken("doubt.burn_phase")
    half = math.radians(5)
    yield Unknown(
        "doubt.burn_phase", "normal", float(phase.value), float(phase.value) - half,
        float(phase.value) + half, _origin(phase), "delay from spark to burning, published fits",
    )  # fmt: skip


def _widened(path: str, spread: _Spread, values: Values) -> tuple[_Spread, bool]:
    """Wider where the correlation leaves its ground; the design's own figures."""
    if path == "doubt.burn_duration" and values.number("use.cranking_speed") < 800 * _RPM:
        return _Spread(0.5, 2.0, f"{spread.source}; below 800 rpm beyond them"), True
    if path == "doubt.wall_heat":
        return spread, values.number("cylinder.bore") < 60e-3
    if path == "doubt.friction.ring" and values["rings.kind"] == "o_ring":
        fastest = max(values["use.full_throttle_speeds"])
        mean_speed = values.number("cylinder.stroke") * fastest / math.pi
        if mean_speed > 0.5:
            return _Spread(0.3, 3.0, f"{spread.source}; above 0.5 m/s beyond them"), True
    return spread, False


def _surroundings(values: Values) -> Iterator[Unknown]:
    for path, half, source in (
        ("intake.equivalence_ratio", 0.15, "a home-tuned mixture; common practice, no source"),
        ("surroundings.air_temperature", 8.0, "a day in a workshop; common practice, no source"),
        ("surroundings.air_pressure", 2000.0, "weather; common practice, no source"),
    ):
        entry = values.spoken(path)
        spread = entry.error if entry.error is not None else half
        centre = float(entry.value)
        yield Unknown(
            path, "normal", centre, centre - spread, centre + spread, _origin(entry), source
        )


_STRENGTHS = ("strength_in_plane", "strength_across", "modulus_in_plane", "conductivity",
              "yield_strength", "density", "fracture_toughness",
              "fracture_toughness_across")  # fmt: skip
# A bought metal may be off its row by so much, 5-95 %, where the row itself gives no span.
_METALS_OWN = {"yield_strength": 0.1}
_NO_SOURCE = "common practice, no source"


def _materials(values: Values) -> Iterator[Unknown]:
    """Each named material's own level, shared by all its parts: printer, spool and maker.

    The scatter from part to part comes on top, with the coefficient of variation that the
    material's row gives; it is drawn for each part, not here.
    """
    named = {values[path] for path, leaf in leaves().items() if leaf.row_kind == "material"}
    sticking = glues(values)
    for key in sorted(name for name in named if name is not None):
        row = values.catalog.row("material", key)
        for prop in (*_STRENGTHS, *sticking.get(key, ())):
            datum = row.get(prop)
            if datum is None or datum.si_low <= 0:
                continue
            path = f"materials.{key}.{prop}"
            said = values.stack.top(path)
            centre = float(said.value) if said else datum.si
            origin = _origin(said) if said else "catalog, catalog"
            if datum.si_high <= datum.si_low:
                if prop in _METALS_OWN:
                    off = 1 + _METALS_OWN[prop]
                    yield Unknown(path, "lognormal", centre, centre / off, centre * off, origin,
                                  f"from bar to bar; {_NO_SOURCE}")  # fmt: skip
                continue
            share = TABLE_TO_5_95 if said is None else 0.5 * TABLE_TO_5_95
            yield Unknown(
                path,
                "lognormal",
                centre,
                centre * (datum.si_low / datum.si) ** share,
                centre * (datum.si_high / datum.si) ** share,
                origin,
                f"{datum.source} ({datum.sure}); shared by one {_lot(key, sticking)}",
            )


def _lot(key: str, sticking: Collection[str]) -> str:
    return "tube and mix" if key in sticking else "printer and spool"


_LEAKS = ("ring", "inlet_seat", "exhaust_seat", "gasket", "plug", "wall")


def _cylinder(values: Values, cylinder: int, count: int) -> Iterator[Unknown]:
    prefix = f"cylinders.{cylinder}." if count > 1 else ""
    for name in _LEAKS:
        yield from _leak(values, f"leak.{name}", prefix)
    for path in ("cylinder.bore", "piston.skirt_clearance", "rings.groove_depth"):
        yield _printed_size(values, path, prefix)
    if values["rings.kind"] == "o_ring" and values["rings.count"]:
        yield _by_share(values, "rings.section", 0.035, "ISO 3601-1 class B, from memory", prefix)
    for valve in ("inlet", "exhaust"):
        for size, share in _OF_A_VALVE.items():
            yield from _of_valve(values, f"valves.{valve}.{size}", share, prefix)
    yield from of_a_cylinder(values, prefix)


_OF_A_VALVE = {"spring_rate": 0.1, "spring_preload": 0.15, "mass": 0.1}
"""Share that wound springs and weighed valves may be off by, 5-95 %."""


def _of_valve(values: Values, path: str, share: float, prefix: str) -> Iterator[Unknown]:
    if float(values.spoken(path).value) > 0:
        yield _by_share(values, path, share, _NO_SOURCE, prefix)


def _by_share(values: Values, path: str, share: float, source: str, prefix: str) -> Unknown:
    """What a bought part may be off by, as a share of its size."""
    entry = values.spoken(path)
    centre = float(entry.value)
    half = share * centre
    if entry.error is not None:
        half, source = entry.error, entry.note
    return Unknown(prefix + path, "normal", centre, centre - half, centre + half,
                   _origin(entry), source)  # fmt: skip


def _leak(values: Values, path: str, prefix: str) -> Iterator[Unknown]:
    entry = values.spoken(path)
    centre = float(entry.value)
    if centre <= 0:
        return
    shape: Distribution = "loguniform"
    span = _leak_span(values, path)
    low, high, source = centre * span.low, centre * span.high, span.why
    if entry.kind in ("measured", "learned"):
        error = entry.error if entry.error is not None else 0.3 * centre
        shape, low, high = "normal", max(centre - error, 0.05 * centre), centre + error
        source = entry.note or "as measured"
    yield Unknown(prefix + path, shape, centre, low, high, _origin(entry), source)


def _said_span(centre: float, low: float, high: float) -> tuple[Distribution, float, float]:
    """The shape of a span that was said: even in its logarithm, or, where it reaches down towards
    nothing, even in itself.
    """
    if low > 0 and centre / low < (high / centre) ** 2:
        return "lognormal", low, high
    return "normal", max(2 * centre - high, 0.05 * centre), high


def _leak_span(values: Values, path: str) -> Span:
    """By the kind of ring; a decade for every other leak, and where a rough bore decides."""
    if path != "leak.ring" or values["liner.bore_finish"] in ("as_cut", "as_printed"):
        return OTHER_SPAN
    return RING_SPANS[str(values["rings.kind"])]


def _printed_size(values: Values, path: str, prefix: str) -> Unknown:
    """A size as it comes out: the instrument's error where measured, else print or tube scatter."""
    entry = values.spoken(path)
    centre = float(entry.value)
    if entry.error is not None:
        half, source = entry.error, entry.note
    elif _bought(values, path):
        half, source = _machined(values, path)
    elif path == "cylinder.bore" and values["liner.made"] != "printed":
        half, source = 0.05e-3, "drawn tube, common practice, no source"
    else:
        half, source = values.number("printing.repeatability"), "printing.repeatability"
    low: Any = max(centre - half, 0.0)
    return Unknown(prefix + path, "normal", centre, low, centre + half, _origin(entry), source)


def _bought(values: Values, path: str) -> bool:
    """Whether a size is of a part that was machined to a tolerance."""
    owner = "liner" if path == "cylinder.bore" else "piston"
    if owner == "liner" and values["liner.kind"] != "metal":
        return False
    return str(values[f"{owner}.made"]) == "bought"


def _machined(values: Values, path: str) -> tuple[float, str]:
    """Half of the tolerance of a bought part's size, m, and where it is from.

    A clearance is the difference of a bore and a piston, each to IT6; other sizes are to IT7, and
    grooves to IT9.
    """
    bore = min(values.number("cylinder.bore"), LARGEST)
    if path == "piston.skirt_clearance":
        return 0.5 * math.sqrt(2.0) * tolerance(
            bore, 6
        ), "bore and piston to IT6 each, ISO 286-1; grade common practice"
    grade = 9 if path == "rings.groove_depth" else 7
    size = bore if path == "cylinder.bore" else min(values.number(path), LARGEST)
    return 0.5 * tolerance(size, grade), f"machined to IT{grade}, ISO 286-1; grade common practice"
