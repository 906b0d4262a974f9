"""Colours, line widths and lettering: one place for all drawings, by day and by night."""

from __future__ import annotations

from firstfire.drawing.model import Pen

DAY = {
    "paper": "#fbfaf6",
    "ink": "#1d2326",
    "pencil": "#6b7478",
    "rule": "#d9d6cc",
    "fails": "#9c2f1f",
    "marginal": "#8a6100",
    "holds": "#2f5d50",
    "changed": "#1f4f8f",
    "fresh": "#dfe9f1",
    "burned": "#f3e3d3",
    "exhaust": "#e6e3de",
    "force": "#1f4f8f",
}
"""Colour by name. The three gases are lighter than elsewhere: they lie behind lines."""

NIGHT = {
    "paper": "#15191b",
    "ink": "#e9e6de",
    "pencil": "#98a2a6",
    "rule": "#3a4145",
    "fails": "#f08a78",
    "marginal": "#e0b050",
    "holds": "#7fc4ae",
    "changed": "#8fb8ee",
    "fresh": "#24323d",
    "burned": "#3d2f24",
    "exhaust": "#2e2d2b",
    "force": "#8fb8ee",
}

# mm of paper. ISO 128-2 has 0.5 for visible outlines and 0.25 for hidden and centre lines
# (group 0.5); dimension lines one step of the series thinner. The heavy line marks a surface.
FIRST = 1.2
"""Width of the lines of the part that gives way first, mm."""
WIDTHS: dict[Pen, float] = {
    "outline": 0.5,
    "heavy": 0.7,
    "thin": 0.25,
    "hidden": 0.25,
    "centre": 0.25,
    "phantom": 0.25,
    "dimension": 0.18,
}

# On and off, mm of paper: about 12 and 3 line widths for dashes, 24, 3, 0.5, 3 for chains
# (ISO 128-2, from memory).
DASHES: dict[Pen, tuple[float, ...]] = {
    "hidden": (2.0, 1.0),
    "centre": (6.0, 1.0, 0.6, 1.0),
    "phantom": (6.0, 1.0, 0.6, 1.0, 0.6, 1.0),
}

COLOURS: dict[Pen, str] = {
    "outline": "ink",
    "heavy": "ink",
    "thin": "ink",
    "hidden": "pencil",
    "centre": "pencil",
    "phantom": "pencil",
    "dimension": "ink",
}

LETTERING = 2.5
"""Height of capital letters, mm of paper (ISO 3098 series)."""

SMALL = 1.8
"""Height of small lettering, mm of paper (ISO 3098 series)."""

CAPITAL = 0.72
"""Height of a capital letter over the size of its font, of usual sans fonts."""

FONT = "system-ui, 'Noto Sans', 'DejaVu Sans', sans-serif"
"""Upright sans lettering; a page may put its own in its place."""

WORDS = ("holds", "marginal", "fails", "not judged")
"""What can be said of a part, best first; each has its own pattern."""

# Lines of parts that have no area to hatch: mm of paper, and dashes.
SAID: dict[str, tuple[float, tuple[float, ...]]] = {
    "marginal": (0.7, (4.0, 1.2)),
    "fails": (1.1, ()),
    "not judged": (0.6, (0.6, 1.0)),
}

SAID_COLOURS = {
    "marginal": "marginal",
    "fails": "fails",
    "not judged": "pencil",
}
"""Colour of each word."""
