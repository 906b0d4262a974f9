"""How much of a doubt one reading would take away: variance shares of engines drawn.

References
----------
A. Saltelli and others, *Global Sensitivity Analysis: The Primer*, Wiley 2008, section 1.2.4 (the
first-order index V(E(Y|X))/V(Y)), from memory.
"""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

import numpy as np

if TYPE_CHECKING:
    from numpy.typing import NDArray

    Floats = NDArray[np.float64]

BINS = 100
"""Equal shares of the draws: a bin's mean stands for what a reading in it tells. With fewer, rare
things are told too little; with more, chance comes to more."""


def shares_told(asked: Floats, reading: Floats) -> Floats:
    """Shares of the variance of what is asked that a reading explains, 0 to 1.

    Draws are put in order of the reading and cut into equal bins; the variance of the bins' means
    is what the reading tells, less what so few draws a bin come to by chance.

    Parameters
    ----------
    asked
        What one would know, for each draw; (questions, n).
    reading
        What is read, for each draw; (n,), n a multiple of `BINS`.

    Examples
    --------
    >>> luck = np.random.default_rng(1).standard_normal((2, 20_000))
    >>> shares_told(np.array([luck[0], luck[0] + 2 * luck[1]]), luck[1]).round(2).tolist()
    [0.0, 0.8]
    """
    whole = np.var(asked, axis=1)
    bins = asked[:, np.argsort(reading)].reshape(asked.shape[0], BINS, -1)
    within = np.var(bins, axis=2, ddof=1).mean(axis=1)
    between = np.var(bins.mean(axis=2), axis=1) - within * (BINS - 1) / reading.size
    told = np.divide(between, whole, out=np.zeros_like(whole), where=whole > 0)
    return np.asarray(np.clip(told, 0.0, 1.0))


def read_with_error(true: Floats, left: float, luck: Floats) -> Floats:
    """A reading that leaves a share of the span: the truth, and an error of its own.

    Known by it, the truth's standard deviation is `left` of what it was.

    Parameters
    ----------
    true
        Of each draw, in standard deviations.
    left
        0: it tells all; 1: it tells nothing.
    luck
        Standard normal draws that nothing else uses.
    """
    return math.sqrt(1.0 - left**2) * true + left * luck
