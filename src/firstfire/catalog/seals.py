"""Which O-rings suit a bore."""

from __future__ import annotations

from typing import NamedTuple

from firstfire.catalog.lookup import Catalog
from firstfire.catalog.row import Row

SQUEEZE = 0.12
"""Squeeze that the groove is assumed to be cut for: the middle of the reciprocating gland
tables for 2.62 and 3.53 mm sections (9-18 %)."""


class FittingRing(NamedTuple):
    """A ring with how far it is stretched in the groove of a bore."""

    row: Row
    stretch: float


def orings_for_bore(
    catalog: Catalog,
    bore: float,
    section: float | None = None,
    squeeze: float = SQUEEZE,
    slack: float = -0.01,
    most: float = 0.05,
) -> tuple[FittingRing, ...]:
    """O-rings that suit the piston of a bore, the least stretched first.

    The groove is as deep as `squeeze` asks of the nominal section: its diameter is
    ``bore - 2 section (1 - squeeze)``; the stretch is groove over inside diameter less 1.

    Parameters
    ----------
    catalog
        Where the rings are.
    bore
        Bore, m.
    section
        Only this nominal section, m; None for any.
    squeeze
        Squeeze of the nominal section, fraction.
    slack, most
        Least and greatest stretch, fraction; 5 % is the usual limit.

    Examples
    --------
    >>> fitting = orings_for_bore(Catalog(), 0.044, section=2.62e-3)
    >>> [ring.row.key for ring in fitting]
    ['as568_129', 'as568_128']
    """
    fitting = []
    for row in catalog.rows("oring"):
        if section is not None and abs(row.si("section") - section) > 1e-5:
            continue
        groove = bore - 2.0 * row.si("section") * (1.0 - squeeze)
        stretch = groove / row.si("inside") - 1.0
        if slack <= stretch <= most:
            fitting.append(FittingRing(row, stretch))
    return tuple(sorted(fitting, key=lambda ring: abs(ring.stretch)))
