"""The drawing as the page has it: parts that something is said of lead to their ledger line."""

from __future__ import annotations

import re
from collections.abc import Mapping

from markupsafe import Markup, escape

from firstfire.drawing.naming import slug_of
from firstfire.drawing.section import section
from firstfire.drawing.svg import to_svg
from firstfire.drawing.verdicts import part_words
from firstfire.verdict.result import Result

_PREFIX = "part-"
_PART = re.compile(rf'<g id="{_PREFIX}([a-z0-9-]+)" class="ff-part".*?</g>\n', re.DOTALL)


def drawn(result: Result, lines: Mapping[str, tuple[str, str]]) -> Markup:
    """The engine in section as SVG.

    Parameters
    ----------
    result
        From `check`.
    lines
        By part of the drawing: address of its worst ledger line, and that line in words.
    """
    drawing = section(result.plain, verdicts=part_words(result.margins))

    def linked(found: re.Match[str]) -> str:
        line = lines.get(found[1])
        if line is None:
            return found[0]
        return f'<a href="#{escape(line[0])}" aria-label="{escape(line[1])}">{found[0]}</a>'

    return Markup(_PART.sub(linked, to_svg(drawing, prefix=_PREFIX, size=False)))


def part_of(way: str) -> str:
    """The part of the drawing that a way to fail speaks of, "" where none is drawn for it."""
    try:
        return slug_of(way)
    except KeyError:
        return ""
