"""What is uncertain about a start alone: nothing of an engine that runs hangs on it."""

from __future__ import annotations

from collections.abc import Iterator

from firstfire.engine.layers import Entry
from firstfire.engine.unknown import Unknown
from firstfire.engine.values import Values

STUCK = "doubt.friction.stuck"
ONLY_WHEN_STARTED = ("starter.", STUCK)
"""How the paths of these begin; no other event than a start asks for them."""

_NO_SOURCE = "common practice, no source"
_DRILLED = 0.1
_BY_EAR = 0.25
_BATTERY, _STUCK = 1.0, 1.0


def of_the_start(values: Values) -> Iterator[Unknown]:
    """What lets compression off, what a battery holds back, and how rings stick."""
    if values["rings.kind"] == "o_ring" and values.number("use.stood") > 0.0:
        yield _share(values, STUCK, _STUCK, "handbooks: threefold at most, on ground bores; on "
                     "printed and sawn ones nobody has measured it")  # fmt: skip
    if values["starter.battery_voltage"] is not None and values["starter.battery_resistance"]:
        yield _share(values, "starter.battery_resistance", _BATTERY,
                     f"by charge, age, cold and its leads' ends; {_NO_SOURCE}")  # fmt: skip
    if values["starter.decompression"]:
        yield _share(values, "starter.decompression_diameter", _DRILLED,
                     f"a hole drilled by hand, and how it flows; {_NO_SOURCE}")  # fmt: skip
        yield _share(values, "starter.decompression_until", _BY_EAR,
                     f"let go by ear, or by a spring that is guessed; {_NO_SOURCE}")  # fmt: skip


def _share(values: Values, path: str, share: float, source: str) -> Unknown:
    """A value that may be off by a share either way."""
    entry: Entry = values.spoken(path)
    centre = float(entry.value)
    if entry.error is not None:
        low, high = centre - entry.error, centre + entry.error
        return Unknown(path, "normal", centre, low, high, _origin(entry), entry.note)
    low, high = centre / (1 + share), centre * (1 + share)
    return Unknown(path, "lognormal", centre, low, high, _origin(entry), source)


def _origin(entry: Entry) -> str:
    return f"{entry.layer}, {entry.kind}"
