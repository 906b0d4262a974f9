"""What a set-up folder has that other commands write too: the parts list, a controller's tables."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from firstfire.engine.engine import Engine
from firstfire.setup.contract import parts_json
from firstfire.setup.parts_list import parts_list
from firstfire.setup.tables.held import Held
from firstfire.setup.tables.written import texts

TABLES = "tables"
"""Folder that a controller's tables stand in."""


@dataclass(frozen=True)
class Beside:
    """Files of one chapter.

    Attributes
    ----------
    section
        Id of the chapter.
    files
        What is in each, by its name below the folder.
    words
        What they are, in a line.
    """

    section: str
    files: Mapping[str, str]
    words: str

    @property
    def names(self) -> list[str]:
        """Its files below the folder."""
        return list(self.files)


def beside(engine: Engine, held: Held) -> tuple[Beside, ...]:
    """The parts list as text and JSON, and the tables where there are some.

    Parameters
    ----------
    engine
        As written down.
    held
        What its controller holds.
    """
    parts = parts_list(engine)
    lists = Beside(
        "parts", {"parts.txt": f"{parts}\n", "parts.json": f"{parts_json(parts)}\n"},
        "parts.txt, parts.json",
    )  # fmt: skip
    if held.found is None:
        return (lists,)
    files = {f"{TABLES}/{name}": text for name, text in texts(held.found).items()}
    return lists, Beside("tables", files, f"{TABLES}: a C header and {len(files) - 1} CSV files")
