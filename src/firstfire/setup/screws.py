"""What holds the head: screws, nuts, washers and inserts, their lengths to what is stocked."""

from __future__ import annotations

from collections.abc import Iterator

from firstfire.catalog import Catalog, Row
from firstfire.engine.description import CylinderParts
from firstfire.setup.item import PRACTICE, Check, Item
from firstfire.setup.words import bare_mm, by, mm

STOCKED = (6, 8, 10, 12, 16, 20, 25, 30, 35, 40, 45, 50, 55, 60, 65, 70, 80, 90, 100, 110, 120,
           130, 140, 150, 160, 180, 200)  # fmt: skip
"""Nominal lengths of screws, mm: ISO 888, the commoner ones (from memory)."""

WASHER = {2: 0.3, 2.5: 0.5, 3: 0.5, 3.5: 0.5, 4: 0.8, 5: 1.0, 6: 1.6, 8: 1.6, 10: 2.0, 12: 2.5}
"""Thickness of a plain washer by thread, mm: ISO 7089 (from memory)."""

_STANDARD = "ISO 4762 (socket) or ISO 4014/4017 (hexagon)"


def stocked_length(least: float) -> float | None:
    """The next stocked screw length, m; None where none is so long.

    Examples
    --------
    >>> stocked_length(0.0915), stocked_length(0.25)
    (0.1, None)
    """
    return next((n / 1e3 for n in STOCKED if n / 1e3 >= least - 1e-6), None)


def least_length(thread: Row, parts: CylinderParts) -> float:
    """Length under the head that a screw of the head needs, m.

    What is clamped, washers, a nut and two threads at each end that has one, or what is engaged.
    """
    hold, size = parts.head.fasteners, thread.si("diameter")
    washer = washer_thickness(size)
    height = thread.si("nut_height") if "nut_height" in thread.data else 0.9 * size
    ends = _NUTS.get(hold.kind, 0) * (height + 2 * thread.si("pitch"))
    if hold.through:
        return hold.clamped_length + 2 * washer + ends
    return hold.clamped_length + washer + ends + hold.engaged_length


_NUTS = {"through_bolts": 1, "nutted_studs": 2, "studs": 1}


def washer_thickness(diameter: float) -> float:
    """Of a plain washer, m; a fifth of the thread where the table has none."""
    return WASHER.get(round(diameter * 1e3, 1), 0.2 * diameter * 1e3) * 1e-3


def screws(rows: Catalog, parts: CylinderParts) -> Iterator[Item]:
    """Head screws of one cylinder with all that belongs to them, and the plug."""
    hold = parts.head.fasteners
    thread = rows.row("thread", hold.thread)
    source = f"{thread['diameter'].source} ({thread['diameter'].sure})"
    least, path = least_length(thread, parts), "head.fasteners"
    yield _screw(thread, parts, least, source)
    nuts = _NUTS.get(hold.kind, 0) * hold.count
    if nuts:
        yield Item(
            "Screws", f"nut {thread.key}, class {_nut_class(hold.property_class)}", "", nuts,
            "head", "ISO 4032", source, path, row=("thread", thread.key),
        )  # fmt: skip
    washers = hold.count * (2 if hold.through else 1)
    usual = thread.si("washer_outside") if "washer_outside" in thread.data else 0.0
    wide = hold.washer_diameter > 1.15 * usual > 0
    yield Item(
        "Screws", f"washer {thread.key}, {'wide' if wide else 'plain'}",
        f"{mm(hold.washer_diameter)} across at least", washers, "head",
        "ISO 7093 (wide)" if wide else "ISO 7089", source, f"{path}.washer_diameter",
    )  # fmt: skip
    if hold.insert is not None:
        yield _insert(rows.row("insert", hold.insert), hold.count)


def _screw(thread: Row, parts: CylinderParts, least: float, source: str) -> Item:
    hold = parts.head.fasteners
    length = stocked_length(least)
    long = f"{bare_mm(length)} mm" if length else f"{mm(least)} at least"
    word = {"nutted_studs": "stud", "studs": "stud", "screws": "screw", "inserts": "screw"}.get(
        hold.kind, "bolt"
    )
    note = f"Needs {mm(least)} under the head: clamped length, washers, nut or engaged thread."
    if length is None or word == "stud":
        note += " Threaded rod cut to length serves; mind its class."
    run = Check(
        "length under the head", "caliper", "one of each bag", length or least, least, None, "mm",
        "shorter doesn't fill the nut; the class is stamped on the head, and a nut runs on by hand",
    )  # fmt: skip
    return Item(
        "Screws", f"{word} {thread.key} × {long}, class {hold.property_class}",
        "", hold.count, "head", _STANDARD, source, "head.fasteners",
        (run,), note, ("thread", thread.key), length or least,
    )  # fmt: skip


def _nut_class(screw_class: str) -> str:
    """Class of the nut that belongs to a screw: ISO 898-2."""
    return "A2-70" if screw_class.startswith("A2") else screw_class.partition(".")[0]


def _insert(row: Row, count: int) -> Item:
    outside, length = row["outside"], row["length"]
    knurl = Check(
        "outside over the knurl", "caliper", "one of each bag", outside.si, outside.si_low,
        outside.si_high, "mm", f"the hole is {mm(row.si('hole'))}; makers differ",
    )  # fmt: skip
    long = Check(
        "length", "caliper", "one of each bag", length.si, length.si - 0.3e-3, None, "mm",
        f"its pull-out is reckoned on this length (limit: {PRACTICE})",
    )  # fmt: skip
    return Item(
        "Screws", f"heat-set insert {row.name}", f"{by(outside.si, length.si)} (outside × length)",
        count, "head", "", f"{outside.source} ({outside.sure})", "head.fasteners.insert",
        (knurl, long), row=("insert", row.key),
    )  # fmt: skip
