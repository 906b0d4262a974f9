"""TOML text to plain data, as strict about whole numbers as TOML itself is."""

from __future__ import annotations

import re
import tomllib
from collections.abc import Iterator
from typing import Any

_WHOLE = 2**63
"""TOML's whole numbers have 64 bits; Python's own reader takes any."""


class NotToml(ValueError):  # noqa: N818 - it is caught and told by whoever read the text
    """Text that isn't TOML: what is wrong (`fault`), and on which line (0 where none is known)."""

    def __init__(self, fault: str, line: int = 0) -> None:
        self.fault, self.line = fault, line
        super().__init__(fault)


def parsed(text: str) -> dict[str, Any]:
    """The data of a TOML text.

    Raises
    ------
    NotToml
        Where it isn't TOML, is nested too deeply, or holds a whole number of more than 64 bits.

    Examples
    --------
    >>> parsed("count = 4")
    {'count': 4}
    """
    try:
        tree = tomllib.loads(text)
    except tomllib.TOMLDecodeError as why:
        line = re.search(r"line (\d+)", str(why))
        fault = re.sub(r"\s*\(at .*\)$", "", str(why))
        raise NotToml(fault[:1].lower() + fault[1:], int(line[1]) if line else 0) from None
    except RecursionError:
        raise NotToml("it is nested too deeply") from None
    except ValueError:  # Python reads no whole number of more than some thousand digits
        raise NotToml("it holds a whole number of thousands of digits") from None
    for path, value in _numbers(tree):
        if not -_WHOLE <= value < _WHOLE:
            raise NotToml(f"{path} is {TOO_LONG}")
    return tree


TOO_LONG = "a whole number of more than 18 digits"


def too_long(value: object) -> bool:
    """Whether it is, or holds, a whole number that no TOML file could.

    Examples
    --------
    >>> too_long(10**400), too_long([4, 5])
    (True, False)
    """
    return any(not -_WHOLE <= number < _WHOLE for _, number in _numbers(value))


def _numbers(tree: object, path: str = "") -> Iterator[tuple[str, int]]:
    """Every whole number with its path."""
    if isinstance(tree, int):
        yield path, tree
    elif isinstance(tree, dict):
        for key, value in tree.items():
            yield from _numbers(value, f"{path}.{key}" if path else str(key))
    elif isinstance(tree, list):
        for value in tree:
            yield from _numbers(value, path)
