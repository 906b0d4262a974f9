"""The page of parts lists every way to fail, as it is declared."""

from __future__ import annotations

import re

from tests.parts.moments import ROOT

from firstfire.parts import REPORTED, failures

PAGE = (ROOT / "docs" / "parts.md").read_text(encoding="utf-8")
LINES = {
    found[1]: line for line in PAGE.splitlines() if (found := re.match(r"\| `([a-z_.]+)` \|", line))
}


def test_the_page_lists_every_way_and_no_other() -> None:
    assert set(LINES) == {failure.id for failure in failures()}


def test_the_page_says_of_each_what_is_declared() -> None:
    for failure in failures():
        line = LINES[failure.id].replace(r"\|", "|")
        assert f"| {failure.part} {failure.failure} |" in line, failure.id
        assert f"| {failure.formula} |" in line, failure.id
        assert failure.source in line, failure.id
        marks = line.rsplit("|", 2)[1]
        assert ("hazard" in marks) is failure.hazard, failure.id
        assert ("once an engine" in marks) is failure.shared, failure.id
        assert ("reported" in marks) is (failure.id in REPORTED), failure.id
