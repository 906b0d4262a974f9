"""Test pieces, and proof before the first fire, as a chapter of setting up."""

from __future__ import annotations

from collections.abc import Iterator

from firstfire.engine.engine import Engine
from firstfire.setup.chapter import Chapter, Table
from firstfire.setup.proof import words
from firstfire.setup.proof.bench_tests import BenchTests, bench_tests
from firstfire.setup.proof.readings import GRAVITY

TITLE = "Test pieces, and proof before the first fire"


def proof_chapter(engine: Engine) -> Chapter:
    """What to break, how to read it, and what to prove."""
    found = bench_tests(engine)
    return Chapter("proof", TITLE, tuple(_said(found)), (), (_pieces(found),), words.CAUTION)


def _said(found: BenchTests) -> Iterator[str]:
    yield words.LIQUID
    if found.proof is None:
        yield f"What to prove it with is not told: {found.no_proof}"
    else:
        many = len(found.proof.cylinders) > 1
        yield from (words.cylinder_words(one, many=many) for one in found.proof.cylinders)
        yield words.joint_words(found.proof.joint)
    yield from words.PROVES
    if found.coupons:
        first = found.coupons[0]
        yield (
            f'What you read: firstfire coupon FILE --reading "{first.id}='
            f'{first.expected.value / GRAVITY / first.lever:.2g} kg" -o learned.toml, and then '
            "firstfire check FILE --layer learned.toml."
        )


def _pieces(found: BenchTests) -> Table:
    rows = [
        (one.id, one.title, words.expected(one), " ".join(one.steps), one.reads)
        for one in found.coupons
    ]
    rows += [(one.id, "none", "–", one.why, "–") for one in found.missing]
    head = ("piece", "what", "expect", "how to load it", "how to read it")
    return Table("Test pieces; drawings and solids are in the folder pieces", head, tuple(rows))
