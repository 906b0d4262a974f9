"""Starts of engines that are drawn: on both processors against one."""

import os
from pathlib import Path

import firstfire as ff
from benchmarks.alternate import least_times
from benchmarks.figure import Figure, at_least
from firstfire.runs.moved import Trials
from firstfire.runs.start.account import heard_at
from firstfire.runs.start.asked import Asked
from firstfire.runs.start.odds import odds

ENGINE = Path(__file__).resolve().parents[1] / "engines" / "wren.toml"
_COUNT = 200


def measure() -> list[Figure]:
    """Time of 200 starts on one processor over that on two."""
    trials = Trials(ff.read(ENGINE))
    asked = Asked(seconds=3.0, after=1.0, seed=1, let_go_at=heard_at(trials.centre))
    odds(trials, asked, 8, tries=1)
    times = least_times(
        [
            lambda: odds(trials, asked, _COUNT, tries=1, hands=1),
            lambda: odds(trials, asked, _COUNT, tries=1, hands=2),
        ],
        120.0,
    )
    note = f"wren, {times[0] / _COUNT * 1e3:.0f} ms a start; {os.cpu_count()} processors"
    return [
        at_least(f"{_COUNT} starts: one processor over two", times[0] / times[1], 1.8, "", note)
    ]
