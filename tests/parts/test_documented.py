"""The page of parts lists every way to fail, as it is declared."""

from __future__ import annotations

from tools import ways_table


def test_the_page_says_of_each_way_what_is_declared() -> None:
    text = ways_table.PAGE.read_text(encoding="utf-8")
    assert text == ways_table.page(text), "run `make tables`"


def test_each_way_stands_under_a_heading_of_its_own_kind() -> None:
    assert ways_table.section_of("liner.burst") == "Liner and body"
    assert ways_table.section_of("case.burst") == "Fire outside the cylinder"
    assert ways_table.section_of("propeller.flies") == "What else there is"
