"""What is tightened and measured at the bench, for the one sheet that goes there."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from firstfire.engine.description import CylinderParts
from firstfire.verdict.numbers import shown
from firstfire.verdict.result import Result


@dataclass(frozen=True)
class Bench:
    """Names and values, as the engine file has them."""

    rows: tuple[tuple[str, str], ...]


def bench(result: Result) -> Bench:
    """Torques and cold clearances of each cylinder; once where the cylinders are alike.

    Parameters
    ----------
    result
        From `check`.
    """
    each = [list(_of(parts)) for parts in result.plain.cylinders]
    rows = []
    for same in zip(*each, strict=True):
        names, values = zip(*same, strict=True)
        alike = len(set(values)) == 1
        numbered = (f"{value} (cylinder {n})" for n, value in enumerate(values, start=1))
        rows.append((names[0], values[0] if alike else "; ".join(numbered)))
    return Bench(tuple(rows))


def _of(parts: CylinderParts) -> Iterator[tuple[str, str]]:
    held = parts.head.fasteners
    yield "head bolts", f"{held.count} × {held.thread}, {shown(held.torque, 'N*m', 2)} each"
    yield "plug's gap", shown(parts.plug.gap, "mm")
    for which in ("inlet", "exhaust"):
        valve = getattr(parts.valves, which)
        suction = valve.worked == "suction"
        yield (
            f"{which} valve's lash",
            "none: suction opens it" if suction else shown(valve.lash, "mm"),
        )
    yield "piston in bore, at the skirt", shown(parts.piston.skirt_clearance, "mm")
    yield "piston to deck at top", shown(parts.cylinder.deck, "mm")
    if parts.rings.kind in ("metal", "ptfe"):
        yield "ring's gap in the bore", shown(parts.rings.gap, "mm")
    else:
        yield "ring's gap in the bore", "none"
