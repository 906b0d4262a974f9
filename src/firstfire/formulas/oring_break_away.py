"""How much harder an O-ring that has stood is to move than one that runs.

Rubber flows into the fine grooves of the bore and presses the film of oil out: the longer it
stands, the more it holds. Once it has moved it runs as before.

References
----------
The friction chapter of the seal handbooks: at most three times the running friction, of rubber of
70 Shore A on a bore ground to 8 micro-inch (read); that it grows by even steps for each tenfold of
time, from a second to some ten days (their chart, from memory, low confidence). On printed and sawn
bores nobody has measured it.
"""

from __future__ import annotations

import math

from firstfire.formulas.validity import require_not_negative

MOST = 3.0
"""Of the running friction, after a long stand."""

AT_ONCE = 1.0
"""Until then nothing has grown, s."""

LONGEST = 10 * 86_400.0
"""From then on nothing grows, s."""


def break_away(stood: float) -> float:
    """Friction at the first movement over that of a running ring.

    ``1 + 2 ln(1 + t/1 s) / ln(1 + 10 d/1 s)``, 3 from ten days on.

    Parameters
    ----------
    stood
        How long it has stood, s.

    Raises
    ------
    OutsideValidity
        For a negative time.

    Examples
    --------
    After a minute, a night and a month:

    >>> [round(break_away(seconds), 2) for seconds in (60.0, 12 * 3600.0, 30 * 86400.0)]
    [1.6, 2.56, 3.0]
    """
    require_not_negative(standing_time=stood)
    grown = math.log1p(min(stood, LONGEST) / AT_ONCE) / math.log1p(LONGEST / AT_ONCE)
    return 1.0 + (MOST - 1.0) * grown
