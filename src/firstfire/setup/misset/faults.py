"""What can be wrong with a cam drive, and where events are then read."""

from __future__ import annotations

from dataclasses import dataclass

from firstfire.engine.geometry import firing_angles
from firstfire.engine.resolve import PlainEngine
from firstfire.formulas.firing import CYCLE, TURN
from firstfire.formulas.setting import tooth_angle


@dataclass(frozen=True)
class Fault:
    """One way to have put it together.

    Attributes
    ----------
    teeth
        By which the cam is late; negative: early.
    degrees_late
        Beyond whole teeth, crank rad: a wheel that has slipped on its shaft, a mark in the wrong
        place.
    mirrored
        Whether all comes in the other order: wheel read or crank turned the wrong way, or the
        camshaft in back to front.
    swapped
        Whether the crank has the cam's wheel, and the cam the crank's.
    lash
        Crank angle by which each valve opens late and shuts early, rad: too much lash; negative:
        too little.
    """

    teeth: int = 0
    degrees_late: float = 0.0
    mirrored: bool = False
    swapped: bool = False
    lash: float = 0.0

    @property
    def none(self) -> bool:
        """Whether nothing is wrong."""
        return self == Fault()


@dataclass(frozen=True)
class Drive:
    """What of an engine decides where events are read.

    Attributes
    ----------
    fires
        Firing top of each cylinder, crank rad after cylinder 1's.
    teeth_cam
        Teeth of the cam's wheel.
    """

    fires: tuple[float, ...]
    teeth_cam: int

    def tooth(self, *, swapped: bool) -> float:
        """Crank angle of one tooth, rad; with wheels swapped, of the wheel on the crank."""
        return TURN / self.teeth_cam if swapped else tooth_angle(self.teeth_cam)

    def positions(self, *, swapped: bool) -> int:
        """Teeth after which all is as before."""
        return self.teeth_cam // 2 if swapped else self.teeth_cam


def drive_of(plain: PlainEngine) -> Drive:
    """The drive of an engine."""
    return Drive(firing_angles(plain), plain.cam_drive.teeth_cam)


def period(fault: Fault, asked: float) -> float:
    """After which crank angle a cam's event comes again: with wheels swapped after half a turn."""
    return min(asked, 0.5 * TURN) if fault.swapped else asked


def seen(drive: Drive, fault: Fault, cylinder: int, drawn: float, sense: int = 0) -> float:
    """Where an event of the cam is read, rad after its cylinder's firing top.

    Parameters
    ----------
    drive, fault
        The engine's, and what is wrong.
    cylinder
        Counted from 1.
    drawn
        Where the file has it, rad after the same top.
    sense
        1 for a valve that opens, -1 for one that shuts.
    """
    fires = drive.fires[cylinder - 1]
    crank = drawn + sense * fault.lash + fires
    late = fault.teeth * drive.tooth(swapped=fault.swapped) + fault.degrees_late
    # the cam turns half as fast as the crank; with wheels swapped twice as fast
    shown = (0.25 * crank if fault.swapped else crank) + late - fires
    return (-shown if fault.mirrored else shown) % CYCLE


def wrapped(angle: float, whole: float) -> float:
    """An angle within half a period of nothing, rad."""
    return (angle + 0.5 * whole) % whole - 0.5 * whole


__all__ = ["CYCLE", "TURN", "Drive", "Fault", "drive_of", "period", "seen", "wrapped"]
