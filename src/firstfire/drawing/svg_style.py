"""Styles and patterns of an SVG drawing."""

from __future__ import annotations

from html import escape

from firstfire.drawing import tokens


def colour(name: str) -> str:
    """A colour that a page can set, with the day's behind it."""
    return f"var(--ff-{name},{tokens.DAY[name]})"


def style(unit: float, prefix: str) -> str:
    """Widths, dashes and fills, all within this drawing: others on a page have their own scale."""
    here = f".ff-drawing:where(.ff-of-{escape(prefix)}) "
    rules = [
        f"{here}{{font-family:var(--ff-font,{tokens.FONT});font-variant-numeric:tabular-nums}}",
        f"{here}.ff-sheet{{fill:{colour('paper')}}}",
        f"{here}.ff-words{{fill:{colour('ink')};unicode-bidi:isolate}}",
        f"{here}.ff-not-to-scale{{text-decoration:underline}}",
        f"{here}.ff-dot,{here}.ff-arrowhead{{fill:{colour('ink')}}}",
        f"{here}.ff-no-edge{{stroke:none}}",
        f"{here}.ff-force path{{stroke:{colour('force')};fill:none}}",
        f"{here}.ff-force .ff-arrowhead{{fill:{colour('force')};stroke:none}}",
        f"{here}.ff-force .ff-words{{fill:{colour('force')};paint-order:stroke;"
        f"stroke:{colour('paper')};stroke-width:{0.8 * unit:g}}}",
        f"{here}.ff-none{{fill:none}}{here}.ff-paper{{fill:{colour('paper')}}}",
        f"{here}.ff-solid{{fill:{colour('ink')}}}",
    ]
    night = ";".join(f"--ff-{name}:{value}" for name, value in tokens.NIGHT.items())
    rules.append(f".ff-night .ff-drawing,.ff-drawing.ff-night{{{night}}}")
    for gas in ("fresh", "burned", "exhaust"):
        rules.append(f"{here}.ff-{gas}{{fill:{colour(gas)}}}")
    for pen, width in tokens.WIDTHS.items():
        dashes = tokens.DASHES.get(pen)
        dashed = f";stroke-dasharray:{' '.join(f'{d * unit:g}' for d in dashes)}" if dashes else ""
        rules.append(
            f"{here}.ff-{pen}{{stroke:{colour(tokens.COLOURS[pen])};"
            f"stroke-width:{width * unit:g};stroke-linejoin:round{dashed}}}"
        )
        rules.append(f"{here}path.ff-{pen}:not([fill-rule]){{fill:none}}")
    for word, (width, dashes) in tokens.SAID.items():
        dashed = " ".join(f"{d * unit:g}" for d in dashes) or "none"
        rules.append(
            f"{here}.ff-line-{word.replace(' ', '-')}{{stroke:{colour(tokens.SAID_COLOURS[word])};"
            f"stroke-width:{width * unit:g};stroke-dasharray:{dashed}}}"
        )
    rules.append(f"{here}.ff-first>*:not(title):not(desc){{stroke-width:{tokens.FIRST * unit:g}}}")
    # a region that is only filled has an edge where it gives way first
    rules.append(f"{here}.ff-first>.ff-no-edge{{stroke:{colour('ink')}}}")
    for fill in _PATTERNS:
        rules.append(f"{here}.ff-{fill}{{fill:url(#{escape(prefix)}{fill})}}")
    return "".join(rules)


# Spacing in mm of paper, degrees from upright, colour, and the lines of one tile: place across
# and dash, all in shares of the spacing.
_PATTERNS: dict[str, tuple[float, float, str, tuple[tuple[float, str], ...]]] = {
    "metal": (1.8, 45.0, "ink", ((0.5, ""),)),
    "metal-left": (1.8, -45.0, "ink", ((0.5, ""),)),
    "plastic": (3.6, 45.0, "ink", ((0.25, ""), (0.75, "0.5 0.5"))),
    "plastic-left": (3.6, -45.0, "ink", ((0.25, ""), (0.75, "0.5 0.5"))),
    "rubber": (0.7, 45.0, "ink", ((0.5, ""), (-0.5, ""))),
    "holds": (4.0, 0.0, "holds", ()),
    "marginal": (3.6, 45.0, "marginal", ((0.5, ""),)),
    "fails": (1.5, 45.0, "fails", ((0.5, ""), (-0.5, ""))),
    "not-judged": (1.8, 45.0, "pencil", ((0.5, "dots"),)),
}


def defs(unit: float, prefix: str) -> str:
    """The patterns: materials by drafting hatches, words by their own."""
    return "<defs>" + "".join(_pattern(name, unit, prefix) for name in _PATTERNS) + "</defs>"


def _pattern(name: str, unit: float, prefix: str) -> str:
    spacing, turn, ink, lines = _PATTERNS[name]
    tile = spacing * unit
    width = (0.3 if name in tokens.WORDS else 0.18) * unit
    inner = f'<rect width="{tile:g}" height="{tile:g}" style="fill:{colour("paper")}"/>'
    for place, dash in lines:
        if dash == "dots":
            inner += (
                f'<circle cx="{tile / 2:g}" cy="{tile / 2:g}" r="{0.22 * unit:g}" '
                f'style="fill:{colour(ink)}"/>'
            )
            continue
        along = f"M0 {-place * tile:g}H{tile:g}" if place < 0 else f"M{place * tile:g} 0V{tile:g}"
        dashes = ""
        if dash:
            dashes = ";stroke-dasharray:" + " ".join(f"{float(x) * tile:g}" for x in dash.split())
        inner += f'<path d="{along}" style="stroke:{colour(ink)};stroke-width:{width:g}{dashes}"/>'
    return (
        f'<pattern id="{escape(prefix)}{name}" patternUnits="userSpaceOnUse" width="{tile:g}" '
        f'height="{tile:g}" patternTransform="rotate({turn:g})">{inner}</pattern>'
    )
