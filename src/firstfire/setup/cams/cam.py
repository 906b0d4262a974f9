"""The cams of an engine: their numbers, springs and gaps, and why one can't be made."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from firstfire.engine.engine import Engine
from firstfire.engine.resolve import PlainEngine, resolve
from firstfire.errors import OutsideValidity
from firstfire.formulas.cam_spring import SpringLine
from firstfire.loads.cam_profile import Profile, Which, profile
from firstfire.setup.cams import makeable
from firstfire.setup.cams.events import Wanted, as_it_is
from firstfire.setup.cams.gaps import Case, cases, unjudged
from firstfire.setup.cams.makeable import Nearest
from firstfire.setup.cams.numbers import numbers, top_speed
from firstfire.setup.cams.spring import Winding, needed_line, winding
from firstfire.setup.cams.suction_inlet import SuctionInlet, suction_inlet
from firstfire.setup.number import Number


@dataclass(frozen=True)
class Cam:
    """One cam.

    Attributes
    ----------
    which, made, numbers
        Whose, its profile, and its numbers.
    line
        The least spring that holds it, force over lift.
    winding
        A spring that gives it; None where none fits, and `no_winding` says why.
    no_winding
        A sentence, or "".
    faults
        Why it can't be made, a sentence each.
    nearest
        The nearest that can; None where none is needed, or none was found.
    """

    which: Which
    made: Profile
    numbers: tuple[Number, ...]
    line: SpringLine
    winding: Winding | None
    no_winding: str
    faults: tuple[str, ...]
    nearest: Nearest | None


@dataclass(frozen=True)
class Cams:
    """All cams of an engine; cylinders are alike, and the first one's are shown.

    Attributes
    ----------
    engine, plain
        As written, with the wanted cam in it, and as plain numbers.
    cams
        Each cam.
    gaps
        The least gaps, as drawn and otherwise.
    suction
        What a suction-opened inlet does; None where a cam opens it.
    values
        Values of the engine file that a wanted or chosen cam sets, by path.
    unjudged
        What of the gaps can't be told, a sentence each.
    """

    engine: Engine
    plain: PlainEngine
    cams: tuple[Cam, ...]
    gaps: tuple[Case, ...]
    suction: SuctionInlet | None
    values: Mapping[str, object] = field(default_factory=dict)
    unjudged: tuple[str, ...] = ()


def cams(
    engine: Engine,
    *,
    lash: float | None = None,
    wanted: Wanted | None = None,
    values: Mapping[str, object] | None = None,
) -> Cams:
    """Everything about the cams of an engine.

    Parameters
    ----------
    engine
        With the wanted cam in it already.
    lash
        As measured, m; None: nothing was.
    wanted
        What was asked for, for the nearest that can be made; None: what the file has.
    values
        What it set in the engine file.
    """
    plain = resolve(engine)
    which: tuple[Which, ...] = ("inlet", "exhaust")
    valves = plain.cylinders[0].valves
    made = tuple(
        _cam(engine, plain, name, wanted if wanted and wanted.which == name else None)
        for name in which
        if getattr(valves, name).worked == "cam"
    )
    suction = suction_inlet(plain) if valves.inlet.worked == "suction" else None
    said = engine.values(1).said("head.valve_bridge")
    return Cams(
        engine, plain, made, cases(plain, 0, lash, bridge_said=said), suction, dict(values or {}),
        unjudged(plain, 0, bridge_said=said),
    )  # fmt: skip


def _cam(engine: Engine, plain: PlainEngine, which: Which, wanted: Wanted | None) -> Cam:
    made = profile(plain.cylinders[0], which)
    speed = top_speed(plain)
    line, wound, why = needed_line(made, speed), None, ""
    try:
        wound = winding(made, line, speed)
    except OutsideValidity as fault:
        why = str(fault)
    faults = tuple(makeable.faults(plain, which))
    near = makeable.nearest(engine, wanted or as_it_is(plain, which)) if faults else None
    told = numbers(plain, made, makeable.line_width(plain))
    return Cam(which, made, told, line, wound, why, faults, near)
