"""Whether a shaft stands against a compression that it is turned into: one law for every start."""

from __future__ import annotations

from copy import copy

import numpy as np
from numpy.typing import NDArray

STILL = 0.5
"""Slower it stands, rad/s: a twentieth of the slowest hand. Common practice, no source."""


class Stalled:
    """Whether a shaft that had begun to turn stood, or was thrown back, before a compression.

    Then its starter has not brought it over: held on, it would creep past its top as the charge
    leaks away, and meet the next one as slowly. Nobody holds it on. Compression that a hole lets
    off is none yet: past an open hole it may creep, which is what the hole is for.

    Parameters
    ----------
    way
        1 or -1, as its starter turns it.

    Attributes
    ----------
    turned
        Whether it has begun to turn.
    stood
        Whether it stood after that.

    Examples
    --------
    >>> def stood(*speeds, let_off=False):
    ...     shaft = Stalled()
    ...     shaft.feel(np.array(speeds), let_off=let_off)
    ...     return shaft.stood
    >>> stood(0.0, 8.0, 2.0, 9.0), stood(0.0, 8.0, 0.1, 9.0), stood(8.0, 0.1, let_off=True)
    (False, True, False)
    """

    def __init__(self, way: float = 1.0) -> None:
        self.way, self.turned, self.stood = way, False, False

    def feel(self, speed: NDArray[np.float64], *, let_off: bool) -> None:
        """Take in its next steps.

        Parameters
        ----------
        speed
            At each, rad/s.
        let_off
            Whether an open hole lets off whatever is compressed there.
        """
        along = self.way * speed
        moves = np.flatnonzero(along > STILL)
        began = 0 if self.turned else int(moves[0]) if moves.size else len(along)
        self.turned = self.turned or moves.size > 0
        if not let_off and bool(np.any(along[began:] < STILL)):
            self.stood = True

    @property
    def over(self) -> bool:
        """Whether it turned, and never stood."""
        return self.turned and not self.stood

    def again(self) -> Stalled:
        """The same, to be gone on with apart from this one."""
        return copy(self)
