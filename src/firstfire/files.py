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
