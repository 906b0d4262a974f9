"""An engine of which nothing could be run still has a page: what is known, and what isn't."""

from dataclasses import replace

from tests.report.reading import SVG, strict, with_class, words

from firstfire.report import report
from firstfire.verdict.facts.margin import Verdict
from firstfire.verdict.words.sentences import sentence


def bare(result):
    """The result with all its events outside what the models cover."""
    left = replace(
        result, events=(), margins=(), run_times=(), verdict=Verdict("not judged", None, None, 1.0)
    )
    return replace(left, sentence=sentence(left))


def test_the_page_stands_without_any_event(wren):
    tree = strict(report(bare(wren)))
    ids = {e.get("id") for e in tree.iter() if e.get("id")}
    assert {"sentence", "drawing", "card", "cautions", "unjudged", "inputs"} <= ids
    assert not {"cycle", "made", "time", "moves", "balance"} & ids
    assert not [e for e in tree.iter(SVG + "svg") if "chart" in (e.get("class") or "").split()]


def test_it_says_that_nothing_is_judged(wren):
    tree = strict(report(bare(wren)))
    said = words(with_class(tree, "answer")[0])
    assert "not one of its ways to fail could be judged" in said


def test_only_what_was_run_is_drawn(wren):
    cranked = replace(wren, events=tuple(e for e in wren.events if e.event == "cranking"))
    tree = strict(report(replace(cranked, margins=(), run_times=())))
    ids = {e.get("id") for e in tree.iter() if e.get("id")}
    assert "made" in ids
    assert "cycle" not in ids
