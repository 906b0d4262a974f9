"""Sheets of single parts to look at: which there are, and what is written on one."""

from __future__ import annotations

from typing import Any

from tests.drawing.conftest import FILES, plain_engine

from firstfire.catalog import Catalog
from firstfire.drawing.label_parts import label_parts
from firstfire.drawing.model import Drawing, Lettering
from firstfire.drawing.workshop.parts import PARTS, part_drawing

DEMOS = ("wren", "heron", "plover")
NONE = {("heron", "flywheel"), ("3_inches", "liner")}
"""What an engine hasn't: its propeller is its wheel; its piston runs in the bare print."""
SHEETS = [(name, part) for name in sorted(FILES) for part in PARTS if (name, part) not in NONE]
LESS_USUAL: dict[str, tuple[str, dict[str, object]]] = {
    "leaning valves": ("wren", {"head__valve_axis_angle": "20 deg"}),
    "side valves": ("wren", {"valves__placed": "side"}),
    "bought rod ends": ("wren", {"rod__big_end": "needle", "rod__small_end": "bush",
                                 "rod__split": "true"}),
    "metal rings": ("wren", {"rings__kind": "metal", "rings__count": "3",
                             "piston__land_clearance": "0.8 mm"}),
    "hollow pin": ("wren", {"pin__inside_diameter": "6 mm", "pin__retention": "press"}),
    "turned crank": ("wren", {"crank__material": "steel", "crank__made": "rod",
                              "crank__joint__plate_thickness": "0 mm",
                              "crank__joint__length": "14 mm",
                              "crank__journal__joint__plate_thickness": "0 mm",
                              "crank__journal__joint__length": "14 mm"}),
    "keyed crank": ("wren", {"crank__joint__plate_thickness": "0 mm",
                             "crank__joint__length": "14 mm", "crank__joint__kind": "keyed",
                             "crank__joint__cross_pins": "1"}),
    "two throws": ("plover", {"layout__crank_offset": "180 deg"}),
    "v of two pins": ("plover", {"layout__kind": "v_twin", "layout__v_angle": "60 deg",
                                 "layout__crank_offset": "90 deg"}),
    "three keys": ("wren", {"flywheel__joint__cross_pins": "3"}),
}  # fmt: skip


_KEPT: dict[object, Drawing] = {}


def drawn(name: str, part: str, paper: Any = "A4", cylinder: int = 1, **tried: object) -> Drawing:
    key = (name, part, paper, cylinder, tuple(sorted(tried.items())))
    if key not in _KEPT:
        plain = plain_engine(name, **tried)
        _KEPT[key] = part_drawing(plain, Catalog(), part, cylinder=cylinder, paper=paper)
    return _KEPT[key]


def all_words(drawing: Drawing) -> list[Lettering]:
    own = [s for p in drawing.parts for s in p.shapes if isinstance(s, Lettering)]
    own += [s for s in drawing.legend if isinstance(s, Lettering)]
    return own + [label_parts(label, drawing.unit).words for label in drawing.labels]


def words_of(drawing: Drawing) -> str:
    return " ".join(w.text for w in all_words(drawing))
