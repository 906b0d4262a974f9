"""Every seat of an engine; those alike in both cylinders once."""

from __future__ import annotations

from dataclasses import replace

from firstfire.catalog import Catalog
from firstfire.engine.resolve import PlainEngine
from firstfire.setup.fits.cylinder_seats import cylinder_seats
from firstfire.setup.fits.seat import SeatFit
from firstfire.setup.fits.shaft_seats import shaft_seats


def all_seats(plain: PlainEngine, catalog: Catalog) -> tuple[SeatFit, ...]:
    """Along the shaft, then of each cylinder."""
    found = list(shaft_seats(plain))
    first = list(cylinder_seats(plain, catalog, 0, ""))
    for place in range(1, len(plain.cylinders)):
        for seat in cylinder_seats(plain, catalog, place, ""):
            same = next((n for n, one in enumerate(first)
                         if replace(one, count=0) == replace(seat, count=0)), None)  # fmt: skip
            if same is None:
                first.append(replace(seat, id=f"{seat.id}-{place + 1}"))
            else:
                first[same] = replace(first[same], count=first[same].count + seat.count)
    return (*found, *first)
