"""Rules for how parts are printed."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from firstfire.engine.rules.rule import Asked, Rule

_STACKED = {
    "liner": ("along_bore", "a tube prints upright"),
    "body": ("along_bore", "a tube prints upright"),
    "piston": ("along_bore", "printed crown down, so that the skirt is round"),
    "rod": ("along_crank", "printed flat, so that no layer has to hold the pull"),
    "head": ("along_bore", "printed flat, so that the plate bends along its beads"),
    "crank": ("along_crank", "cheeks print flat"),
    "case": ("along_crank", "halves print flat on their joint"),
}
_SOLID = ("piston", "rod", "crank", "head", "liner")


def _of_the_print(path: str) -> Rule:
    def same(ask: Asked) -> str:
        return str(ask["printing.material"])

    return Rule(path, same, "the material most of the engine is printed in")


def _walls(ask: Asked) -> int:
    every = ask["printing.walls"]
    return 6 if every is None else int(every)


def _made(part: str) -> tuple[Rule, ...]:
    stacked, why = _STACKED[part]
    solid = part in _SOLID

    def infill(ask: Asked) -> float:
        row, every = ask.row(f"{part}.material"), ask["printing.infill"]
        # A resin print is cured through, whatever lines another printer would lay.
        resin = row is not None and row.texts.get("structure") == "cross-linked"
        if resin or every is None:
            return 1.0 if solid or resin else 0.4
        return float(every)

    return (
        Rule(f"{part}.walls", _walls, "as printing.walls says; else six lines, about 2.7 mm"),
        Rule(f"{part}.line_width", "0.45 mm", "what a 0.4 mm nozzle lays"),
        Rule(
            f"{part}.infill",
            infill,
            "as printing.infill says; else "
            + (
                "solid, being loaded"
                if solid
                else "stiff enough between its walls; resin cures solid"
            ),
        ),
        Rule(f"{part}.layers_stacked", stacked, why),
    )


_WITHIN = {
    "crank.crankpin": ("crank", "laid as the cheeks"),
    "crank.journal": ("crank", "laid as the cheeks"),
    "piston.boss": ("piston", "laid as the rest of the piston"),
}
"""Places of a print that may be laid otherwise, with the part whose way they follow unsaid."""
_FILL = ("walls", "line_width", "infill")


def _as_the_part(path: str) -> tuple[Rule, ...]:
    part, why = _WITHIN[path]

    def same(name: str) -> Callable[[Asked], Any]:
        return lambda ask: ask[f"{part}.{name}"]

    lies = () if path == "piston.boss" else ("layers_stacked",)
    return tuple(Rule(f"{path}.{name}", same(name), why) for name in (*_FILL, *lies))


RULES = (
    *(rule for path in _WITHIN for rule in _as_the_part(path)),
    *(rule for part in _STACKED for rule in _made(part)),
    *(_of_the_print(f"{part}.material") for part in _STACKED if part != "liner"),
    *(
        Rule(f"{part}.made", "printed", "most parts of such an engine are")
        for part in _STACKED
        if part != "liner"
    ),
    Rule("printing.layer_height", "0.2 mm", "half of a 0.4 mm nozzle"),
    Rule(
        "printing.hole_error",
        "-0.2 mm",
        "printed holes come out 0.1 to 0.4 mm small below 20 mm",
        "D. Popescu and others, Applied Sciences 2023, 13, 41; figures from memory",
    ),
    Rule(
        "printing.shaft_error",
        "0.05 mm",
        "printed outsides come out -0.1 to +0.2 mm",
        "Metrology 2024, 4, 411, introduction; figures from memory",
    ),
    Rule(
        "printing.repeatability",
        "0.08 mm",
        "from print to print 0.05 to 0.1 mm",
        "Metrology 2024, 4, 411, introduction; figures from memory",
    ),
    Rule("printing.moisture", "room", "a spool that stood open in a room"),
)
