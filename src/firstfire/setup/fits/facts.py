"""What is found of an engine's fits, for whatever tells it."""

from __future__ import annotations

from dataclasses import dataclass

from firstfire.engine.engine import Engine
from firstfire.engine.resolve import PlainEngine
from firstfire.setup.fits.belt import BeltSet
from firstfire.setup.fits.bore import Bore
from firstfire.setup.fits.clearances import Clearance
from firstfire.setup.fits.measured import Habit
from firstfire.setup.fits.rings import RingFit, Suits
from firstfire.setup.fits.sealant import Sealant
from firstfire.setup.fits.seat import SeatFit
from firstfire.setup.fits.torques import Torque


@dataclass(frozen=True)
class CylinderFits:
    """Of one cylinder.

    Attributes
    ----------
    number
        From 1.
    bore
        As measured; None where it was not.
    ring
        Its rings in that bore, else in the file's; None where it has none.
    suits
        O-rings that are sold for that bore.
    """

    number: int
    bore: Bore | None
    ring: RingFit | None
    suits: tuple[Suits, ...]


@dataclass(frozen=True)
class FitsFacts:
    """Fits, clearances and torques.

    Attributes
    ----------
    engine, plain
        As written down with what was measured on top, and its plain numbers.
    seats
        Everything that sits in something.
    clearances
        Set by hand.
    cylinders
        Bore and rings.
    belt, no_belt
        How tight the cam belt is set, or why that can't be said.
    torques
        The torque sheet.
    sealant
        Under the first head; None where nothing cures there.
    habits
        What readings say of the printer; none where it wasn't measured.
    layer
        Text of the printer layer; "" where it wasn't measured.
    """

    engine: Engine
    plain: PlainEngine
    seats: tuple[SeatFit, ...]
    clearances: tuple[Clearance, ...]
    cylinders: tuple[CylinderFits, ...]
    belt: BeltSet | None
    no_belt: str
    torques: tuple[Torque, ...]
    sealant: Sealant | None
    habits: tuple[Habit, ...]
    layer: str
