"""Each change that is offered, made in the engine itself and run as an event of its own.

What a change is said to come to was worked out from the event at hand, side by side with others;
here the changed engine is run from nothing, as a person would who made the change.
"""

import math
from dataclasses import dataclass, field
from pathlib import Path

import pytest

import firstfire as ff
from firstfire.runs.moved import Trials

ENGINES = Path(__file__).resolve().parents[2] / "engines"

pytestmark = pytest.mark.slow

#: Made weaker, so that there is something to raise: of wren as it is next to nothing is offered.
WEAKER = {"wren": {"head.fasteners.thread": "M4", "crank.journal.joint.cross_pins": 3}}
FEWEST = 3
"""Changes offered at the least, lest nothing be tried."""


@dataclass
class Changed:
    """Events of changed engines, each run once."""

    engine: object
    known: dict = field(default_factory=dict)

    def judged(self, change, event, speed, at_seconds):
        key = (event, speed, tuple(sorted(change.items())))
        if key not in self.known:
            changed = ff.with_values(self.engine, change)
            trials = Trials(changed)
            trials.unknowns = ()  # the factor alone is wanted, not its span
            speeds = [speed] if event == "full_throttle" else None
            self.known[key] = ff.run(changed, event, speeds=speeds, trials=trials, drawn=1)
        return {m.way.id: m.factor for m in ff.judge(self.known[key], at_seconds)}


TWINS_AND_LIGHT = [pytest.param(name, marks=pytest.mark.long) for name in ("heron", "plover")]


@pytest.mark.parametrize("name", ["wren", *TWINS_AND_LIGHT])
def test_each_change_does_what_it_says_once_an_engine(name):
    engine = ff.with_values(ff.read(ENGINES / f"{name}.toml"), WEAKER.get(name, {}))
    result = ff.check(engine, drawn=16)
    speeds = {point.name: point.speed for point in result.points}
    changed = Changed(engine)
    tried = set()
    for margin in result.margins:
        for raised in margin.raise_by:
            found = changed.judged(
                raised.set, margin.event, speeds[margin.point], margin.at_seconds
            )
            after = found.get(margin.way.id)
            told = (margin.way.id, raised.text, raised.factor_after, after)
            if raised.factor_after >= 1e6:
                # There is no such part any more, or it can't fail.
                assert after is None or after >= 1e6, told
            else:
                # 1 %: cycles and throttle are found anew, each as finely as it is looked for.
                assert after == pytest.approx(raised.factor_after, rel=0.01), told
                assert after > margin.factor, told
            tried.add((margin.way.id, raised.text))
    assert len(tried) >= FEWEST
    assert all(math.isfinite(m.factor) for m in result.margins if m.raise_by)
