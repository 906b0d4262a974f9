"""What to measure first, on the page: short, beside the next move, as the command has it."""

from tests.report.reading import by_id, elements, strict, words

from firstfire.verdict.doubt.doubt import doubts
from firstfire.verdict.doubt.words import said


def test_it_says_what_the_command_says_and_no_more_than_three(each):
    result, page = each
    tree = strict(page)
    heading = by_id(tree, "measure")
    assert words(heading) == "What to measure first"
    section = next(
        one for one in elements(tree, "section") if one.get("aria-labelledby") == "measure"
    )
    found = doubts(result)
    assert said(found) in words(section)
    items = list(elements(section, "li"))
    assert len(items) == min(len(found.worth_it), 3)
    for item, one in zip(items, found.worth_it, strict=False):
        assert one.reading.words in words(item)
        assert all(span.path in words(item) for span in one.spans)


def test_it_follows_the_next_move(wren_page):
    tree = strict(wren_page)
    order = [one.get("aria-labelledby") for one in elements(tree, "section")]
    before = [name for name in ("time", "moves") if name in order]
    assert order.index("measure") == order.index(before[-1]) + 1


def test_the_caution_stands_where_a_reading_turns_the_engine(wren, wren_page):
    first = doubts(wren).worth_it[:3]
    section = next(
        one
        for one in elements(strict(wren_page), "section")
        if one.get("aria-labelledby") == "measure"
    )
    turned = any(one.reading.spins for one in first)
    assert ("stand out of its plane" in words(section)) == turned
