"""What a spark asks of the leads of an engine whose parts are no earth, and what guards it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Literal

from firstfire.engine.coils import paired
from firstfire.engine.description import CylinderParts
from firstfire.engine.resolve import PlainEngine
from firstfire.setup.spark.triggers import spark_in_air
from firstfire.verdict.numbers import THIN, figures

State = Literal["done", "do", "lacking", "not judged"]


@dataclass(frozen=True)
class Lead:
    """One rule of the leads.

    Attributes
    ----------
    id
        Fixed.
    state
        Whether the file has it, it is to be done, it is lacking, or nobody can say.
    do
        As an order.
    why
        In a sentence.
    """

    id: str
    state: State
    do: str
    why: str


def conducts(plain: PlainEngine, parts: CylinderParts) -> bool:
    """Whether a cylinder's head is metal, so that its plug's shell has an earth of its own."""
    return bool(plain.materials[parts.head.material].metal)


def leads(plain: PlainEngine, most_volts: float) -> tuple[Lead, ...]:
    """Every rule for the leads of this engine.

    Parameters
    ----------
    plain
        Plain numbers.
    most_volts
        That its coil may come to, V.
    """
    return (*_returns(plain), *_bonds(plain), *_tracks(plain, most_volts), *_quiet(plain),
            *_hands())  # fmt: skip


def _returns(plain: PlainEngine) -> Iterator[Lead]:
    if paired(plain):
        return
    for number, parts in enumerate(plain.cylinders, 1):
        state: State = "done" if parts.plug.return_lead else "lacking"
        if conducts(plain, parts) and state == "lacking":
            state = "do"
        yield Lead(
            f"return.{number}", state,
            f"Lead from the shell of plug {number}, under its seat, to the coil's earth tag or the "
            "battery's minus.",
            "A plastic head is no earth: without it the spark goes through whatever is near."
            if not conducts(plain, parts) else "A metal head on plastic is an island all the same.",
        )  # fmt: skip


def _bonds(plain: PlainEngine) -> Iterator[Lead]:
    if paired(plain):
        has = all(parts.plug.return_lead for parts in plain.cylinders)
        yield Lead(
            "pair", "done" if has else "lacking", "Bond shell to shell with one short thick lead.",
            "The spark of a pair goes out at one end of the coil and home at the other, through "
            "both shells; no current of it returns by the battery.",
        )  # fmt: skip
    yield Lead(
        "loose",
        "do",
        "Bond what metal lies loose (screws, plates, liner, carburettor, tank) to that lead.",
        "Metal that floats charges up by the spark beside it and sparks on, at fuel perhaps.",
    )


def _tracks(plain: PlainEngine, most_volts: float) -> Iterator[Lead]:
    fibred = any(plain.materials[parts.head.material].fibres for parts in plain.cylinders)
    away = 2.0 * spark_in_air(most_volts)
    yield Lead(
        "distance", "do",
        f"Keep lead, cap and plug {figures(1e3 * away, 2)}{THIN}mm from metal and hands, or cover "
        "them.",
        f"Twice what {figures(most_volts / 1e3, 2)}{THIN}kV jump in open air: an estimate for "
        "clean dry surfaces; soot and damp carry it further.",
    )  # fmt: skip
    if fibred:
        yield Lead(
            "carbon", "not judged",
            "Sleeve the plug's insulator, or bush its hole with plain plastic or ceramic; look for "
            "black lines after the first sparks.",
            "Print with carbon fibres conducts a little and tracks; nobody publishes how much.",
        )  # fmt: skip


def _quiet(plain: PlainEngine) -> Iterator[Lead]:
    yield Lead(
        "suppressor", "do", "Use a plug cap or lead with 5 kΩ, and a short lead.",
        "The jump itself radiates; a resistor damps it and costs little of its energy.",
    )  # fmt: skip
    if plain.spark.source == "sensor":
        yield Lead(
            "sensor",
            "do",
            "Twist or screen the sensor's lead, away from the plug's; screen earthed at the "
            "controller alone.",
            "It would count the spark as an edge.",
        )
        yield Lead(
            "supply",
            "do",
            "Feed the controller by its own lead from the battery, with 100 nF and 100 µF at it.",
            "The coil's current and the starter's pull its voltage down.",
        )
        yield Lead(
            "hardware",
            "do",
            "Hold the driver off by a resistor at its gate until the controller says it runs.",
            "At power-up, reset and flashing its pins float, and would charge and fire the coil.",
        )
    if plain.spark.source == "points":
        yield Lead(
            "condenser", "do", "Condenser close across the points.",
            "Without it they arc, and the coil gives next to nothing.",
        )  # fmt: skip


def _hands() -> Iterator[Lead]:
    yield Lead(
        "by_hand", "do", "Plug lead off and laid to its return lead whenever a hand turns it.",
        "A magnet or point that passes by hand fires it too.",
    )  # fmt: skip
    yield Lead(
        "stop", "do", "One stop switch in reach cuts spark and fuel.",
        "An engine can run on without a spark.",
    )  # fmt: skip
