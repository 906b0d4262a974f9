"""Chapters for which much gas is run, and the workings of their numbers: run once for both."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import NamedTuple

from firstfire.engine.engine import Engine
from firstfire.setup.chapter import Chapter
from firstfire.setup.fuel.chapter import fuel_told
from firstfire.setup.fuel.sheet import fuel_sheet
from firstfire.setup.opened.fuel_sheets import sheets_of_fuel
from firstfire.setup.opened.rooms import Numbers, named
from firstfire.setup.opened.spark_sheets import sheets_of_spark
from firstfire.setup.spark.chapter import spark_told
from firstfire.setup.spark.sparking import spark


class Together(NamedTuple):
    """A chapter, and its numbers by their ids with their workings."""

    chapter: Chapter
    worked: Numbers


def _spark(engine: Engine) -> Together:
    found = spark(engine)
    return Together(spark_told(found), named("spark", sheets_of_spark(found)))


def _fuel(engine: Engine) -> Together:
    found = fuel_sheet(engine)
    return Together(fuel_told(found), named("fuel", sheets_of_fuel(found)))


TOGETHER: Mapping[str, Callable[[Engine], Together]] = {"fuel": _fuel, "spark": _spark}
"""By the chapter's id; they are raised at as the chapter itself is."""
