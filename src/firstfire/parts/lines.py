"""Lines of working that several parts share."""

from __future__ import annotations

from typing import TypedDict

from firstfire.engine.records import Line

AIR = "surroundings.air_temperature"

STRENGTH = Line("capacity", "strength", "Pa", "its strength here and now")
"""Capacity of what is judged by its strength alone."""


def rises(hot: str, limit: str, what: str, until: str) -> tuple[Line, Line]:
    """Working of a temperature against its limit, both as rises over the air.

    Parameters
    ----------
    hot, limit
        Names of both temperatures among the inputs.
    what, until
        Both in words: *the crown's face*, *it melts*.
    """
    return (
        Line("demand", f"max({hot} - {AIR}, 0)", "K", f"rise of {what} over the air"),
        Line("capacity", f"{limit} - {AIR}", "K", f"rise at which {until}"),
    )


def projected(force: str, diameter: str, width: str) -> Line:
    """Demand of a bearing: force over the rectangle that its diameter and width make."""
    return Line(
        "demand", f"{force} / ({diameter} * {width})", "Pa", "pressure on the bearing's rectangle"
    )


class Words(TypedDict):
    """Words of demand and capacity, as a `Failure` has them."""

    demand_is: str
    capacity_is: str


def rises_are(what: str, until: str) -> Words:
    """Words of a temperature against its limit, both as rises over the air.

    Parameters
    ----------
    what, until
        Both in words: *the crown's face*, *it melts*.
    """
    return {
        "demand_is": f"rise of {what} over the air",
        "capacity_is": f"rise at which {until}",
    }
