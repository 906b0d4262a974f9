"""The page is what the HTML standard asks for: html5lib reads it strictly, names fit together."""

import itertools
import re

import pytest
from tests.report.reading import NAMESPACE, SVG, by_id, elements, strict, words

_MOST_BYTES = 1_500_000


@pytest.fixture(scope="module")
def tree(each):
    return strict(each[1])


def test_the_strict_reader_finds_faults():
    import html5lib

    with pytest.raises(html5lib.html5parser.ParseError):
        strict("<!DOCTYPE html><title>x</title><p><table><tr>no</p>")


def test_it_is_small_and_complete(each):
    page = each[1]
    assert len(page.encode()) < _MOST_BYTES
    assert page.startswith("<!DOCTYPE html>")


def test_nothing_is_fetched(each):
    page = each[1]
    outside = re.findall(r"""(?:src|href|url\()\s*=?\s*["'(]?\s*((?:https?:)?//[^"')\s]+)""", page)
    assert outside == []
    assert "@import" not in page
    assert "<link" not in page


def test_ids_are_unique(tree):
    ids = [e.get("id") for e in tree.iter() if e.get("id")]
    assert len(ids) == len(set(ids))


def test_every_address_on_the_page_is_there(tree):
    ids = {e.get("id") for e in tree.iter() if e.get("id")}
    asked = [e.get("href") for e in tree.iter() if (e.get("href") or "").startswith("#")]
    assert asked
    assert {a[1:] for a in asked} <= ids


def test_patterns_that_are_used_are_there(each, tree):
    ids = {e.get("id") for e in tree.iter() if e.get("id")}
    assert set(re.findall(r"url\(#([^)]+)\)", each[1])) <= ids


def test_headings_go_down_one_step_at_a_time(tree):
    levels = [int(e.tag[-1]) for e in tree.iter() if re.fullmatch(NAMESPACE + "h[1-6]", str(e.tag))]
    assert levels[0] == 1
    assert levels.count(1) == 1
    assert all(b <= a + 1 for a, b in itertools.pairwise(levels))


def test_charts_are_named_and_described(tree):
    charts = [e for e in tree.iter(SVG + "svg") if e.get("role") == "img"]
    assert len(charts) >= 9
    for chart in charts:
        named = f"{chart.get('aria-labelledby')} {chart.get('aria-describedby') or ''}".split()
        said = [words(by_id(chart, name)) for name in named]
        assert len(said) == 2
        assert all(len(text) > 3 for text in said)


def test_links_stand_in_no_picture(tree):
    # WAI-ARIA 1.2: children of the role img are presentational, so a link in one is lost.
    links = [e for e in tree.iter(SVG + "a") if e.get("href")]
    assert links
    pictures = [e for e in tree.iter(SVG + "svg") if e.get("role") == "img"]
    assert not [link for picture in pictures for link in picture.iter(SVG + "a")]
    assert all(len(link.get("aria-label") or "") > 5 for link in links)


def test_what_is_only_seen_is_hidden_from_readers(tree):
    unnamed = [e for e in tree.iter(SVG + "svg") if e.get("role") not in ("img", "group")]
    assert unnamed
    assert all(e.get("aria-hidden") == "true" for e in unnamed)


def test_tables_have_heads(tree):
    tables = list(elements(tree, "table"))
    assert tables
    for table in tables:
        heads = list(elements(table, "th"))
        assert heads
        assert all(th.get("scope") in ("col", "row") for th in heads)


def test_the_language_is_told(tree):
    assert tree.get("lang") == "en"


def test_every_input_stands_there(each, tree):
    from firstfire.engine.grammar import leaves

    result, _ = each
    told = {words(e) for e in elements(tree, "code")}
    assert set(leaves()) <= told
    assert result.engine.cylinders in (1, 2)


def test_order_is_that_of_every_page(tree):
    wanted = ["sentence", "drawing", "card", "ledger", "cycle", "time", "moves", "balance",
              "cautions", "unjudged", "inputs"]  # fmt: skip
    found = [e.get("id") for e in tree.iter() if e.get("id") in wanted]
    assert found == wanted
