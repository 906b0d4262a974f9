"""A check: all that is known of an engine, and what isn't, as one result."""

from __future__ import annotations

import math

from firstfire.engine.engine import Engine
from firstfire.engine.geometry import geometry
from firstfire.engine.resolve import PlainEngine, resolve
from firstfire.verdict.cautions import cautions
from firstfire.verdict.result import Result, Unjudged
from firstfire.version import VERSION

_NOT_YET = (
    ("power and torque", "the gas side isn't computed in this version"),
    ("what fails first", "loads and strengths aren't computed in this version"),
    ("how long it may run", "wall temperatures aren't computed in this version"),
    ("starting and kick-back", "the free shaft isn't computed in this version"),
)


def check(engine: Engine) -> Result:
    """All that is known of `engine`.

    Raises
    ------
    OutsideValidity
        Where what is asked can't be answered at all.
    """
    plain = resolve(engine)
    return Result(
        engine=engine,
        plain=plain,
        geometry=geometry(plain),
        unjudged=(*(Unjudged(*pair) for pair in _NOT_YET), *_beyond(plain)),
        cautions=cautions(engine, plain),
        version=VERSION,
    )


def _beyond(plain: PlainEngine) -> list[Unjudged]:
    """What this engine asks that no model here will cover."""
    found = []
    fastest = max(plain.use.full_throttle_speeds) * 30 / math.pi
    if fastest > 8000:
        found.append(
            Unjudged(
                f"running at {fastest:.0f} rpm",
                "above about 8000 rpm wave action in pipes and the correlations for burning and "
                "wall heat are beyond what they were fitted on",
            )
        )
    if plain.cylinders[0].cylinder.compression_ratio > 8.5 and plain.intake.fuel in (
        "petrol",
        "e10",
    ):
        found.append(Unjudged("knock", "it isn't computed in this version; above 8.5 it matters"))
    return found
