"""Whatever is judged is drawn, under the name it has in the ledger."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest
from tests.drawing.conftest import plain_engine

from firstfire.drawing.along_crank import along_crank
from firstfire.drawing.naming import PARTS, slug_of
from firstfire.drawing.section import section
from firstfire.drawing.verdicts import part_words
from firstfire.engine.records import Way
from firstfire.parts.all import failures
from firstfire.verdict.facts.margin import Margin, Word

# Engines that have between them everything a way to fail can speak of.
ENGINES = (
    plain_engine("wren"),
    plain_engine("heron"),
    plain_engine("plover"),
    plain_engine("5_metal_wren"),
    plain_engine("wren", rod__split=True, cam_drive__kind="gear"),
)


def drawn() -> dict[str, set[str]]:
    """Titles under which each kind of part is drawn across the crank."""
    found: dict[str, set[str]] = {}
    for plain in ENGINES:
        for part in section(plain).parts:
            kind = part.id if part.id in PARTS else part.id.rpartition("-")[0]
            assert kind in PARTS
            found.setdefault(kind, set()).add(part.title.partition(" of cylinder")[0])
    return found


@pytest.mark.parametrize("failure", failures(), ids=lambda f: f.id)
def test_every_way_to_fail_has_its_part_in_the_section(failure) -> None:  # type: ignore[no-untyped-def]
    ident = slug_of(failure.id)
    kind = ident if ident in PARTS else ident.rpartition("-")[0]
    assert PARTS[kind].shared or ident.endswith("-1")
    assert failure.part in {*drawn_once()[kind], PARTS[kind].whole}


_ONCE: dict[str, set[str]] = {}


def drawn_once() -> dict[str, set[str]]:
    if not _ONCE:
        _ONCE.update(drawn())
    return _ONCE


def test_the_second_cylinders_ways_speak_of_its_own_parts() -> None:
    heron = section(plain_engine("heron"))
    assert heron.part(slug_of("head.lift#2")).title == "head of cylinder 2"
    assert slug_of("crank.joint.slip") == "joint"
    with pytest.raises(KeyError):
        slug_of("wings.fall_off")


def test_both_views_name_a_part_alike() -> None:
    for plain in ENGINES:
        across = {p.id: p.title for p in section(plain).parts}
        for part in along_crank(plain).parts:
            if part.id in across:
                assert part.title == across[part.id]


def margin(way: str, word: Word, *, reported: bool = False) -> Margin:
    nothing = math.nan
    record = Way(way, "part", "fails", nothing, nothing, "N", False, "", None, "", "")
    return Margin(
        way=record, event="cranking", point="", at_seconds=0.0, factor=None, factor_low=None,
        factor_high=None, word=word, survival=None, depends_on=(), reported=reported,
    )  # fmt: skip


def test_the_worst_word_of_a_part() -> None:
    said = part_words([
        margin("head.break", "holds"), margin("head.lift", "fails"),
        margin("head.seat.loosen", "marginal"), margin("head.lift#2", "marginal"),
        margin("pin.walk", "not judged"), margin("pin.bend", "holds"),
        margin("cam.face.wear", "not judged"), margin("piston.crown.break", "holds"),
        margin("piston.crown.char", "fails", reported=True),
    ])  # fmt: skip
    assert said == {
        "head-1": "fails", "head-2": "marginal", "piston-pin-1": "holds", "cam": "not judged",
        "piston-crown-1": "holds",
    }  # fmt: skip


def test_words_lie_on_the_parts_and_in_the_legend() -> None:
    plain = plain_engine("wren")
    marked = section(plain, verdicts={"head-1": "fails", "rod-1": "marginal", "cam": "not judged"})
    assert marked.part("head-1").word == "fails"
    assert marked.part("body-1").word == ""
    words = {getattr(shape, "text", "") for shape in marked.legend}
    assert {"fails", "marginal", "not judged"} <= words
    assert "holds" not in words
    bare = section(plain)
    assert replace(marked.part("head-1"), word="") == bare.part("head-1")
    with pytest.raises(ValueError, match="none of holds, marginal, fails, not judged"):
        section(plain, verdicts={"head-1": "safe"})
