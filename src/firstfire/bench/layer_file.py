"""A learned layer as a file: what a reading says of each leak, with its 5-95 %."""

from __future__ import annotations

import math
from collections.abc import Mapping

from firstfire.bench.gauge import LEAKS
from firstfire.bench.learned_leak import Area, Learned
from firstfire.engine.description import CylinderParts
from firstfire.engine.quantity import write_quantity
from firstfire.engine.read import LAYER_SCHEMA

_DIGITS = 3


def shared_out(learned: Learned, parts: CylinderParts) -> dict[str, Area]:
    """Each leak of a cylinder, so that together they are what was learned.

    One reading tells the sum alone: it is shared out as the file has it. With a second, the rings
    have what oil closed, and the rest is shared out among the others.
    """
    have = {name: float(getattr(parts.leak, name)) for name in LEAKS}
    if learned.ring is None or learned.others is None:
        return _by_share(learned.total, have)
    others = {name: area for name, area in have.items() if name != "ring"}
    return {"ring": learned.ring, **_by_share(learned.others, others)}


def _by_share(total: Area, have: Mapping[str, float]) -> dict[str, Area]:
    """By their share; each as much wider as leaves the sum of independent ones as wide."""
    whole = math.fsum(have.values())
    if whole <= 0:
        have, whole = {"ring": 1.0}, 1.0
    shares = {name: area / whole for name, area in have.items() if area > 0}
    wider = 1 / math.sqrt(math.fsum(share**2 for share in shares.values()))
    return {
        name: Area(
            share * total.middle,
            share * total.middle * (total.low / total.middle) ** wider,
            share * total.middle * (total.high / total.middle) ** wider,
        )
        for name, share in shares.items()
    }


def layer_text(areas: Mapping[str, Area], origin: str, note: str, cylinder: int | None) -> str:
    """The file's text.

    Parameters
    ----------
    areas
        By leak.
    origin, note
        What was read, and how.
    cylinder
        Counted from 1; None for all.
    """
    prefix = "" if cylinder is None else f"cylinders.{cylinder}."
    lines = [
        f'schema = "{LAYER_SCHEMA}"',
        'layer = "learned"',
        f'origin = "{origin}"',
        f'note = "{note}"',
        "",
        "[set]",
        *(f"{prefix}leak.{name} = {_table(area)}" for name, area in areas.items()),
    ]
    return "\n".join(lines) + "\n"


def _table(area: Area) -> str:
    value, low, high = (
        write_quantity(float(f"{a:.{_DIGITS}g}"), "area")
        for a in (area.middle, area.low, area.high)
    )
    return f'{{ value = "{value}", low = "{low}", high = "{high}" }}'
