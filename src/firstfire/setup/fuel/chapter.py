"""An engine's fuel as a chapter of setting up."""

from __future__ import annotations

import math
from collections.abc import Iterator

from firstfire.engine.engine import Engine
from firstfire.setup.chapter import Chapter, Table
from firstfire.setup.fuel import words
from firstfire.setup.fuel.cold import Times
from firstfire.setup.fuel.facts import FuelFacts
from firstfire.setup.fuel.injector import MOST_DUTY, InjectorFacts
from firstfire.setup.fuel.mixer import JET_OFF, MixerFacts
from firstfire.setup.fuel.sheet import fuel_sheet
from firstfire.setup.number import Number
from firstfire.verdict.numbers import figures

_PRACTICE = "common practice, no source"
_HEYWOOD = "J. B. Heywood, Internal Combustion Engine Fundamentals, 1988, section 7.2 (from memory)"
_ORIFICE = "an orifice's law: flow with the square root of pressure"


def fuel_chapter(engine: Engine) -> Chapter:
    """What meters an engine's fuel, and all from the tank to there."""
    return fuel_told(fuel_sheet(engine))


def fuel_told(found: FuelFacts) -> Chapter:
    """The same of fuel that is known already."""
    return Chapter(
        "fuel", "Fuel, tank and air", tuple(_said(found)), tuple(fuel_numbers(found)),
        tuple(_tables(found)), _caution(found),
    )  # fmt: skip


def _said(found: FuelFacts) -> Iterator[str]:
    yield words.opening(found)
    yield from (str(fault) for fault in found.faults)
    if found.injector is not None:
        yield from words.feeding_words(found.injector)
        yield from words.breathing_words(found.injector)
        yield "Its tables for a controller: firstfire tables FILE -o FOLDER."
    if found.mixer is not None:
        yield from words.mixer_words(found, found.mixer)
    yield from words.priming_words(found)
    yield words.valve_words(found)


def _caution(found: FuelFacts) -> str:
    names = ("fuel: ", "gas", "priming", "pump", "stop")
    kept = [one.text for one in words.sheet_cautions(found) if one.hazard.startswith(names)]
    return " ".join(kept)


def fuel_numbers(found: FuelFacts) -> Iterator[Number]:
    """What fuel is metered and brought by, against its limits."""
    if found.injector is not None:
        yield from _of_injector(found, found.injector)
    if found.mixer is not None:
        yield from _of_mixer(found.mixer)
    feed = found.feed
    yield Number(
        "throttle", "throttle", feed.throttle, "m", feed.throttle_narrow, "at least",
        f"air passes it at {feed.throttle_speed:.0f} m/s while most flows; 15 to 150 are sensible",
        _PRACTICE,
    )  # fmt: skip
    if feed.head_wanted is not None:
        yield Number(
            "head", "tank over where it is metered", found.plain.tank.head, "m", feed.head_wanted,
            "at least", "10 mm for the float's needle and three times what the hose costs",
            "Hagen and Poiseuille, Blasius; margins common practice, no source",
        )  # fmt: skip
    if feed.hose_bore is not None:
        yield Number(
            "hose_bore", "fuel hose's bore", found.plain.tank.hose_bore, "m", feed.hose_bore,
            "at least", "full power within what head or pump can spare, and 2 mm against dirt",
            "Hagen and Poiseuille, Blasius",
        )  # fmt: skip


def _of_injector(found: FuelFacts, facts: InjectorFacts) -> Iterator[Number]:
    dense = found.fuel.density
    flow = facts.flow / dense
    yield Number(
        "flow_for_power", "injector held open", flow, "m^3/s", facts.least_flow / dense, "at least",
        f"on for {100 * MOST_DUTY:.0f} % of the cycle at most, at {facts.hardest.point.name}",
        f"{_ORIFICE}; {_PRACTICE}",
    )  # fmt: skip
    if facts.most_flow is None or facts.idle is None:
        yield Number("flow_for_idle", "injector held open", math.nan, "m^3/s",
                     why=found.points.why_no_idle)  # fmt: skip
        return
    yield Number(
        "flow_for_idle", "injector held open", flow, "m^3/s", facts.most_flow / dense, "at most",
        f"idle's fuel flows {1e3 * facts.idle.open_time:.2f} ms, and it repeats from "
        f"{1e3 * found.plain.injector.smallest:.2f} ms on", _ORIFICE,
    )  # fmt: skip


def _of_mixer(facts: MixerFacts) -> Iterator[Number]:
    yield Number(
        "venturi", "venturi", facts.venturi, "m", facts.narrowest, "at least",
        "full power's peak may cost 25 kPa", f"isentropic nozzle; {_PRACTICE}",
    )  # fmt: skip
    if math.isfinite(facts.widest):
        yield Number(
            "venturi_widest", "venturi", facts.venturi, "m", facts.widest, "at most",
            "the slowest full throttle's peak is to be twice what just draws fuel",
            f"{_HEYWOOD}; {_PRACTICE}",
        )  # fmt: skip
    if facts.wanted is not None:
        yield Number(
            "jet", "orifice wanted" if facts.gas else "main jet wanted", facts.wanted, "m",
            why=f"gives the mixture asked at the most fuel, ±{100 * JET_OFF:.0f} % of its area",
            source=_HEYWOOD,
        )  # fmt: skip
    if facts.idle_wanted is not None:
        yield Number(
            "idle_jet", "idle jet wanted", facts.idle_wanted, "m",
            why="gives what the venturi doesn't, by the depression behind the throttle",
            source=_HEYWOOD,
        )  # fmt: skip


def _tables(found: FuelFacts) -> Iterator[Table]:
    if found.injector is not None:
        yield _pulses(found.injector)
    if found.mixer is not None:
        yield _drawings(found.mixer)
    cold = found.cold
    told = (("First charge while cranked", cold.start), ("Warm-up at idle", cold.warm_up))
    for caption, each in told:
        if each:
            rows = tuple(_times(one) for one in each)
            yield Table(f"{caption}, times a warm engine's fuel", ("engine", "times"), rows)
    rows = tuple((f"{one.temperature - 273.15:.0f} °C", f"{one.times:.3f}") for one in cold.density)
    yield Table("Air's density, times a warm engine's fuel", ("air", "times"), rows)


def _times(one: Times) -> tuple[str, str]:
    much = "over 4" if one.times is None else f"{one.times:.2f}"
    return f"{one.temperature - 273.15:.0f} °C", much


def _pulses(facts: InjectorFacts) -> Table:
    rows = tuple(
        (
            one.point.name, str(row + 1), figures(1e6 * one.point.at.fuel[row]),
            f"{1e6 * time:.0f}", f"{100 * one.duty:.0f} %",
            f"{math.degrees(one.own_ends[row]):.0f}°",
        )
        for one in facts.pulses
        for row, time in enumerate(one.times)
    )  # fmt: skip
    head = ("point", "cylinder", "fuel, mg", "pulse, µs", "duty", "ends after own firing top")
    return Table("Pulses", head, rows)


def _drawings(facts: MixerFacts) -> Table:
    rows = tuple(
        (
            one.point.name, f"{one.speed:.0f}",
            "–" if one.wanted is None else f"{1e3 * one.wanted:.2f}",
            "–" if one.mixture is None else f"{one.mixture:.2f}",
        )
        for one in facts.drawings
    )  # fmt: skip
    return Table("What the venturi draws", ("point", "throat, m/s", "jet, mm", "mixture"), rows)
