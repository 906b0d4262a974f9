"""What a person types next: commands and their ``--set`` words, quoted for a shell."""

from __future__ import annotations

import shlex
from collections.abc import Mapping, Sequence
from dataclasses import dataclass


@dataclass(frozen=True)
class Asked:
    """How a check was asked for, so that what follows is asked of the same engine.

    Attributes
    ----------
    file
        As it was typed.
    tried, layers
        Words of ``--set``, and files of ``--layer``.
    life
        Of ``--for``; None where all of it is meant.
    """

    file: str
    tried: tuple[str, ...] = ()
    layers: tuple[str, ...] = ()
    life: str | None = None

    @property
    def options(self) -> tuple[str, ...]:
        """Words of its layers and trial values."""
        given = [("--layer", layer) for layer in self.layers]
        given += [("--set", word) for word in self.tried]
        return tuple(word for pair in given for word in pair)

    def command(self, verb: str, *words: str, life: bool = False, options: bool = True) -> str:
        """Another command about the same engine.

        Parameters
        ----------
        verb, words
            Which, and what is said behind the file.
        life, options
            Whether ``--for`` is asked of it too; whether its layers and trial values are.
        """
        meant = ("--for", self.life) if life and self.life else ()
        return command(verb, self.file, *(self.options if options else ()), *meant, *words)


def set_words(changes: Mapping[str, str]) -> list[str]:
    """Changes as ``--set`` takes them, each quoted for a shell.

    Examples
    --------
    >>> set_words({"crank.pin.diameter": "12 mm", "crank.joint.kind": "pinned"})
    ["--set 'crank.pin.diameter=12 mm'", '--set crank.joint.kind=pinned']
    """
    return [f"--set {shlex.quote(f'{path}={value}')}" for path, value in changes.items()]


def command(*words: str) -> str:
    """Words as one command of ``firstfire``, each quoted where a shell wants it.

    Examples
    --------
    >>> command("explain", "my engine.toml", "head.lift#2")
    "firstfire explain 'my engine.toml' 'head.lift#2'"
    """
    return shlex.join(["firstfire", *words])


def pieces(typed: str) -> list[str]:
    """A command in pieces that belong together: its words, then each option with its value.

    Examples
    --------
    >>> pieces("firstfire check a.toml --set 'x=1 mm' --full")
    ['firstfire check a.toml', "--set 'x=1 mm'", '--full']
    """
    found: list[list[str]] = [[]]
    for word in shlex.split(typed):
        if word.startswith("--"):
            found.append([])
        found[-1].append(word)
    return [shlex.join(piece) for piece in found]


def in_lines(pieces: Sequence[str], width: int, indent: int = 0, end: str = "") -> list[str]:
    r"""Pieces side by side as far as a line holds them; none is ever broken.

    Parameters
    ----------
    pieces
        A command and its options.
    width, indent
        Columns; a piece that is longer stands alone and sticks out.
    end
        Of every line but the last: `` \`` has a shell read on.

    Examples
    --------
    >>> in_lines(["firstfire check a.toml", "--set 'x=1 mm'"], 30, end=" \\")
    ['firstfire check a.toml \\', "  --set 'x=1 mm'"]
    """
    lines: list[str] = []
    for piece in pieces:
        longer = f"{lines[-1]} {piece}" if lines else " " * indent + piece
        if not lines:
            lines.append(longer)
        elif len(longer) + len(end) <= width:
            lines[-1] = longer
        else:
            hang = indent + 2 if end else indent
            lines.append(" " * hang + piece)
    return [line + end for line in lines[:-1]] + lines[-1:]
