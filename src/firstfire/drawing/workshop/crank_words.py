"""What a crank's drawing says in words: its pieces, its ends, its balance, what is open."""

from __future__ import annotations

from collections.abc import Iterator

from firstfire.drawing.workshop.asked import Asked, trial, within
from firstfire.drawing.workshop.crank_cheek import held_in_plate
from firstfire.drawing.workshop.crank_sizes import CrankPlaces, fits_its_bearings, held
from firstfire.drawing.workshop.fitted import bare, diameter
from firstfire.drawing.workshop.seats import open_of, seat_phrase, seat_words
from firstfire.loads.masses import reciprocating_mass, rotating_rod_mass
from firstfire.verdict.numbers import shown


def notes(asked: Asked, places: CrankPlaces) -> Iterator[str]:
    """Numbered notes."""
    crank = asked.plain.crank
    yield from _pieces(asked, places)
    yield from _joints(asked)
    yield f"Shaft's ends: {_ends(asked)}."
    yield from _balance(asked, places)
    yield f"Main bearings: {crank.main_bearings} × {crank.main_bearing}. Pins parallel to the " \
        "shaft and the shaft true within 0.02."  # fmt: skip
    yield from trial(crank.made, "crank")


def _pieces(asked: Asked, places: CrankPlaces) -> Iterator[str]:
    crank = asked.plain.crank
    if crank.built == "one_piece":
        return
    deep = held(crank.joint, 1e3 * crank.cheek_thickness)
    long = bare(crank.crankpin_length + 2e-3 * deep)
    told = [
        _many(len(places.cheeks), "cheek"),
        f"{_many(len(places.pins), 'crankpin')} {long} long in all "
        f"({within(asked, crank.crankpin_material)})",
    ]
    if crank.journal.joint.kind != "solid":
        count = 2 + len(places.between)
        told.append(f"{_many(count, 'main journal')} ({within(asked, crank.journal.material)})")
    if held_in_plate(crank.joint) and crank.joint.plate is not None:
        plates = sum(len(cheek.pins) for cheek in places.cheeks)
        told.append(f"{_many(plates, 'plate')} ({within(asked, crank.joint.plate)})")
    yield f"Built up of {', '.join(told)}."


def _many(count: int, what: str) -> str:
    return f"{count} {what}{'s' * (count != 1)}"


def _joints(asked: Asked) -> Iterator[str]:
    crank = asked.plain.crank
    if crank.built == "one_piece":
        return
    for name, joint in (("Crankpin", crank.joint), ("Main journals", crank.journal.joint)):
        words = seat_words(joint, "cheek")
        if not words:
            continue
        tight = ""
        if joint.kind in ("pinned", "keyed", "plain_press") and joint.interference > 0:
            tight = f" Hole {bare(joint.interference, 3)} under the pin as it measures."
        yield f"{name}: {words[:1].lower()}{words[1:]}{tight}"


def _ends(asked: Asked) -> str:
    """What sits on both ends of the shaft."""
    wheel, drive = asked.plain.flywheel, asked.plain.cam_drive
    told = []
    if wheel.thickness > 0:
        seat = f"{diameter(wheel.joint.diameter)} h6 × {bare(wheel.thickness)} for the flywheel"
        told.append(_held(seat, seat_phrase(wheel.joint)))
    seat = f"{diameter(drive.joint.diameter)} h6 × {bare(drive.joint.length)} for the cam drive"
    told.append(_held(seat, seat_phrase(drive.joint)))
    return "; ".join(told)


def _held(seat: str, by: str) -> str:
    return f"{seat}, {by}" if by else seat


def _balance(asked: Asked, places: CrankPlaces) -> Iterator[str]:
    """The bob weight that stands in for rods and pistons while the crank lies on knives."""
    plain, told = asked.plain, []
    for pin in places.pins:
        swings = [reciprocating_mass(plain, c) for c in pin.cylinders]
        turns = sum(rotating_rod_mass(plain, c) for c in pin.cylinders)
        bob = turns + plain.crank.balance_factor * sum(swings) / len(swings)
        told.append(shown(bob, "g"))
    share = f"{100 * plain.crank.balance_factor:.0f} %"
    each = " and ".join(dict.fromkeys(told))
    yield (
        f"Counterweights: with {each} hung on each pin the crank lies still on level knives, "
        f"turned any way ({share} of what goes up and down)."
    )


def open_things(asked: Asked) -> Iterator[str]:
    """What the file has no number for."""
    crank = asked.plain.crank
    yield "outline of the counterweights (none is drawn) and where they are fixed"
    yield "lengths of both shaft ends, what holds bearings and wheels along them, centre holes"
    if crank.built == "one_piece":
        yield "radii between crankpin and cheeks (as large as the rod's big end clears)"
    if held_in_plate(crank.joint):
        yield "outline of the plates and the screws that hold them to the cheeks"
    yield from dict.fromkeys((*open_of(crank.joint), *open_of(crank.journal.joint)))
    if crank.built == "built_up" and crank.journal.rod_diameter > 0:
        yield "how the rod inside the journals is held"
    if not fits_its_bearings(asked.plain):
        yield "bearing span: pins and cheeks don't go between the bearings as the file has them"
