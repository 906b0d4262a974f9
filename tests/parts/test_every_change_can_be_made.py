"""Every change that is offered, of any part and event, gives an engine that can be built.

It is applied as a person would: the engine file takes it, it resolves, its sizes go together, and
where the change is of what turns, journals have their place and the engine can be drawn along it.
"""

from __future__ import annotations

from functools import cache

import pytest
from tests.parts.moments import COLD, FILES, engine, moment

from firstfire.drawing.along_crank import along_crank
from firstfire.engine.geometry import geometry
from firstfire.engine.read import with_values
from firstfire.engine.resolve import resolve
from firstfire.errors import FirstfireError
from firstfire.loads.crank_layout import journals
from firstfire.parts import ways

EVENTS = ("cranking", "first_fire", "full_throttle", "overtighten", "night")
"""Between them they break whatever any event breaks."""
TURNS = ("crank", "flywheel", "cam_drive", "rod")

pytestmark = pytest.mark.slow


@cache
def offered(file: str) -> dict[tuple[tuple[str, str], ...], str]:
    """Each change with what it is called, of all parts, cylinders and events."""
    found: dict[tuple[tuple[str, str], ...], str] = {}
    for event in EVENTS:
        rises = COLD if event in ("first_fire", "cranking", "night", "overtighten") else None
        for cylinder in range(engine(file).cylinders):
            for way in ways(moment(file, event=event, cylinder=cylinder, rises=rises)):
                for change in way.raise_by:
                    found[tuple(sorted(change.set.items()))] = f"{way.id}: {change.text}"
    return found


@pytest.mark.parametrize("file", FILES)
def test_an_engine_with_any_change_made_can_be_built(file: str) -> None:
    changes = offered(file)
    assert len(changes) > 20
    wrong = []
    for change, words in changes.items():
        try:
            after = with_values(engine(file), dict(change), comma=True)
            plain = resolve(after)
            geometry(plain)
            if any(path.startswith(TURNS) for path, _ in change):
                journals(plain)
                along_crank(plain)
        except FirstfireError as why:
            wrong.append(f"{words} {dict(change)}: {why}")
    assert not wrong, "\n".join(wrong)
