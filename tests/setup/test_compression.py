"""The gauge's reading to expect: that of a start, for each cylinder, said where it is none."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

import firstfire as ff
from firstfire.runs.cranking import gauge_reading
from firstfire.setup.compression.chapter import compression_chapter
from firstfire.setup.compression.readings import SECONDS, compression

ENGINES = Path(__file__).parents[2] / "engines"


@pytest.fixture(scope="module")
def heron():
    return compression(ff.read(ENGINES / "heron.toml"))


def test_each_cylinder_has_its_own_reading(heron) -> None:
    assert len(heron.dry) == 2
    assert heron.dry[0] == heron.turned.gauge
    assert heron.dry[1] == gauge_reading(heron.plain, heron.turned.shaft, SECONDS, None, 1)
    assert heron.dry[0] < heron.turned.gauge_oiled
    # its runners are of other lengths: they don't read the same to the last digit
    assert heron.dry[0] != heron.dry[1]


def test_the_chapter_says_dry_oiled_and_at_which_speed(heron) -> None:
    chapter = compression_chapter(heron)
    said = " ".join(chapter.said).replace("\u202f", " ")
    rpm = heron.turned.mean_speed * 30 / 3.141592653589793
    assert f"at {round(rpm, -2):.0f} rpm in the mean" in said
    assert f"about {heron.turned.gauge / 1e5:.0f} bar" in said
    assert f'--gauge "{heron.turned.gauge / 1e5:.2g} bar"' in said
    (table,) = chapter.tables
    assert [row[0] for row in table.rows] == ["1", "2"]
    assert table.rows[1][2] == "–"
    assert "not held" in chapter.caution


def test_a_starter_that_does_not_bring_it_over_has_no_reading(heron) -> None:
    chapter = compression_chapter(replace(heron, turned=replace(heron.turned, over=False)))
    assert chapter.tables == ()
    assert len(chapter.said) == 1
    assert "does not bring it over" in chapter.said[0]
    assert "bar" not in chapter.said[0]
