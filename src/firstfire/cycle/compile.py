"""How the kernel is compiled, and where the compiled code is kept (`firstfire.compiled`)."""

from __future__ import annotations

import re
from collections.abc import Callable
from functools import cache
from pathlib import Path
from typing import Any, TypeVar

import numba

from firstfire.compiled import compiled, kept_in

Function = TypeVar("Function", bound=Callable[..., Any])

IMPORTED = re.compile(r"^from firstfire\.formulas(?:\.(\w+))? import ([^(#\n]+|\([^)]*\))", re.M)
"""Where a source of the kernel takes a formula from."""


@cache
def cache_folder() -> Path:
    """Folder of the compiled kernel of exactly these sources and versions."""
    return kept_in("kernel", kernel_sources())


def kernel_sources() -> list[Path]:
    """Every source whose functions may end up in compiled code: the room and its formulas."""
    package = Path(__file__).parent.parent
    room = sorted((package / "cycle").glob("*.py"))
    names: set[str] = set()
    for source in room:
        for module, listed in IMPORTED.findall(source.read_text(encoding="utf-8")):
            names.update([module] if module else re.findall(r"\w+", listed))
    formulas = [package / "formulas" / f"{name}.py" for name in sorted(names)]
    return room + [source for source in formulas if source.exists()]


KEPT_ORDER = frozenset({"contract", "arcp"})
"""A product and a sum may become one instruction, which rounds once, and a division by a number
written out a product; the order of sums is kept."""

ANY_ORDER = frozenset({"contract", "nsz", "arcp", "reassoc"})
"""Sums may be reordered as well; not-a-number is still not a number."""


def kernel(function: Function) -> Function:
    """A function compiled for use within the kernel only: cached, without the interpreter lock.

    Parameters
    ----------
    function
        Plain function of numbers, arrays and records.

    Notes
    -----
    LLVM puts it into its callers: a step is one piece of machine code, which took 0.7 of the time
    that calls took, and no longer to compile.

    Division by zero gives infinity or NaN, as in the hardware; the stepper rejects such a step.
    The order of additions is kept (:data:`KEPT_ORDER`), so that results repeat.

    Numbers written out among the arguments of a call make a compilation of their own, of 0.3 to
    3 s: hand on variables.
    """
    return _compiled(
        function, KEPT_ORDER, no_cpython_wrapper=True, no_cfunc_wrapper=True, forceinline=True
    )


def kernel_part(function: Function) -> Function:
    """As :func:`kernel`, put into its callers before they are compiled.

    For short functions and such as are called once: compiled by itself, each would cost some
    0.3 s of the first run. Long ones cost more this way than they save.
    """
    part: Function = numba.njit(inline="always")(function)
    return part


def kernel_apart(function: Function) -> Function:
    """As :func:`kernel`, called and not put into its callers: what is long, and seldom asked."""
    return _compiled(function, KEPT_ORDER, no_cpython_wrapper=True, no_cfunc_wrapper=True)


def kernel_entry(function: Function) -> Function:
    """As :func:`kernel`, for the few functions that Python calls."""
    return _compiled(function, KEPT_ORDER, no_cfunc_wrapper=True)


def quick_part(function: Function) -> Function:
    """As :func:`kernel`, for polynomials: sums in any order, put into its callers by LLVM."""
    return _compiled(
        function, ANY_ORDER, no_cpython_wrapper=True, no_cfunc_wrapper=True, forceinline=True
    )


def quick_entry(function: Function) -> Function:
    """As :func:`kernel_entry`, sums in any order."""
    return _compiled(function, ANY_ORDER, no_cfunc_wrapper=True)


def _compiled(function: Function, fastmath: frozenset[str], **options: bool) -> Function:
    return compiled(function, cache_folder(), fastmath=set(fastmath), **options)
