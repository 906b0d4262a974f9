"""Labels round a wheel or along a strip: each near its mark, none upon another."""

from __future__ import annotations

from collections.abc import Sequence


def spread(wanted: Sequence[float], room: float) -> list[float]:
    """Places in the same order, none nearer than `room` to the next, moved as little as may be.

    Parameters
    ----------
    wanted
        Rising places.
    room
        Least distance.

    Examples
    --------
    >>> spread([0.0, 0.5, 1.0, 10.0], 2.0)
    [-1.5, 0.5, 2.5, 10.0]
    """
    groups: list[tuple[float, int]] = []  # middle and count of labels that touch
    for place in wanted:
        groups.append((place, 1))
        while len(groups) > 1 and _touch(groups[-2], groups[-1], room):
            (middle, count), (last, more) = groups[-2], groups[-1]
            # each label's own wish, less its place within the group
            mean = (middle * count + last * more) / (count + more)
            groups[-2:] = [(mean, count + more)]
    found: list[float] = []
    for middle, count in groups:
        found += [middle + (n - (count - 1) / 2) * room for n in range(count)]
    return found


def _touch(before: tuple[float, int], after: tuple[float, int], room: float) -> bool:
    apart = after[0] - before[0]
    return apart < room * (before[1] + after[1]) / 2 - 1e-9
