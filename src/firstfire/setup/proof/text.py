"""Test pieces and proof on the terminal."""

from __future__ import annotations

from collections.abc import Iterator

from firstfire.setup.proof import words
from firstfire.setup.proof.bar import TITLE as BAR
from firstfire.setup.proof.facts import BenchFacts
from firstfire.setup.proof.readings import Learned
from firstfire.setup.proof.values import written
from firstfire.setup.proof.which import Which
from firstfire.verdict.words.text.lines import WIDTH, heading, wrapped


def bench_text(found: BenchFacts, *, width: int = WIDTH) -> str:
    """All of it as text."""
    lines = wrapped(_opening(found), width=width)
    if found.learned:
        lines += [*heading("What your readings say"), *_learned(found, width=width)]
    lines += [*heading("Test pieces"), *_coupons(found, width=width)]
    lines += [*heading("Proof before the first fire"), *_proof(found, width=width)]
    return "\n".join([*lines, "", *wrapped(words.CAUTION, width=width)])


def _opening(found: BenchFacts) -> str:
    count = len(found.coupons)
    return (
        f"{found.engine.name}: {count} test piece{'s' * (count != 1)} to break before the engine "
        "is printed, and what to prove it with before the first fire. --draw FOLDER writes them "
        "to print; --which says which narrows the verdict most."
    )


def _learned(found: BenchFacts, *, width: int) -> Iterator[str]:
    for one in found.learned:
        yield from wrapped(f"{learned_words(found, one)}", 2, width=width, hang=4)


def learned_words(found: BenchFacts, one: Learned) -> str:
    """What a piece taught: *strength_across of petg 24 MPa (20 to 29), taken as 28*."""
    path = one.coupon.path
    value, low, high, now = (
        written(found.engine, path, number, 3).strip('"')
        for number in (one.value, one.low, one.high, one.coupon.now)
    )
    many = len(one.readings)
    return (
        f"{one.coupon.id}, {many} read: {path} = {value} ({low} to {high}, 5-95 %); it was taken "
        f"as {now}."
    )


def _coupons(found: BenchFacts, *, width: int) -> Iterator[str]:
    first: str | None = None
    for one in found.coupons:
        yield from wrapped(f"{one.id}: {one.title}. Expect {words.expected(one)}.", 2,
                           width=width, hang=4)  # fmt: skip
        if one.title.startswith(BAR) and first is not None:
            yield from wrapped(f"Loaded and read as the {first}.", 4, width=width)
            continue
        first = one.id if one.title.startswith(BAR) else first
        for number, step in enumerate(one.steps, 1):
            yield from wrapped(f"{number}. {step}", 4, width=width, hang=7)
        yield from wrapped(f"{one.reads} It bears on: {', '.join(one.bears_on)}.", 4, width=width)
    for none in found.missing:
        yield from wrapped(f"{none.id}: none: {none.why}.", 2, width=width, hang=4)


def _proof(found: BenchFacts, *, width: int) -> Iterator[str]:
    yield from wrapped(words.LIQUID, 2, width=width)
    if found.proof is None:
        yield from wrapped(f"Not told: {found.no_proof}", 2, width=width)
        return
    many = len(found.proof.cylinders) > 1
    for one in found.proof.cylinders:
        yield from wrapped(words.cylinder_words(one, many=many), 2, width=width, hang=4)
    yield from wrapped(words.joint_words(found.proof.joint), 2, width=width, hang=4)
    for said in words.PROVES:
        yield from wrapped(said, 2, width=width)


def which_lines(told: Which, *, width: int = WIDTH) -> Iterator[str]:
    """What to read first of all, and where the test pieces stand."""
    yield from wrapped(told.first, width=width)
    yield from heading("Which test piece narrows the verdict most")
    for one in told.pieces:
        place = "–" if one.place is None else f"{one.place}."
        yield from wrapped(f"{place} {one.coupon.id}: {one.words}", 2, width=width, hang=5)
    yield from wrapped(
        "Numbers: place among all that can be measured at home; `firstfire explain FILE --doubt` "
        "has the rest.", 2, width=width,
    )  # fmt: skip
