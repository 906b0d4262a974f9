"""What can't be built: every contradiction of an engine's numbers, with a cure.

Each check is a function of one cylinder's values that yields problems. One that needs a
value which is missing or unreadable is passed over: that value has its own problem.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import cache

from firstfire.engine.engine import Engine
from firstfire.engine.grammar import Leaf, leaves, split
from firstfire.engine.impossible import crank, cylinder, joint, piston, spark, starter, valves
from firstfire.engine.impossible.fault import Check, Fault
from firstfire.engine.layers import Entry
from firstfire.engine.leaf import beyond_limits
from firstfire.engine.quantity import write_quantity
from firstfire.engine.values import Unsaid, Values
from firstfire.errors import OutsideValidity, Problem


def impossible(engine: Engine, each: Sequence[Values]) -> list[Problem]:
    """Every problem of an engine as a whole, in no particular order.

    Parameters
    ----------
    engine
        The engine.
    each
        What holds for each of its cylinders.
    """
    found = [*_missing(engine), *_beyond_the_layout(engine)]
    for values in each:
        for check in _CHECKS:
            found += _run(check, values)
    return list(dict.fromkeys(found))


def _rows_within_limits(ask: Values) -> Iterator[Fault]:
    """What a catalog row gives has the limits of what a file says: rows may be one's own."""
    for path, leaf, row in _from_rows():
        if ask[row] is None or ask.said(path) or ask[path] is None:
            continue
        beyond = beyond_limits(leaf, ask.number(path))
        if beyond is not None:
            given = write_quantity(ask.number(path), leaf.dimension)
            yield (path, f"is {given} by the row {ask[row]}, {beyond[0]}", beyond[1])


@cache
def _from_rows() -> tuple[tuple[str, Leaf, str], ...]:
    """Every path that a row supplies, what it holds, and the path at which the row is named."""
    return tuple((path, leaf, leaf.row[0]) for path, leaf in leaves().items() if leaf.row)


_CHECKS: tuple[Check, ...] = (
    _rows_within_limits, *crank.CHECKS, *joint.CHECKS, *piston.CHECKS, *valves.CHECKS,
    *cylinder.CHECKS, *spark.CHECKS, *starter.CHECKS,
)  # fmt: skip


def _run(check: Check, values: Values) -> list[Problem]:
    found = []
    try:
        for path, fault, cure in check(values):
            said = values.stack.top(path, values.cylinder)
            found.append(Problem(said.path if said else path, fault, cure, _line(said)))
    except (Unsaid, OutsideValidity):
        return found
    return found


def _line(entry: Entry | None) -> int:
    return entry.line if entry else 0


_REQUIRED = {
    "layout.kind": 'Write kind = "single" (or parallel_twin, v_twin, opposed_twin).',
    "cylinder.bore": 'Write bore = "44 mm" below [cylinder].',
    "cylinder.stroke": 'Write stroke = "40 mm" below [cylinder].',
    "printing.material": 'Write material = "petg" below [printing].',
}


def _missing(engine: Engine) -> Iterator[Problem]:
    faulty = {split(path)[1] for path in engine.faulty}
    for path, cure in _REQUIRED.items():
        lacking = [
            cylinder
            for cylinder in range(1, engine.cylinders + 1)
            if engine.stack.top(path, cylinder) is None and path not in faulty
        ]
        if not lacking:
            continue
        if leaves()[path].own and 0 < len(lacking) < engine.cylinders:
            other = next(c for c in range(1, engine.cylinders + 1) if c not in lacking)
            yield Problem(
                f"cylinders.{lacking[0]}.{path}",
                f"is missing: cylinder {other} has it, cylinder {lacking[0]} doesn't",
                f"{cure} Said once without cylinders.{other} it holds for both.",
            )
        else:
            yield Problem(path, "is missing", cure)


def _beyond_the_layout(engine: Engine) -> Iterator[Problem]:
    """Something said for cylinder 2 of a single."""
    for layer in engine.stack.layers:
        for path, entry in layer.entries.items():
            cylinder, _ = split(path)
            if cylinder is not None and cylinder > engine.cylinders:
                plural = "one cylinder" if engine.cylinders == 1 else "two cylinders"
                yield Problem(
                    path,
                    f"speaks of cylinder {cylinder}, but the layout has {plural}",
                    "Cylinders are counted from 1. Take the line out, or change layout.kind.",
                    entry.line,
                )
