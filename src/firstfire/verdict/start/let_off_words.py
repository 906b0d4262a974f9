"""The words of compression that is let off while an engine is started."""

from __future__ import annotations

import math
from collections.abc import Iterator

from firstfire.runs.start.account import Account
from firstfire.verdict.numbers import THIN, figures

_RPM = 30 / math.pi


def _rpm(speed: float) -> str:
    return f"{figures(speed * _RPM, 2)}{THIN}rpm"


def let_off(found: Account) -> str | None:
    """What lets compression off, and when that ends; None where nothing does."""
    starter = found.plain.starter
    if not starter.decompression:
        return None
    hole = f"let off by a hole of {figures(1e3 * starter.decompression_diameter, 2)}{THIN}mm"
    if starter.decompression_shuts > 0.0:
        hole += f", shut {round(math.degrees(starter.decompression_shuts))}° before each top,"
    words = f"{hole} until it turns at {_rpm(starter.decompression_until)}"
    shut_at = found.lived.compressed_from
    if shut_at is None:
        return f"{words}: it never does, and stays let off"
    return f"{words}: after {figures(shut_at, 2)}{THIN}s"


def compression_comes_back(found: Account) -> Iterator[tuple[float, str]]:
    """When compression came back, s, and words for it."""
    shut_at = found.lived.compressed_from
    if shut_at is not None:
        yield shut_at, "it turns fast enough: compression is no longer let off"
