"""What is said of an engine's fuel in sentences."""

from __future__ import annotations

from collections.abc import Iterator

from firstfire.engine.quantity import write_quantity
from firstfire.runs.start.priming import PULSES
from firstfire.setup.fuel.facts import FuelFacts
from firstfire.setup.fuel.injector import InjectorFacts, Pulse
from firstfire.setup.fuel.mixer import MixerFacts
from firstfire.setup.fuel.shared import EVEN
from firstfire.verdict.facts.cautions import ESTIMATES, Caution, cautions
from firstfire.verdict.numbers import THIN, figures

_NAMES = {"carburettor": "a carburettor", "injector": "an injector", "gas_mixer": "a gas mixer"}


def opening(found: FuelFacts) -> str:
    """What it is about, and the first thing to know."""
    by = _NAMES[found.plain.intake.mixture_by]
    head = f"{found.engine.name}: {found.fuel.name} through {by}. "
    if found.faults:
        count = len(found.faults)
        return head + ("One thing does not work." if count == 1 else f"{count} things do not work.")
    return head + "Nothing found that does not work. Every number is an estimate."


def valve_words(found: FuelFacts) -> str:
    """Of the fuel valve at the tank."""
    if found.fuel.gas:
        return "Shut the bottle's own valve whenever it stands; a hose can let go by itself."
    has = "has a fuel valve" if found.plain.tank.valve else "has no fuel valve: fit one"
    return (
        f"The tank {has}, right at its outlet and within reach of a hand that does not pass the "
        "engine. Shut it whenever the engine stands: a float or an injector that leaks fills the "
        "cylinder, and liquid stops the piston."
    )


def priming_words(found: FuelFacts) -> Iterator[str]:
    """How many pulses before the first turn, and when it is over-primed."""
    cold = found.cold
    if cold.each is None:
        yield "A gas wants no priming."
        return
    if cold.why_no_priming:
        yield f"Priming is not judged: {cold.why_no_priming}."
        return
    size = f"{figures(1e9 * cold.each)}{THIN}mm³"
    if cold.on is not None:
        size += f" ({1e6 * cold.on:.0f} µs of the injector)"
    air = write_quantity(found.plain.surroundings.air_temperature, "temperature", digits=3)
    mapped = "start map" if found.injector else "choke"
    for with_map, primed in ((False, cold.primed), (True, cold.primed_map)):
        if primed is None:
            continue
        how = f"With a {mapped} that gives four times the fuel" if with_map else (
            f"Without a {mapped}"
        )  # fmt: skip
        yield f"{how}, at {air}: {_primed(primed.wanted, primed.too_many, size)}"


def _primed(wanted: int | None, too_many: int | None, size: str) -> str:
    if wanted is None:
        return f"no priming of up to {PULSES[-1]} pulses lights it within six sparks: warm it."
    each = f" of {size} into each port" if wanted else ""
    pulses = "pulse" if wanted == 1 else "pulses"
    words = f"{'no' if wanted == 0 else wanted} {pulses}{each} before the first turn"
    if too_many is None:
        return f"{words}."
    return (
        f"{words}; from {too_many} on{'' if wanted else f', {size} each,'} it is over-primed. Then "
        "shut the fuel valve, open the throttle, take the plug out (its lead earthed) and turn it "
        "until no more comes."
    )


def feeding_words(facts: InjectorFacts) -> Iterator[str]:
    """How evenly one injector feeds its cylinders."""
    shared = [one for one in facts.pulses if one.feeding and one.point.kind != "cranking"]
    if not shared:
        return
    worst = max(shared, key=_off)
    feeding = worst.feeding
    if feeding is None:
        return
    each = ", ".join(f"cylinder {n} {mixed(one)}" for n, one in enumerate(feeding.timed, 1))
    if feeding.uneven:
        yield (
            f"One injector feeds unevenly at {worst.point.name}, even with each pulse timed for "
            f'its cylinder: {each}. One for each (injector.feeds = "each") does not.'
        )
    else:
        yield (
            f"One injector feeds within {100 * EVEN:.0f} % where each pulse is timed for its own "
            f"cylinder; at worst, at {worst.point.name}: {each}."
        )
    low = min(one.feeding.alike[0] for one in shared if one.feeding)
    high = max(one.feeding.alike[1] for one in shared if one.feeding)
    yield (
        f"Two equal pulses, a turn apart and not timed to the inlets, leave a cylinder with "
        f"{figures(low, 2)} to {figures(high, 2)} times the mixture asked for, by where they lie."
    )


