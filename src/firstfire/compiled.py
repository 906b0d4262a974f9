"""Where compiled code is kept, and how it is made to follow its sources.

Numba's cache notices a change in the file of a compiled function, but not in the file of a
function it calls. Each room that compiles therefore has a folder named by a hash of all its
sources and of the versions that matter, so that a changed source never meets old machine code.
"""

from __future__ import annotations

import hashlib
import sys
from collections.abc import Callable, Sequence
from contextlib import suppress
from pathlib import Path
from typing import Any, TypeVar

import numba
import numpy
from numba.core import config
from numba.core.caching import FunctionCache

from firstfire.files import cache_folder

Function = TypeVar("Function", bound=Callable[..., Any])


def kept_in(name: str, sources: Sequence[Path]) -> Path:
    """Folder of the code compiled from exactly these sources with exactly these versions.

    Parameters
    ----------
    name
        What is compiled: the folder's name begins with it.
    sources
        Every file whose functions may end up in the code.

    Notes
    -----
    ``FIRSTFIRE_CACHE`` moves the parent folder; otherwise it follows ``XDG_CACHE_HOME``, then
    the home folder, then the folder for temporary files.
    """
    digest = hashlib.sha256()
    for version in (numba.__version__, numpy.__version__, sys.version):
        digest.update(version.encode())
    for source in sources:
        digest.update(source.name.encode())
        digest.update(source.read_bytes())
    return cache_folder() / f"{name}-{digest.hexdigest()[:16]}"


class _Kept(FunctionCache):  # type: ignore[misc]
    """Numba's cache, without which a run only takes longer: what is broken in it is made anew.

    A file cut short, or one of a disk that was full, had ended every run with Python's own words.
    """

    def load_overload(self, sig: Any, target_context: Any) -> Any:
        """Compiled code as it was kept; None where it can't be read."""
        try:
            return super().load_overload(sig, target_context)
        except Exception:  # unpickling what is broken raises any of a dozen
            with suppress(OSError):
                self.flush()
            return None

    def save_overload(self, sig: Any, data: Any) -> None:
        """Keep compiled code, if there is room."""
        with suppress(OSError):
            super().save_overload(sig, data)


def compiled(function: Function, folder: Path, **options: Any) -> Function:
    """The function compiled, kept in a folder, without the interpreter's lock.

    Division by zero gives infinity or NaN, as in the hardware.
    """
    before = config.CACHE_DIR
    config.CACHE_DIR = str(folder)
    try:
        found: Function = numba.njit(cache=True, nogil=True, error_model="numpy", **options)(
            function
        )
        found._cache = _Kept(function)  # type: ignore[attr-defined]
    finally:
        config.CACHE_DIR = before
    return found
