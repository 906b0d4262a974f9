"""One uncertain input: where it is set, its centre and how far it may be off."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

Distribution = Literal["normal", "lognormal", "loguniform", "uniform"]


@dataclass(frozen=True)
class Unknown:
    """One uncertain input.

    Attributes
    ----------
    path
        Where it is set, in the grammar of the engine file.
    distribution
        Its shape; ``loguniform`` spans exactly from `low` to `high`.
    centre, low, high
        SI; low to high is 5-95 %.
    origin
        The layer and kind that spoke of its centre.
    source
        Where the spread is from.
    extrapolated
        Whether a correlation is used here beyond the ground it was fitted on.
    """

    path: str
    distribution: Distribution
    centre: float
    low: float
    high: float
    origin: str
    source: str
    extrapolated: bool = False

    @property
    def either_sign(self) -> bool:
        """Whether it may be below nothing: a shift, or a fit, which is then loose.

        All else is a size, a mass, a pressure or a ratio.
        """
        return self.path == "doubt.burn_phase" or self.path.endswith("interference")