def given_words(facts: InjectorFacts) -> Iterator[str]:
    """What an injector that is not what it was told to be does to idle."""
    if facts.idle is None:
        return
    low, high = facts.idle.given
    yield (
        f"By that, idle gets {figures(low, 2)} to {figures(high, 2)} times the fuel it asks for "
        "until you have measured flow and dead time and set them in the file."
    )


def breathing_words(facts: InjectorFacts) -> Iterator[str]:
    """What equal pulses do where cylinders don't draw alike."""
    fired = [one for one in facts.pulses if one.point.kind != "cranking"]
    worst = max(fired, key=_unlike)
    if _unlike(worst) <= EVEN:
        return
    mean = sum(worst.point.at.air) / len(worst.point.at.air)
    each = ", ".join(
        f"cylinder {n} {mixed(mean / air)}" for n, air in enumerate(worst.point.at.air, 1)
    )
    yield (
        f"The cylinders don't draw alike at {worst.point.name}: with equal pulses {each}. Give "
        "each its own pulse, as above."
    )


def _unlike(one: Pulse) -> float:
    """How far one cylinder's air is off the mean, as a share."""
    air = one.point.at.air
    return max(abs(each * len(air) / sum(air) - 1.0) for each in air)


def mixed(share: float) -> str:
    """*3 % lean*."""
    off = 100 * (share - 1.0)
    return "right" if abs(off) < 0.5 else f"{abs(off):.0f} % {'rich' if off > 0 else 'lean'}"


def _off(one: Pulse) -> float:
    return max(abs(share - 1.0) for share in one.feeding.timed) if one.feeding else 0.0


def mixer_words(found: FuelFacts, facts: MixerFacts) -> Iterator[str]:
    """What a venturi does where it does not draw."""
    crank = facts.drawings[0]
    if facts.gas:
        if crank.pull < 1.0:
            yield "While it is cranked it draws no gas: press the governor's diaphragm to start."
        return
    if crank.pull < 1.0:
        yield "While it is cranked its venturi draws no fuel: choke it or prime it to start."
    if found.points.idle is None:
        yield f"Idle jet not judged: {found.points.why_no_idle}"
    elif facts.idle_wanted is None:
        yield "At idle the venturi draws all the fuel wanted: no idle jet."


def sheet_cautions(found: FuelFacts) -> tuple[Caution, ...]:
    """What to mind where fuel is handled."""
    names = ("fuel", "stop", "starter", "stray", "fumes")
    kept = [one for one in cautions(found.engine, found.plain) if one.hazard.startswith(names)]
    return (ESTIMATES, *kept, *_own(found))


def _own(found: FuelFacts) -> Iterator[Caution]:
    """Those of fuel that is led, pumped and primed."""
    yield Caution("fuel valve", valve_words(found), "tank.valve")
    if found.fuel.gas:
        yield Caution(
            "gas",
            "Propane and butane sink and pool in pits and cellars. Outdoors only; a second valve "
            "that shuts without vacuum or current, and soap water on every joint first.",
            "intake.fuel",
        )
        return
    yield Caution(
        "priming",
        "A brushed drill sparks beside priming vapour. Prime, close everything, wait until the "
        "smell is gone, then bring the drill.",
        "starter.kind",
    )
    if found.plain.tank.feed == "pump":
        yield Caution(
            "pump",
            "A pump that runs on after a hose lets go sprays fuel on hot parts. Its relay opens "
            "when no spark has come for a second, and with the stop switch.",
            "tank.feed",
        )
