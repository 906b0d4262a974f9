"""A plan that was found for an engine, kept to the side until another takes its place."""

from __future__ import annotations

import contextlib
import json
from collections.abc import Mapping
from dataclasses import asdict, dataclass
from pathlib import Path
from typing import Any

from firstfire.errors import CannotWrite
from firstfire.files import write_text
from firstfire.version import VERSION


@dataclass(frozen=True)
class Plan:
    """Steps that make an engine hold.

    Attributes
    ----------
    of
        Key of the sheet that it was found for.
    html
        As the pages show it.
    steps
        What each sets: written values by path.
    reasons
        A few words to put behind some of them, by path.
    ticked
        Places of the steps that are ticked.
    """

    of: str
    html: str
    steps: tuple[Mapping[str, str], ...]
    reasons: Mapping[str, str]
    ticked: tuple[int, ...]

    def among(self, steps: Any) -> tuple[int, ...]:
        """Those places that are of steps, rising."""
        return tuple(sorted({int(step) for step in steps if 0 <= int(step) < len(self.steps)}))


def plan_file(journal: Path) -> Path:
    """Where the plan of an engine is kept: beside its journal."""
    return journal.with_suffix(".plan.json")


def keep(file: Path, plan: Plan) -> None:
    """Keep a plan; where there is no room for it, it lasts as long as the server."""
    with contextlib.suppress(CannotWrite):
        text = json.dumps({"version": VERSION, **asdict(plan)})
        write_text(file, text, overwrite=True)


def kept(file: Path) -> Plan | None:
    """The plan that is kept; None where none is, it is spoilt, or another firstfire made it."""
    try:
        data = json.loads(file.read_text("utf-8"))
        if data["version"] != VERSION:
            return None
        found = Plan(
            str(data["of"]), str(data["html"]), tuple(_texts(one) for one in data["steps"]),
            _texts(data["reasons"]), (),
        )  # fmt: skip
        return Plan(found.of, found.html, found.steps, found.reasons, found.among(data["ticked"]))
    except (OSError, LookupError, TypeError, ValueError, AttributeError):
        return None


def _texts(data: Any) -> dict[str, str]:
    return {str(path): str(said) for path, said in data.items()}
