"""What the kernel's record has room for: the last that fits, and the first that doesn't."""

from __future__ import annotations

from types import SimpleNamespace

import pytest

from firstfire.cycle import layout
from firstfire.cycle.build import _check_room
from firstfire.errors import OutsideValidity

ROOM = {
    "cylinders": layout.MOST_CYLINDERS,
    "volumes": layout.MOST_VOLUMES,
    "passages": layout.MOST_PASSAGES,
    "valves": layout.MOST_VALVES,
}


def spec(cylinders=1, volumes=1, passages=1, valves=2):
    """Of so many; volumes and passages beside cylinders and valves."""
    counts = {"cylinders": cylinders, "volumes": volumes, "passages": passages, "valves": valves}
    return SimpleNamespace(**{name: (None,) * count for name, count in counts.items()})


@pytest.mark.parametrize(
    ("what", "most"),
    [
        ("cylinders", {"cylinders": ROOM["cylinders"], "volumes": 0}),
        ("volumes", {"cylinders": 2, "volumes": ROOM["volumes"] - 2}),
        ("passages", {"valves": 4, "passages": ROOM["passages"] - 4}),
        ("valves", {"valves": ROOM["valves"], "passages": 0}),
    ],
)
def test_what_is_beyond_the_room_is_refused_by_name(what, most):
    _check_room(spec(**most))
    with pytest.raises(OutsideValidity, match=f"^{ROOM[what] + 1} {what}: "):
        _check_room(spec(**most | {what: most[what] + 1}))
