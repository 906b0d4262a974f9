"""Words of working that several parts share."""

from __future__ import annotations

from typing import TypedDict


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
