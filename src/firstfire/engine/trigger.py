"""What a spark goes by: the tooth or magnet that passes a sensor, or the lobe that lifts points."""

from __future__ import annotations

from typing import Literal, NamedTuple

from firstfire.engine.resolve import PlainEngine


class Trigger(NamedTuple):
    """Where the tooth of one spark passes.

    Attributes
    ----------
    by
        What it goes by: points, the clock, an edge, or an edge first and the clock when running.
    leading, trailing
        Where it begins and ends, rad before the top centre that is fired at; of points, where
        they shut and where they open.
    """

    by: Literal["points", "clock", "edge", "edge_then_clock"]
    leading: float
    trailing: float


def trigger(plain: PlainEngine) -> Trigger:
    """What the spark of an engine goes by."""
    spark = plain.spark
    ahead, tooth = spark.sensor.ahead, spark.sensor.tooth
    running = spark.advance_table or ((0.0, spark.running_angle),)
    earliest = max(spark.start_angle, *(row[1] for row in running))
    if spark.source == "points":
        return Trigger("points", spark.running_angle + spark.points.shut_angle, spark.running_angle)
    if spark.timed_by == "clock":
        return Trigger("clock", earliest + ahead, earliest + ahead - tooth)
    if spark.advance_table:
        return Trigger("edge_then_clock", earliest + ahead, spark.start_angle)
    latest = min(spark.start_angle, spark.running_angle)
    return Trigger("edge", earliest, latest if latest < earliest else earliest - tooth)
