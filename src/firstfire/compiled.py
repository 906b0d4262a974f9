"""Where compiled code is kept, and how it is made to follow its sources.

Numba's cache notices a change in the file of a compiled function, but not in the file of a
function it calls. Each room that compiles therefore has a folder named by a hash of all its
sources and of the versions that matter, so that a changed source never meets old machine code.
"""

from __future__ import annotations

import hashlib
import os
import sys
import tempfile
from collections.abc import Callable, Sequence
from pathlib import Path
from typing import Any, TypeVar

import numba
import numpy
from numba.core import config

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
    return _parent_folder() / f"{name}-{digest.hexdigest()[:16]}"


def _parent_folder() -> Path:
    chosen = os.environ.get("FIRSTFIRE_CACHE")
    if chosen:
        return Path(chosen)
    usual = os.environ.get("XDG_CACHE_HOME")
    candidates = [Path(usual)] if usual else []
    candidates.append(Path.home() / ".cache")
    for parent in candidates:
        folder = parent / "firstfire"
        try:
            folder.mkdir(parents=True, exist_ok=True)
        except OSError:
            continue
        if os.access(folder, os.W_OK):
            return folder
    return Path(tempfile.gettempdir()) / "firstfire"


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
    finally:
        config.CACHE_DIR = before
    return found
