"""On which line of a TOML text each key stands, so that an error can point there."""

from __future__ import annotations

import re

_HEADER = re.compile(r"^\s*\[\[?\s*(.+?)\s*\]\]?\s*(?:#.*)?$")
_KEY = re.compile(
    r"""^\s*((?:[A-Za-z0-9_-]+|"[^"\n]*"|'[^'\n]*')(?:\s*\.\s*(?:[A-Za-z0-9_-]+|"[^"\n]*"|'[^'\n]*'))*)\s*="""
)
_PART = re.compile(r"""[A-Za-z0-9_-]+|"([^"\n]*)"|'([^'\n]*)'""")


def line_numbers(text: str) -> dict[str, int]:
    """Dotted path of each key and table header to its line, counted from 1.

    Arrays of tables are numbered from 0: the second ``[[x]]`` gives ``x.1``. Keys inside an
    inline table share their table's line and aren't listed. The text must be valid TOML.

    Examples
    --------
    >>> line_numbers("name = 'wren'\\n[cylinder]\\nbore = '40 mm'")
    {'name': 1, 'cylinder': 2, 'cylinder.bore': 3}
    """
    found: dict[str, int] = {}
    counts: dict[str, int] = {}
    prefix = ""
    waiting = _Waiting()
    for number, line in enumerate(text.splitlines(), start=1):
        if waiting.inside():
            waiting.feed(line)
            continue
        header = _HEADER.match(line)
        if header and not _KEY.match(line):
            prefix = _dotted(header[1])
            if line.lstrip().startswith("[["):
                counts[prefix] = counts.get(prefix, -1) + 1
                prefix = f"{prefix}.{counts[prefix]}"
            found.setdefault(prefix, number)
            continue
        key = _KEY.match(line)
        if key:
            path = _dotted(key[1])
            found.setdefault(f"{prefix}.{path}" if prefix else path, number)
            waiting.feed(line[key.end() :])
    return found


def _dotted(written: str) -> str:
    return ".".join(m[1] or m[2] or m[0].strip("\"'") for m in _PART.finditer(written))


class _Waiting:
    """Whether a value that began on an earlier line (array, long string) is still open."""

    def __init__(self) -> None:
        self.depth = 0
        self.quote = ""

    def inside(self) -> bool:
        return self.depth > 0 or bool(self.quote)

    def feed(self, line: str) -> None:
        place = 0
        while place < len(line):
            place = self._in_string(line, place) if self.quote else self._outside(line, place)
        if len(self.quote) == 1:
            self.quote = ""

    def _in_string(self, line: str, place: int) -> int:
        if line[place] == "\\" and self.quote[0] == '"':
            return place + 2
        if line.startswith(self.quote, place):
            width = len(self.quote)
            self.quote = ""
            return place + width
        return place + 1

    def _outside(self, line: str, place: int) -> int:
        letter = line[place]
        if letter == "#":
            return len(line)
        if letter in "\"'":
            triple = letter * 3
            self.quote = triple if line.startswith(triple, place) else letter
            return place + len(self.quote)
        self.depth += (letter in "[{") - (letter in "]}")
        return place + 1
