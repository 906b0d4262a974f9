"""Rules for how parts are printed."""

from __future__ import annotations

from collections.abc import Callable

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


def _of_all_prints(said: str, usual: float) -> Callable[[Asked], float]:
    """What is said of every print, or what is usual where nothing is."""

    def told(ask: Asked) -> float:
        every = ask[said]
        return usual if every is None else float(every)

    return told


def _walls(ask: Asked) -> int:
    return int(_of_all_prints("printing.walls", 6)(ask))


def _made(part: str) -> tuple[Rule, ...]:
    stacked, why = _STACKED[part]
    solid = part in _SOLID
    return (
        Rule(f"{part}.walls", _walls, "as printing.walls says; else six lines, about 2.7 mm"),
        Rule(f"{part}.line_width", "0.45 mm", "what a 0.4 mm nozzle lays"),
        Rule(
            f"{part}.infill",
            _of_all_prints("printing.infill", 1.0 if solid else 0.4),
            "as printing.infill says; else "
            + ("solid, being loaded" if solid else "stiff enough between its walls"),
        ),
        Rule(f"{part}.layers_stacked", stacked, why),
    )


RULES = (
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
