"""What is typed for a path (`path=value`) as a value, and as lines of an engine file."""

from __future__ import annotations

import re
from collections.abc import Mapping

from firstfire.engine.grammar import leaves, split
from firstfire.engine.leaf import is_whole
from firstfire.toml_text import NotToml, parsed

_NUMBER = re.compile(r"[+-]?[0-9]{1,18}(?:\.[0-9]{1,18})?")


def typed(path: str, written: str) -> object:
    """What typed words stand for, by what their path holds: text, a number, a flag, a list.

    What can't be read stays text, for whoever reads values to refuse.

    Examples
    --------
    >>> typed("rings.count", "2"), typed("cylinder.bore", "44 mm"), typed("body.infill", "1.0")
    (2, '44 mm', 1.0)
    """
    leaf = leaves().get(split(path)[1])
    form = leaf.form if leaf else "text"
    if form == "integer" and is_whole(written):
        return int(written)
    if form == "flag" and written.lower() in ("true", "false"):
        return written.lower() == "true"
    if leaf is not None and leaf.dimension == "ratio" and _NUMBER.fullmatch(written):
        return float(written)
    if form in ("list", "table"):
        return _listed(written)
    return written


def _listed(written: str) -> object:
    """``2000 rpm, 3000 rpm`` or TOML's own ``["2000 rpm", "3000 rpm"]``."""
    try:
        return parsed(f"x = {written}")["x"]
    except NotToml:
        return [part.strip() for part in written.strip("[]").split(",")]


def file_lines(changes: Mapping[str, str]) -> list[str]:
    """Changes as an engine file has them: each below the heading of its section.

    Parameters
    ----------
    changes
        Typed words by path.

    Examples
    --------
    >>> for line in file_lines({"crank.joint.kind": "pinned", "crank.joint.cross_pins": "3"}):
    ...     print(line)
    [crank.joint]
    kind = "pinned"
    cross_pins = 3
    """
    import tomlkit

    sections: dict[str, list[str]] = {}
    for path, written in changes.items():
        section, _, key = path.rpartition(".")
        value = tomlkit.item(typed(path, written)).as_string()
        sections.setdefault(section, []).append(f"{key} = {value}")
    lines = []
    for section in sorted(sections, key=bool):  # what has no heading has to stand first
        lines += [f"[{section}]"] * bool(section) + sections[section]
    return lines
