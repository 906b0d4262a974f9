"""The fits of an engine: every seat, clearance, ring, belt, torque and bead."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from firstfire.engine.engine import Engine
from firstfire.engine.read import with_layer_text
from firstfire.engine.resolve import PlainEngine, resolve
from firstfire.setup.fits.all_seats import all_seats
from firstfire.setup.fits.belt import belt_set
from firstfire.setup.fits.bore import Bore
from firstfire.setup.fits.clearances import clearances
from firstfire.setup.fits.facts import CylinderFits, FitsFacts
from firstfire.setup.fits.measured import habits, layer_text, readings
from firstfire.setup.fits.refused import refuse_cracked
from firstfire.setup.fits.rings import ring_fit, suiting
from firstfire.setup.fits.sealant import sealant
from firstfire.setup.fits.torques import torques


@dataclass(frozen=True)
class Fits(FitsFacts):
    """Fits, clearances and torques; prints well, and gives JSON."""

    def __str__(self) -> str:
        from firstfire.setup.fits.text import fits_text

        return fits_text(self)

    def to_json(self) -> str:
        """As ``firstfire.fits/1``: SI, units in field names."""
        from firstfire.setup.fits.contract import fits_json

        return fits_json(self)


def fits(engine: Engine, measured: Sequence[str] = ()) -> Fits:
    """The fits of `engine`; no gas is run.

    Parameters
    ----------
    engine
        As written down.
    measured
        Readings of prints and bores: ``hole 12=11.82 mm``, ``bore top along=39.96 mm``.

    Raises
    ------
    FirstfireError
        For readings that are none, and for fits that the file says and that crack a part, with
        the nearest that doesn't.
    """
    read = readings(engine, measured)
    found = habits(engine, read.printed)
    layer = layer_text(found) if found else ""
    if layer:
        engine = with_layer_text(layer, "readings", engine)
    plain = resolve(engine)
    seats = all_seats(plain, engine.catalog)
    refuse_cracked(engine, seats)
    belt, no_belt = belt_set(plain, engine.catalog)
    return Fits(
        engine, plain, seats, clearances(plain),
        tuple(_cylinder(engine, plain, place, read.bores.get(place + 1))
              for place in range(len(plain.cylinders))),
        belt, no_belt, torques(engine, plain), sealant(plain), found, layer,
    )  # fmt: skip


def _cylinder(engine: Engine, plain: PlainEngine, place: int, bore: Bore | None) -> CylinderFits:
    parts = plain.cylinders[place]
    asked = parts.cylinder.bore
    least, most = (bore.least, bore.most) if bore else (asked, asked)
    mean = bore.mean if bore else asked
    return CylinderFits(
        place + 1, bore, ring_fit(plain, parts, least, most), suiting(engine.catalog, parts, mean)
    )
