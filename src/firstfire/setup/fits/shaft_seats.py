"""Seats of the shaft: bearings, crankpin, journals, wheels and their keys."""

from __future__ import annotations

from collections.abc import Callable, Iterator

from firstfire.engine.moment import Moment
from firstfire.engine.resolve import PlainEngine
from firstfire.errors import OutsideValidity
from firstfire.formulas.fits import GROUND_BAR
from firstfire.parts import seats
from firstfire.parts.joint_parts import Seat
from firstfire.parts.softness import is_metal
from firstfire.setup.fits.drawing_for import drawn
from firstfire.setup.fits.pressing import pressing
from firstfire.setup.fits.seat import Drawn, Pressing, SeatFit
from firstfire.setup.item import PRACTICE
from firstfire.setup.joints import Place, joints
from firstfire.setup.standing import standing

GLUE_GAP = 0.1e-3
"""What a bond wants between pin and hole on diameter, m: glue makers' 0.05 to 0.15 mm (from
memory)."""
_SLIDES = 0.02e-3
_LOOSE_SHAPE = 0.1e-3
# m: a split hub goes on by hand; printed flanks are filed until they go (common practice)

_SEATS: dict[str, Callable[[Moment], Seat]] = {
    "crank.joint": seats.crankpin,
    "crank.journal.joint": seats.journal,
    "flywheel.joint": seats.flywheel,
    "cam_drive.joint": seats.cam_wheel,
}
_IDS = {
    "crank.joint": "crankpin", "crank.journal.joint": "journal", "flywheel.joint": "flywheel",
    "cam_drive.joint": "cam-wheel",
}  # fmt: skip


def shaft_seats(plain: PlainEngine) -> Iterator[SeatFit]:
    """Every seat along the shaft."""
    yield from _bearings(plain)
    for place in joints(plain):
        seat = _SEATS[place.path](standing(plain))
        yield _joint(plain, place, seat)
        if place.joint.kind == "keyed" and place.joint.cross_pins:
            yield _key(place)


def _bearings(plain: PlainEngine) -> Iterator[SeatFit]:
    crank, printed = plain.crank, plain.case.made == "printed"
    outside = crank.main_bearing_outside
    yield SeatFit(
        "bearing-in-case", "crank.main_bearing_outside", "main bearing", "case",
        crank.main_bearings, outside, 0.0, "" if printed else "H7", "h6",
        drawn(plain, hole=outside) if printed else drawn(plain), None,
        f"goes in by thumb and doesn't turn, the bearing as gauge ({PRACTICE}); a bearing's "
        "outside is near h6 (ISO 492)",
    )  # fmt: skip
    journal = plain.materials[crank.journal.material]
    turned = is_metal(journal) or crank.made != "printed"
    ground = turned and crank.journal.joint.kind != "solid"
    yield SeatFit(
        "journal-in-bearing", "crank.main_journal_diameter", "main journal", "bearing",
        crank.main_bearings, crank.main_journal_diameter, 0.0, "H6" if turned else "",
        (GROUND_BAR if ground else "js6") if turned else "",
        drawn(plain) if turned else drawn(plain, shaft=crank.main_journal_diameter), None,
        f"slides on by hand without play ({PRACTICE}); a bearing's bore is near H6, but below its "
        "size (ISO 492)",
    )  # fmt: skip


def tight_of(place: Place) -> float | None:
    """How much larger a pin is than its hole, m, by how it is held; None for flanks and flats."""
    kind = place.joint.kind
    if kind == "bonded" or (place.joint.is_bonded and kind != "plain_press"):
        return -GLUE_GAP
    if kind == "clamped":
        return -_SLIDES
    return None if kind in ("polygon", "splined") else place.joint.interference


def _joint(plain: PlainEngine, place: Place, seat: Seat) -> SeatFit:
    tight, across = tight_of(place), place.joint.diameter
    shape = tight is None
    play = _LOOSE_SHAPE if tight is None else -tight
    printed = not seat.hub.metal and seat.hub.printed
    pin_printed = plain.crank.made == "printed" and not is_metal(seat.pin)
    hole = across if shape else across + play
    pressed, why_not = _pressing(plain, seat, tight)
    return SeatFit(
        _IDS[place.path], f"{place.path}.interference", place.pin, place.hub, place.count, across,
        tight, "" if printed or shape else "JS6", "" if pin_printed or shape else GROUND_BAR,
        drawn(plain, hole=hole if printed else None,
              shaft=across - (play if shape else 0.0) if pin_printed else None),
        pressed, _how(place, play), why_not,
    )  # fmt: skip


def _pressing(plain: PlainEngine, seat: Seat, tight: float | None) -> tuple[Pressing | None, str]:
    if tight is None or tight <= 0:
        return None, ""
    try:
        return pressing(plain, seat), ""
    except OutsideValidity as why:
        return None, str(why)


def _how(place: Place, play: float) -> str:
    joint = place.joint
    if joint.kind in ("polygon", "splined"):
        return f"file the flanks until it goes in by a tap ({PRACTICE})"
    if joint.is_bonded and joint.kind != "plain_press":
        return f"a gap for the glue: {1e3 * play:.2f} mm on diameter, both sides roughened"
    if joint.kind == "clamped":
        return "slides on before its screws are drawn up"
    held = "; its pins or keys carry the torque, the fit only centres it" * place.pinned
    return f"measure the pin by micrometer, ream the hole to it, press cold and straight{held}"


def _key(place: Place) -> SeatFit:
    joint = place.joint
    return SeatFit(
        f"{_IDS[place.path]}-key", f"{place.path}.cross_pin_diameter", "key",
        f"{place.pin} and {place.hub}", joint.cross_pins * place.count, joint.cross_pin_diameter,
        None, "JS9", "h9", Drawn(), None,
        "parallel key stock is h9 (DIN 6885, ISO 773); file the key, not the way",
    )  # fmt: skip
