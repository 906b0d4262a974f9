"""What a check found, as a person asks for it: text, a notebook's page, plain data, JSON."""

from __future__ import annotations

import json
from dataclasses import dataclass
from html import escape
from typing import Any

from firstfire.verdict.facts.found import Found
from firstfire.verdict.told.contract import ResultTold
from firstfire.verdict.told.result import told_result
from firstfire.verdict.words.text.show import check_text


@dataclass(frozen=True)
class Result(Found):
    """What a check found; all that `Found` has, and the ways to tell it."""

    def __str__(self) -> str:
        """The whole check as text of 80 columns."""
        return check_text(self)

    def _repr_html_(self) -> str:
        """The same in a notebook, its sentence as text and the rest below it."""
        return f"<p>{escape(self.sentence)}</p><pre>{escape(str(self))}</pre>"

    def told(self) -> ResultTold:
        """The result in its JSON contract."""
        return told_result(self)

    def as_dict(self) -> dict[str, Any]:
        """The result as plain data: SI, units in field names, None for what has no meaning."""
        return self.told().model_dump(by_alias=True)

    def to_json(self, indent: int | None = 2) -> str:
        """The result as JSON text, schema ``firstfire.result/1``."""
        return json.dumps(self.as_dict(), indent=indent, ensure_ascii=False, allow_nan=False)
