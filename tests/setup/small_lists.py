"""Lists of parts of plain engines, with values set as a person sets them."""

from functools import cache

from tests.loads.small_engines import LAYOUTS, SMALL, _written

from firstfire.engine.engine import Engine
from firstfire.engine.read import with_values
from firstfire.setup.item import Check, Item, Job
from firstfire.setup.parts_list import PartsList, parts_list

ROUND = {
    "crank.crankpin_length": "20 mm", "crank.crankpin_diameter": "12 mm",
    "crank.cheek_thickness": "10 mm", "crank.cheek_width": "30 mm",
    "crank.main_bearing": "6202", "crank.joint.length": "7 mm", "crank.bearing_span": "60 mm",
    "flywheel.thickness": "12 mm", "flywheel.diameter": "110 mm",
}  # fmt: skip
"""A crank with round sizes."""


@cache
def _engine(layout: str, values: tuple[tuple[str, str], ...]) -> Engine:
    return with_values(_written(SMALL + LAYOUTS[layout]), ROUND | dict(values))


def engine_set(layout: str = "single", **values: str) -> Engine:
    """An engine of one of `LAYOUTS`; values by path with two underscores for the dot."""
    return _engine(layout, tuple((name.replace("__", "."), v) for name, v in values.items()))


@cache
def list_of(layout: str = "single", **values: str) -> PartsList:
    """The list of such an engine."""
    return parts_list(engine_set(layout, **values))


def bought(found: PartsList, word: str, use: str = "") -> Item:
    """The only bought thing with such words in its name and its use."""
    (item,) = [i for i in found.bought if word in i.what and use in i.use]
    return item


def made(found: PartsList, do: str, word: str) -> Job:
    """The only job with such words in it."""
    (job,) = [j for j in found.made if j.do == do and word in j.what]
    return job


def mm(text: str) -> str:
    """A text with plain spaces, as one reads it."""
    return text.replace("\u202f", " ")


def limits(thing: Check | Job) -> list[float | None]:
    """What it should be, at least and at most, in millimetres."""
    middle = thing.wanted if isinstance(thing, Check) else thing.target
    return [
        None if size is None else round(size * 1e3, 9) for size in (middle, thing.low, thing.high)
    ]
