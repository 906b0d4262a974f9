"""What is said of a start's fuel: how rich it can be, what it is primed with, what is flooded."""

from __future__ import annotations

from collections.abc import Iterator

from firstfire.engine.quantity import write_quantity
from firstfire.runs.start.account import Account
from firstfire.runs.start.asked import Asked, Lived
from firstfire.runs.start.fuelling import pulse_volume
from firstfire.runs.start.vapour import LIGHTS_WELL, richest, warm_enough
from firstfire.verdict.numbers import THIN, figures
from firstfire.verdict.start.moment import Happened, speed_before

_PLENTY = 2.0


def primed(asked: Asked) -> Iterator[Happened]:
    """That fuel was put in beforehand."""
    if asked.prime > 0.0:
        pulses = "pulse" if asked.prime == 1.0 else "pulses"
        yield Happened(0.0, 0.0, f"primed with {figures(asked.prime, 2)} {pulses} of fuel a port")


def flooded(lived: Lived) -> Iterator[Happened]:
    """When liquid fuel first wets a plug, or stops a piston."""
    wet = next((one for one in lived.fed if one.wet), None)
    if wet is not None:
        held = f"{figures(1e9 * wet.liquid, 2)}{THIN}mm³"
        yield Happened(
            wet.seconds,
            speed_before(lived, wet.seconds),
            f"plug {wet.cylinder + 1} is wet: {held} lie in it",
        )
    if lived.locked is not None:
        yield Happened(
            lived.locked, speed_before(lived, lived.locked),
            "liquid fuel fills the clearance and stops the piston: plug out, turn it dry by hand",
        )  # fmt: skip


def fuel(found: Account) -> str | None:
    """How rich a cold fuel can be made, where that is not enough or nearly not."""
    can_be = richest(found.plain)
    if can_be >= _PLENTY:
        return None
    warm = warm_enough(found.plain, LIGHTS_WELL)
    name = found.engine.catalog.row("fuel", found.plain.intake.fuel).name
    at = write_quantity(found.plain.surroundings.air_temperature, "temperature", digits=3)
    words = f"{name} at {at} gives vapour for {figures(can_be, 2)} of just enough at most"
    if can_be < LIGHTS_WELL and warm is not None:
        words += f"; from {write_quantity(warm, 'temperature', digits=3)} on it does"
    return words


def priming(found: Account) -> str | None:
    """How many pulses of fuel it wants beforehand, and from when it is over-primed."""
    if found.priming is None:
        return None
    wanted, over = found.priming.wanted, found.priming.too_many
    if wanted is None:
        return "without a choke or start map no priming lights it in time: warm it, or choke it"
    each = pulse_volume(found.plain)
    said = "none" if wanted == 0 else f"{wanted} of {figures(1e9 * each, 2)}{THIN}mm³ a port"
    words = f"{said}, without choke or start map"
    if over is not None:
        words += f"; {over} are too many"
    return words
