"""Writing files so that nothing is ever lost: to the side first, then moved into place."""

from __future__ import annotations

import contextlib
import errno
import os
import tempfile
from pathlib import Path

from firstfire.errors import CannotWrite


def write_text(path: Path, text: str, *, overwrite: bool = False) -> None:
    """`text` in the file `path`, whole or not at all.

    Parameters
    ----------
    path
        Where to.
    text
        What.
    overwrite
        Whether a file that is there may be replaced; it is kept whole if anything fails.

    Raises
    ------
    CannotWrite
        Where the file is there already, or can't be written.
    """
    write_bytes(path, text.encode(), overwrite=overwrite)


def write_bytes(path: Path, data: bytes, *, overwrite: bool = False) -> None:
    """`data` in the file `path`, whole or not at all; as `write_text`."""
    if path.is_dir():
        raise CannotWrite(f"{path} is a folder. Name a file in it.")
    if path.exists() and not overwrite:
        raise _exists(path)
    aside = None
    try:
        handle, name = tempfile.mkstemp(prefix=f".{path.name[:40]}.", dir=path.parent or Path())
        aside = Path(name)
        with os.fdopen(handle, "wb") as stream:
            stream.write(data)
            stream.flush()
            os.fsync(stream.fileno())
        aside.chmod(0o666 & ~_umask())
        if overwrite:
            aside.replace(path)
        else:
            # A hard link fails where a file has come into being meanwhile; a rename wouldn't.
            _link(aside, path)
    except FileExistsError:
        raise _exists(path) from None
    except OSError as why:
        raise CannotWrite(f"{path} can't be written: {_reason(why)}") from None
    finally:
        if aside is not None:
            with contextlib.suppress(OSError):
                aside.unlink()


def _link(aside: Path, path: Path) -> None:
    try:
        os.link(aside, path)
    except OSError as why:
        if why.errno not in (errno.EPERM, errno.ENOTSUP, errno.EOPNOTSUPP, errno.ENOSYS):
            raise
        aside.rename(path)  # a file system without hard links


def _umask() -> int:
    mask = os.umask(0)
    os.umask(mask)
    return mask


def _exists(path: Path) -> CannotWrite:
    return CannotWrite(
        f"{path} is there already and stays as it is. Choose another name, or say --overwrite."
    )


def _reason(why: OSError) -> str:
    reasons = {
        errno.ENOSPC: "the disk is full. Make room and try again; nothing was changed.",
        errno.EDQUOT: "your disk quota is used up. Make room and try again; nothing was changed.",
        errno.EACCES: "you may not write there. Choose another folder.",
        errno.EPERM: "you may not write there. Choose another folder.",
        errno.EROFS: "that disk is read-only. Choose another folder.",
        errno.ENOENT: "its folder isn't there. Make it first.",
        errno.ENOTDIR: "its folder isn't a folder. Choose another.",
        errno.ENAMETOOLONG: "its name is too long. Choose a shorter one.",
    }
    return reasons.get(why.errno or 0, f"{why.strerror or why}. Nothing was changed.")


def cache_folder() -> Path:
    """Where what can be made again is kept between runs.

    ``FIRSTFIRE_CACHE`` names it; otherwise it follows ``XDG_CACHE_HOME``, then the home folder,
    then the folder for temporary files.

    Raises
    ------
    CannotWrite
        Where ``FIRSTFIRE_CACHE`` names a place that can't be written in.
    """
    chosen = os.environ.get("FIRSTFIRE_CACHE")
    if chosen:
        if not _usable(Path(chosen)):
            raise CannotWrite(
                f"FIRSTFIRE_CACHE is {chosen}, where no compiled code can be kept. Name a folder "
                "that you may write in, or leave it out."
            )
        return Path(chosen)
    usual = os.environ.get("XDG_CACHE_HOME")
    candidates = [Path(usual)] if usual else []
    candidates.append(Path.home() / ".cache")
    for parent in candidates:
        if _usable(parent / "firstfire"):
            return parent / "firstfire"
    return Path(tempfile.gettempdir()) / "firstfire"


def _usable(folder: Path) -> bool:
    """Whether a folder is there, or can be made, and may be written in."""
    try:
        folder.mkdir(parents=True, exist_ok=True)
    except OSError:
        return False
    return os.access(folder, os.W_OK)


OWN_ROWS = "catalog.toml"
"""File of a person's own catalog rows."""


def own_files(beside: Path | None) -> tuple[Path, ...]:
    """Own catalog files that there are, the one that speaks first in front.

    Parameters
    ----------
    beside
        The engine file (or its folder); ``catalog.toml`` is looked for beside it. None for no
        engine file.

    Returns
    -------
    tuple of Path
        ``catalog.toml`` beside the engine, then ``firstfire/catalog.toml`` in
        ``$XDG_CONFIG_HOME`` (``~/.config`` where that is not set), as far as they exist.
    """
    places = []
    if beside is not None:
        places.append((beside if beside.is_dir() else beside.parent) / OWN_ROWS)
    config = os.environ.get("XDG_CONFIG_HOME", "").strip()
    home = Path(config) if config else Path.home() / ".config"
    places.append(home / "firstfire" / OWN_ROWS)
    return tuple(place for place in places if place.is_file())
