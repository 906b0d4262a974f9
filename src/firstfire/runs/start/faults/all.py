"""All faults of a start, and an engine that has some.

None has its outcome written down: a leak leaks, a cam a tooth off opens its valves elsewhere, a
spark that comes half a cycle off finds the valves open.
"""

from __future__ import annotations

import difflib
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from typing import Any

from firstfire.engine.engine import Engine
from firstfire.engine.quantity import NotAQuantity, read_quantity
from firstfire.engine.read import with_values
from firstfire.engine.resolve import resolve
from firstfire.errors import EngineFileError, FirstfireError, Problem
from firstfire.runs.start.asked import Asked
from firstfire.runs.start.faults.fault import DoesNotApplyError, Fault
from firstfire.runs.start.faults.of_fuel import FUEL
from firstfire.runs.start.faults.of_leaks import LEAKS
from firstfire.runs.start.faults.of_sparks import SPARKS
from firstfire.runs.start.faults.of_turning import TURNING

FAULTS: tuple[Fault, ...] = (*SPARKS, *FUEL, *LEAKS, *TURNING)
"""Every fault there is, in the order it is listed."""


def fault_named(name: str) -> Fault:
    """The fault of that name.

    Raises
    ------
    FirstfireError
        Where there is none; it names those that are alike.
    """
    for fault in FAULTS:
        if fault.name == name:
            return fault
    near = difflib.get_close_matches(name, [fault.name for fault in FAULTS], 3, 0.5)
    meant = f" Did you mean {' or '.join(near)}?" if near else ""
    raise FirstfireError(f'There is no fault "{name}".{meant} `firstfire faults` lists them.')


def with_faults(engine: Engine, asked: Asked, written: Sequence[str]) -> tuple[Engine, Asked]:
    """An engine and a start that have some faults, each on top of those before.

    Parameters
    ----------
    engine, asked
        Without them.
    written
        ``name`` or ``name=size`` of each.

    Raises
    ------
    FirstfireError
        For unknown names, sizes that do not do and faults that this engine cannot have, all at
        once.
    """
    problems: list[Problem] = []
    for one in written:
        try:
            engine, asked = _with(engine, asked, one)
        except EngineFileError as why:
            problems += [_of(one, problem) for problem in why.problems]
        except DoesNotApplyError as why:
            problems.append(
                Problem(f"--fault {one}", f"is none of this engine: {why}", "Leave it out.")
            )
        except FirstfireError as why:
            fault, _, cure = str(why).partition(". ")
            problems.append(Problem(f"--fault {one}", _begun_small(fault), cure))
    if problems:
        raise EngineFileError("firstfire start", problems)
    return engine, asked


def _of(written: str, problem: Problem) -> Problem:
    """A problem of a layer, as one of the fault that laid it."""
    if problem.path.startswith("--fault"):
        return problem
    return replace(problem, path=f"--fault {written}: {problem.path}")


def _begun_small(said: str) -> str:
    return said[0].lower() + said[1:]


def _with(engine: Engine, asked: Asked, written: str) -> tuple[Engine, Asked]:
    name, _, size = written.partition("=")
    fault = fault_named(name.strip())
    value = _size(fault, size.strip(), written)
    layer, obeyed = fault.does(resolve(engine), value)
    if layer:
        engine = with_values(engine, dict(layer), layer="fault", origin=f"fault {fault.name}")
        _heard(engine, layer)
    return engine, _obeying(asked, obeyed)


def _heard(engine: Engine, layer: Mapping[str, object]) -> None:
    """Refuse a fault that something tried outranks: it would be hidden."""
    for path in layer:
        entry = engine.stack.top(path)
        if entry is not None and entry.layer != "fault":
            raise FirstfireError(
                f"Is overruled: {path} is tried as {entry.written}. Write that in the file instead."
            )


def _obeying(asked: Asked, obeyed: Mapping[str, Any]) -> Asked:
    """A start that obeys a fault too: shares multiply, shifts and torques add up."""
    wrong, asks = asked.wrong, dict(obeyed)
    mixture, advance = asks.pop("mixture", None), asks.pop("advance", 0.0)
    if mixture is not None and asked.mixture != 0.0:
        asked = replace(asked, mixture=float(mixture))
    if asked.advance is not None:
        asked = replace(asked, advance=asked.advance + float(advance))
    for name, value in asks.items():
        wrong = replace(wrong, **{name: _both(name, getattr(wrong, name), value)})
    return replace(asked, wrong=wrong)


def _both(name: str, one: Any, other: Any) -> Any:
    if name == "spark_share":
        return one * other
    if name in ("resets_at", "slips_at"):
        return min(one, other)
    return one or other if isinstance(one, bool) else one + other


def _size(fault: Fault, size: str, written: str) -> float:
    if not fault.size:
        if size:
            raise FirstfireError(f"It has no size. Write --fault {fault.name}.")
        return 0.0
    cure = f'Write --fault {fault.name}="{fault.usual}".'
    try:
        value = float(read_quantity(size or fault.usual, fault.dimension))
    except NotAQuantity as why:
        raise EngineFileError("", [Problem(f"--fault {written}", why.fault, cure)]) from None
    low, high = (float(read_quantity(end, fault.dimension)) for end in (fault.least, fault.most))
    if not low <= value <= high:
        beyond = f"is beyond {fault.least} to {fault.most}"
        raise EngineFileError("", [Problem(f"--fault {written}", beyond, cure)])
    return value


def listed() -> Iterator[tuple[str, str]]:
    """Each fault with its size as it is written, and what is wrong with what sign."""
    for fault in FAULTS:
        asked = f"{fault.name}={fault.usual}" if fault.size else fault.name
        size = f" ({fault.size})" if fault.size else ""
        yield asked, f"{fault.what}{size}: {fault.sign}"
