"""What turns an engine, with what is wrong with it."""

from __future__ import annotations

from dataclasses import replace

from firstfire.cycle.records import ShaftSpec
from firstfire.engine.resolve import PlainEngine
from firstfire.runs.spun import starter_line
from firstfire.runs.start.asked import Wrong


def dragged(shaft: ShaftSpec, wrong: Wrong) -> ShaftSpec:
    """A shaft with its bearings' drag."""
    return replace(shaft, friction=shaft.friction + wrong.drag)


def turned_by(plain: PlainEngine, wrong: Wrong) -> ShaftSpec:
    """What turns an engine: its starter's own line, with what is wrong with it.

    Parameters
    ----------
    plain
        Plain numbers.
    wrong
        A bearing's drag, or a starter that turns backwards, its clutch too: rigid then, as what
        stays behind or leaves it makes nothing run.
    """
    shaft = dragged(starter_line(plain), wrong)
    if not wrong.backwards:
        return shaft
    return replace(
        shaft, starter_stall=-shaft.starter_stall, starter_free=-shaft.starter_free,
        starter_one_way=False, inertia=shaft.inertia + shaft.rotor, rotor=0.0,
    )  # fmt: skip
