"""The loads that a bout keeps: its own, the same from many threads, gone with it."""

from __future__ import annotations

import gc
import sys
from collections.abc import Iterator
from concurrent.futures import ThreadPoolExecutor
from dataclasses import replace
from pathlib import Path
from weakref import ref

import pytest

import firstfire as ff
from firstfire.runs.moments import loads_at
from firstfire.runs.run import EventResult

WREN = Path(__file__).parents[2] / "engines" / "wren.toml"


@pytest.fixture(scope="module")
def cranked() -> EventResult:
    return ff.run(ff.read(WREN), "cranking", drawn=1)


@pytest.fixture
def switching() -> Iterator[None]:
    """Threads that switch as fast as they can."""
    before = sys.getswitchinterval()
    sys.setswitchinterval(1e-6)
    yield
    sys.setswitchinterval(before)


@pytest.mark.usefixtures("switching")
def test_judging_from_many_threads_is_judging_from_one(cranked: EventResult) -> None:
    """A list of kept loads that all bouts shared changed while another thread looked through it."""
    seconds = [0.5 + 0.01 * n for n in range(8)]
    alone = [[m.factor for m in ff.judge(cranked, at)] for at in seconds]
    bout = cranked.bouts[0]
    with ThreadPoolExecutor(8) as pool:
        peaks = [[2e6 + 1e3 * n] for n in range(400)]
        work = [pool.submit(loads_at, bout, cranked.engine, peak) for peak in peaks]
        judged = [pool.submit(ff.judge, cranked, at) for at in seconds]
        assert [[m.factor for m in one.result()] for one in judged] == alone
        for one in work:
            one.result()


def test_kept_loads_are_those_asked_for(cranked: EventResult) -> None:
    bout = cranked.bouts[0]
    first = loads_at(bout, cranked.engine, [2e6])
    assert loads_at(bout, cranked.engine, [2e6]) is first
    assert loads_at(bout, cranked.engine, [2.1e6]) is not first
    assert loads_at(bout, cranked.engine.model_copy(), [2e6]) is not first


def test_a_bout_made_of_another_keeps_none_of_its_loads(cranked: EventResult) -> None:
    bout = cranked.bouts[0]
    first = loads_at(bout, cranked.engine, [2e6])
    changed = replace(bout, gases=tuple(replace(g, pressure=2 * g.pressure) for g in bout.gases))
    assert not changed.felt
    assert loads_at(changed, cranked.engine, [2e6]) is not first


def test_kept_loads_go_with_their_bout(cranked: EventResult) -> None:
    bout = replace(cranked.bouts[0])
    kept = ref(loads_at(bout, cranked.engine, [2e6]))
    assert kept() is not None
    del bout
    gc.collect()
    assert kept() is None
