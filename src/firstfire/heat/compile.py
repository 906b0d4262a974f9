"""How the walls' march is compiled, and where the compiled code is kept."""

from __future__ import annotations

from collections.abc import Callable
from functools import cache
from pathlib import Path
from typing import Any, TypeVar

from firstfire.compiled import compiled, kept_in

Function = TypeVar("Function", bound=Callable[..., Any])

SOURCES = ("circuit.py", "compile.py", "decomposing.py", "march.py", "solved.py")
"""Whose functions end up in compiled code."""

FUSED = {"contract"}
"""A product and a sum may be rounded once instead of twice, which the processor does in one go."""


@cache
def cache_folder() -> Path:
    """Folder of the march compiled from exactly these sources and versions."""
    here = Path(__file__).parent
    return kept_in("walls", [here / name for name in SOURCES])


def inside(function: Function) -> Function:
    """The function compiled for use by others of the march only."""
    hidden = {"no_cpython_wrapper": True, "no_cfunc_wrapper": True}
    return compiled(function, cache_folder(), fastmath=FUSED, **hidden)


def entry(function: Function) -> Function:
    """The function compiled, for the few that Python calls."""
    return compiled(function, cache_folder(), fastmath=FUSED)
