"""In which order an engine is set up, from its test pieces to its first spin: one line a step."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import NamedTuple

from firstfire.engine.resolve import PlainEngine
from firstfire.setup.tables.tables import no_controller


class Turn(NamedTuple):
    """One step, and the section that says how.

    Attributes
    ----------
    do
        As an order.
    section
        Id of a chapter, or ``steps`` for the timing.
    """

    do: str
    section: str


def order(plain: PlainEngine, chapters: Sequence[str]) -> tuple[Turn, ...]:
    """The steps of an engine, those of chapters that it has.

    Parameters
    ----------
    plain
        The engine.
    chapters
        Ids of the chapters that are told.
    """
    return tuple(one for one in _all(plain) if one.section in ("steps", *chapters))


def _all(plain: PlainEngine) -> Iterator[Turn]:
    yield Turn("Print and break the test pieces and read the gauge of holes and pins, before the "
               "engine is printed; what you read may change its file.", "proof")  # fmt: skip
    yield Turn("Print, buy and make what the list has, and measure what you bought as it comes.",
               "parts")  # fmt: skip
    yield Turn("Measure the bore, press the seats, set the clearances, tighten the head by the "
               "sheet and again the next morning.", "fits")  # fmt: skip
    yield Turn("Prove cylinders and crank cold, with liquid and a bar, then drain and dry them. "
               "Where it says that it will not hold, go no further.", "proof")  # fmt: skip
    yield Turn("Cams, lash and timing, plug out: ten steps.", "steps")
    yield Turn("Springs and gaps against their limits; turn it through with clay on the crown.",
               "cams")  # fmt: skip
    yield Turn("By hand through two turns; then behind its shield, no fuel near and ignition "
               "unplugged, crank it with a gauge in the plug's place.", "compression")  # fmt: skip
    yield Turn("Wire it by its sheet, battery off, coil last.", "wiring")
    if not no_controller(plain):
        yield Turn(f"Its tables into the controller, {_unconnected(plain)}; watch its pins with a "
                   "lamp at power-up, reset and flashing.", "tables")  # fmt: skip
    trigger = "points" if plain.spark.source == "points" else "sensor"
    yield Turn(f"Set the plug's gap, the {trigger} and the start angle; see the spark with the "
               "plug out and on its return lead, no fuel near.", "spark")  # fmt: skip
    yield Turn("Tank, valve, hose and what meters the fuel; no leak for an hour, valve shut.",
               "fuel")  # fmt: skip
    yield Turn("Last, plug in, by hand through two turns, then cranked without fuel behind its "
               "shield: firstfire start FILE says how fast it should turn and what a start does.",
               "steps")  # fmt: skip


def _unconnected(plain: PlainEngine) -> str:
    """What a controller must not switch before its pins are known."""
    switched = [
        word
        for word, there in (
            ("coil", plain.spark.source == "sensor"),
            ("injector", plain.intake.mixture_by == "injector"),
        )
        if there
    ]
    return f"with no {' and no '.join(switched)} connected"
