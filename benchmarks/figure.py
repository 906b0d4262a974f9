"""What a benchmark hands back: one measured number beside its target."""

import platform
import resource
from dataclasses import dataclass


@dataclass(frozen=True)
class Figure:
    """One measured number, its target in words, and whether it meets that."""

    name: str
    value: float
    unit: str
    target: str
    met: bool
    note: str = ""


def at_most(name: str, value: float, limit: float, unit: str, note: str = "") -> Figure:
    """Give the figure whose target is to stay at or below `limit`."""
    return Figure(name, value, unit, f"at most {limit:g}", value <= limit, note)


def at_least(name: str, value: float, limit: float, unit: str, note: str = "") -> Figure:
    """Give the figure whose target is to reach `limit`."""
    return Figure(name, value, unit, f"at least {limit:g}", value >= limit, note)


def peak_memory() -> float:
    """Give the most memory this process has held so far, MB."""
    kilobyte = 1 if platform.system() == "Darwin" else 1024
    return resource.getrusage(resource.RUSAGE_SELF).ru_maxrss * kilobyte / 1e6
