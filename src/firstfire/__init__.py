"""What a small home-printed four-stroke engine will do, before it is printed.

The main job in three lines::

    import firstfire as ff
    engine = ff.read("wren.toml")
    print(ff.check(engine))

What is listed in ``__all__`` is promised; nothing else is.
"""

from __future__ import annotations

from importlib import import_module
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from firstfire.cycle.closed_cycle import ClosedCycle, closed_cycle
    from firstfire.cycle.free_shaft import FreeShaft, free_shaft, kick_back_angle
    from firstfire.engine.engine import Engine
    from firstfire.engine.layers import Layer
    from firstfire.engine.read import read, read_layer, with_values
    from firstfire.engine.resolve import PlainEngine, resolve
    from firstfire.engine.unknowns import Unknown, unknowns
    from firstfire.errors import FirstfireError
    from firstfire.report.set_up import set_up
    from firstfire.runs.run import EventResult, events, run
    from firstfire.setup.cams.cams import cams, choose_cams
    from firstfire.setup.fits.fits import fits
    from firstfire.setup.fuel.sheet import fuel_sheet
    from firstfire.setup.misset.misset import misset
    from firstfire.setup.parts_list import parts_list
    from firstfire.setup.proof.bench_tests import bench_tests
    from firstfire.setup.spark.sparking import spark
    from firstfire.setup.tables.tables import tables
    from firstfire.setup.timing.timing import timing
    from firstfire.verdict.check import check
    from firstfire.verdict.compare.compare import compare
    from firstfire.verdict.facts.judge import judge
    from firstfire.verdict.facts.margin import Margin
    from firstfire.verdict.result import Result
    from firstfire.version import VERSION

    __version__: str = VERSION

# Where each public name lives; loaded on first use, so that importing the package stays light.
_HOMES = {
    "ClosedCycle": "cycle.closed_cycle",
    "EventResult": "runs.run",
    "Margin": "verdict.facts.margin",
    "closed_cycle": "cycle.closed_cycle",
    "FreeShaft": "cycle.free_shaft",
    "free_shaft": "cycle.free_shaft",
    "fuel_sheet": "setup.fuel.sheet",
    "kick_back_angle": "cycle.free_shaft",
    "judge": "verdict.facts.judge",
    "events": "runs.run",
    "run": "runs.run",
    "Engine": "engine.engine",
    "FirstfireError": "errors",
    "Layer": "engine.layers",
    "PlainEngine": "engine.resolve",
    "Result": "verdict.result",
    "Unknown": "engine.unknowns",
    "bench_tests": "setup.proof.bench_tests",
    "check": "verdict.check",
    "compare": "verdict.compare.compare",
    "fits": "setup.fits.fits",
    "cams": "setup.cams.cams",
    "choose_cams": "setup.cams.cams",
    "misset": "setup.misset.misset",
    "parts_list": "setup.parts_list",
    "read": "engine.read",
    "read_layer": "engine.read",
    "resolve": "engine.resolve",
    "set_up": "report.set_up",
    "spark": "setup.spark.sparking",
    "tables": "setup.tables.tables",
    "timing": "setup.timing.timing",
    "unknowns": "engine.unknowns",
    "with_values": "engine.read",
}

__all__ = [
    "ClosedCycle",
    "Engine",
    "EventResult",
    "FirstfireError",
    "FreeShaft",
    "Layer",
    "Margin",
    "PlainEngine",
    "Result",
    "Unknown",
    "__version__",
    "bench_tests",
    "cams",
    "check",
    "choose_cams",
    "closed_cycle",
    "compare",
    "events",
    "fits",
    "free_shaft",
    "fuel_sheet",
    "judge",
    "kick_back_angle",
    "misset",
    "parts_list",
    "read",
    "read_layer",
    "resolve",
    "run",
    "set_up",
    "spark",
    "tables",
    "timing",
    "unknowns",
    "with_values",
]


def __getattr__(name: str) -> Any:
    if name == "__version__":
        return import_module("firstfire.version").VERSION
    if name in _HOMES:
        return getattr(import_module(f"firstfire.{_HOMES[name]}"), name)
    raise AttributeError(f"firstfire has no {name!r}; it has: {', '.join(__all__)}")


def __dir__() -> list[str]:
    return sorted(__all__)
