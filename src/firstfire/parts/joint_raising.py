"""Changes that make a joint hold more, none offered that does not go in beside what is there."""

from __future__ import annotations

from dataclasses import replace

from firstfire.engine.joint_room import no_room
from firstfire.engine.records import Change, Raise
from firstfire.engine.rules.joint import key_width
from firstfire.engine.sections.joint import Joint
from firstfire.parts.joint_parts import Seat
from firstfire.parts.softness import is_metal
from firstfire.parts.written import mm, mm_down

_MOST_PINS = 4
_PLATE = 6e-3


def proven(seat: Seat) -> tuple[Raise, ...]:
    """The proven joint: steel in steel plates with pins lengthwise; of a wheel, a key."""
    return _plated(seat) if seat.most_plate > 0 else _keyed(seat)


def _plated(seat: Seat) -> tuple[Raise, ...]:
    """A steel pin in steel plates on the cheeks, pinned lengthwise by three."""
    plate = min(_PLATE, seat.most_plate)
    room = seat.hub.outside - seat.joint.diameter - 2e-3
    size = mm_down(min(seat.joint.diameter / 3, room, 6e-3), 0.5)
    asked = seat.joint.model_copy(update={"kind": "pinned", "pins_run": "lengthwise"})
    if no_room(asked, plate, seat.hub.outside, 3, _metres(size)) is not None:
        return ()
    thick = mm_down(plate, 0.5)
    change: Change = {
        seat.prefix + "kind": "pinned", seat.prefix + "pins_run": "lengthwise",
        seat.prefix + "plate": "steel_mild", seat.prefix + "plate_thickness": thick,
        seat.prefix + "length": thick, seat.prefix + "cross_pins": "3",
        seat.prefix + "cross_pin_diameter": size,
    }  # fmt: skip
    pin, hub = seat.words
    words = (
        f"Pin the {pin} lengthwise by three {size} pins into {thick} steel plates screwed to "
        f"the {hub}s"
    )
    if not is_metal(seat.pin):
        change = {**change, seat.pin_path: "silver_steel"}
        words = f"Make the {pin} of ground steel bar; {words[0].lower()}{words[1:]}"
    return (Raise(words, change, "steel_plates"),)


def _keyed(seat: Seat) -> tuple[Raise, ...]:
    """A key as wide as the standard has it."""
    width = key_width(seat.joint.diameter)
    asked = seat.joint.model_copy(update={"kind": "keyed"})
    if seat.joint.kind == "keyed":
        return ()
    if no_room(asked, seat.hub.length, seat.hub.outside, 1, width) is not None:
        return ()
    change = {seat.prefix + "kind": "keyed", seat.prefix + "cross_pins": "1",
              seat.prefix + "cross_pin_diameter": mm(width)}  # fmt: skip
    pin, hub = seat.words
    return (Raise(f"Key the {hub} to the {pin} by a key {mm(width)} wide", change, "cross_pin"),)


def with_change(seat: Seat, change: Change) -> Seat:
    """The seat with a change to its own joint made."""
    fields = {path.removeprefix(seat.prefix): _si(value) for path, value in change.items()}
    hub = replace(seat.hub, length=float(fields["length"])) if "length" in fields else seat.hub
    return replace(seat, joint=seat.joint.model_copy(update=fields), hub=hub)


def by_form(seat: Seat) -> tuple[Raise, ...]:
    """What may make a joint that holds by its shape hold more: pins, keys, plate, size."""
    if seat.joint.kind in ("pinned", "keyed"):
        what = "pin" if seat.joint.kind == "pinned" else "key"
        return (*one_more(seat, what), *thicker_pins(seat, what), *thicker_plate(seat))
    if seat.joint.kind in ("polygon", "splined"):
        return larger(seat)
    return ()


def one_more(seat: Seat, what: str) -> tuple[Raise, ...]:
    """One more key or pin, where it goes in beside the others."""
    count = seat.joint.cross_pins + 1
    if count > _MOST_PINS or not seat.fits(count, seat.joint.cross_pin_diameter):
        return ()
    change = {seat.prefix + "cross_pins": str(count)}
    return (Raise(f"Set {count} {what}s into each {seat.words[1]}", change, "cross_pin"),)


def thicker_pins(seat: Seat, what: str) -> tuple[Raise, ...]:
    """Pins or keys up to a third thicker, 0.4 of the joint at most, as far as there is room."""
    joint = seat.joint
    size = min(1.34 * joint.cross_pin_diameter, 0.4 * joint.diameter)
    thick = mm_down(size, 0.5)
    while _metres(thick) > 1.05 * joint.cross_pin_diameter:
        if seat.fits(joint.cross_pins, _metres(thick)):
            change = {seat.prefix + "cross_pin_diameter": thick}
            return (Raise(f"Make the {what}s of the {seat.words[1]} {thick} thick", change,
                          "cross_pin"),)  # fmt: skip
        thick = mm_down(_metres(thick) - 0.5e-3, 0.5)
    return ()


def thicker_plate(seat: Seat) -> tuple[Raise, ...]:
    """A thicker plate, as far as the cheek is thick."""
    now = seat.hub.length
    thick = mm_down(min(1.5 * now, seat.most_plate), 0.5)
    plated = isinstance(seat.joint, Joint) and seat.joint.plate is not None
    if not plated or _metres(thick) < 1.1 * now:
        return ()
    change = {seat.prefix + "plate_thickness": thick, seat.prefix + "length": thick}
    return (Raise(f"Make the plates on the {seat.words[1]}s {thick} thick", change,
                  "steel_plates"),)  # fmt: skip


def larger(seat: Seat) -> tuple[Raise, ...]:
    """Polygon or spline a quarter larger across, as far as its hub leaves a wall."""
    size = mm(1.25 * seat.joint.diameter)
    if _metres(size) > seat.hub.outside - 4e-3:
        return ()
    words = "polygon {} across its flats" if seat.joint.kind == "polygon" else "spline {} across"
    change = {seat.prefix + "diameter": size}
    return (Raise(f"Make the {words.format(size)}", change, "reprint_crank"),)


def _si(written: str) -> float | int:
    return _metres(written) if written.endswith("mm") else int(written)


def _metres(written: str) -> float:
    return float(written.split(maxsplit=1)[0]) * 1e-3
