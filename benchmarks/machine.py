"""The kind of machine that figures were measured on."""

import os
import platform
from importlib.metadata import version


def describe() -> list[str]:
    """Give what a reader has to know of this machine to compare figures, a line each."""
    gibibytes = os.sysconf("SC_PAGE_SIZE") * os.sysconf("SC_PHYS_PAGES") / 2**30
    return [
        f"{platform.system()} on {platform.machine()}, {os.cpu_count()} processors, "
        f"{gibibytes:.0f} GiB of memory",
        f"Python {platform.python_version()}, NumPy {version('numpy')}, SciPy {version('scipy')}, "
        f"Numba {version('numba')}",
    ]
