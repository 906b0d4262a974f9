"""Which passages of an engine flow as one."""

from __future__ import annotations

from typing import Any

from firstfire.cycle.layout import ORIFICE


def lay_ways(engine: Any) -> None:
    """Fill in an engine's ways, and of which each passage is a part, from its passages.

    Plain orifices between the same two volumes (a cylinder's gasket, plug and wall leak to the
    open air) see the same gas and the same pressures: one flow, shared by area. Every valve and
    every one-way opening is a way of its own.
    """
    ways, passages = engine["ways"], engine["passages"]
    found: dict[tuple[int, int], int] = {}
    count = 0
    for row in range(int(engine["passage_count"])):
        passage = passages[row]
        ends = int(passage["start"]), int(passage["end"])
        plain = int(passage["kind"]) == ORIFICE
        pair = min(ends), max(ends)
        if plain and pair in found:
            way = found[pair]
            ways[way]["area"] += passage["area"]
        else:
            way, count = count, count + 1
            for name in ("kind", "start", "end", "area", "valve"):
                ways[way][name] = passage[name]
            if plain:
                found[pair] = way
        passage["way"] = way
    engine["way_count"] = count
    for row in range(int(engine["passage_count"])):
        _share(passages[row], ways)


def _share(passage: Any, ways: Any) -> None:
    """Of its way's area, the part that a passage has, with its direction."""
    way = ways[passage["way"]]
    along = 1.0 if passage["start"] == way["start"] else -1.0
    whole = float(way["area"])
    passage["share"] = along * (float(passage["area"]) / whole if whole > 0.0 else 1.0)
