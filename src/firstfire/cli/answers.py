"""Answers that are kept: the same question of the same files is not reckoned anew.

Only for what follows from an engine file alone and is asked again and again at the bench.
"""

from __future__ import annotations

import hashlib
import json
import os
from collections.abc import Callable, Iterator, Sequence
from contextlib import suppress
from pathlib import Path

from firstfire.errors import CannotWrite
from firstfire.files import cache_folder, own_files, write_text
from firstfire.version import VERSION

_PACKAGE = Path(__file__).parent.parent


def answered(
    name: str, file: Path, layers: Sequence[Path], asked: Sequence[object], find: Callable[[], str]
) -> str:
    """What `find` gives, or what it gave to the very same question before.

    Parameters
    ----------
    name
        Of the command.
    file, layers
        What is read; a change in any of them, in rows of one's own beside the file, or in
        firstfire itself asks anew.
    asked
        Everything else that the answer depends on.
    find
        Finds it.
    """
    try:
        key = _key(file, layers, asked)
        whose = hashlib.sha256(str(file.resolve()).encode()).hexdigest()[:16]
        place = cache_folder() / f"{name}-{whose}.json"
    except (OSError, CannotWrite):
        return find()
    with suppress(OSError, ValueError, KeyError, TypeError):
        kept = json.loads(place.read_text("utf-8"))
        if kept["key"] == key:
            return str(kept["answer"])
    found = find()
    with suppress(OSError, CannotWrite):
        write_text(place, json.dumps({"key": key, "answer": found}), overwrite=True)
    return found


def _key(file: Path, layers: Sequence[Path], asked: Sequence[object]) -> str:
    digest = hashlib.sha256(repr((VERSION, tuple(asked), list(_stamps(_PACKAGE)))).encode())
    for one in (file, *own_files(file), *layers):
        digest.update(repr(str(one)).encode())
        digest.update(one.read_bytes())
    return digest.hexdigest()


def _stamps(folder: str | Path) -> Iterator[tuple[str, int]]:
    """Every source and table of firstfire with when it was changed."""
    with os.scandir(folder) as entries:
        for entry in sorted(entries, key=lambda one: one.name):
            if entry.is_dir():
                if entry.name != "__pycache__":
                    yield from _stamps(entry.path)
            else:
                yield entry.path, entry.stat().st_mtime_ns
