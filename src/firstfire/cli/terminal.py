"""The terminal that a command writes to: how large it is, and a refusal as it stands there."""

from __future__ import annotations

import shutil
import sys
import textwrap

from firstfire.verdict.words.text.lines import WIDTH

NARROWEST, WIDEST = 60, 120
"""Columns below which figures don't stand side by side, and beyond which a line is hard to read."""
ROWS = 24
"""Lines that every terminal has."""


def columns() -> int:
    """Columns of the terminal, 60 to 120; 80 where it writes to a file or to another command."""
    if not sys.stdout.isatty():
        return WIDTH
    return min(max(shutil.get_terminal_size((WIDTH, ROWS)).columns, NARROWEST), WIDEST)


def rows() -> int:
    """Lines of the terminal, no fewer than 24."""
    return max(shutil.get_terminal_size((WIDTH, ROWS)).lines, ROWS)


def hung(text: str) -> str:
    """A refusal in 80 columns, each problem hung under its first words."""
    lines = []
    for line in text.splitlines():
        indent = " " * (len(line) - len(line.lstrip()))
        hanging = indent + ("  " if indent else "")
        lines += textwrap.wrap(
            line, WIDTH, initial_indent="", subsequent_indent=hanging, break_long_words=False,
            break_on_hyphens=False, drop_whitespace=True,
        ) or [""]  # fmt: skip
    return "\n".join(lines)
