"""One table: which part of the drawing each way to fail speaks of, and what parts are called."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True)
class Named:
    """A part as drawn.

    Attributes
    ----------
    title
        In the trade's words, as in the ledger.
    begins
        How ids of the ways to fail begin that speak of it; of several parts the longest counts.
    shared
        Whether there is one an engine, and not one a cylinder.
    whole
        What ways call it that speak of all that it belongs to; "" where none does.
    """

    title: str
    begins: tuple[str, ...] = ()
    shared: bool = False
    whole: str = ""


PARTS: dict[str, Named] = {
    "head": Named("head", ("head",)),
    "chamber-face": Named("chamber face of the head", ("head.face",)),
    "chamber-plate": Named("chamber plate", ("head.chamber_plate",)),
    "exhaust-port": Named("exhaust port", ("exhaust_port",)),
    "inlet-port": Named("inlet port", ("inlet_port",)),
    "plug": Named("spark plug", ("plug",)),
    "fasteners": Named("head fasteners", ("head.fasteners", "head.preload", "head.bolt")),
    "washers": Named("washers under the head's fasteners", ("head.washer",)),
    "gasket": Named("head gasket", ("gasket",)),
    "charge": Named("charge in the cylinder"),
    "liner": Named("liner", ("liner",)),
    "bore": Named("bore of the liner", ("liner.bore",)),
    "body": Named("body round the liner", ("body",)),
    "piston": Named("piston", ("piston", "ring.none")),
    "piston-crown": Named("piston crown", ("piston.crown",)),
    "shield": Named("crown shield", ("piston.shield",)),
    "ring-land": Named("ring land", ("piston.land",)),
    "bosses": Named("pin bosses", ("piston.boss",)),
    "piston-pin": Named("piston pin", ("pin",)),
    "rings": Named("piston ring", ("ring",)),
    "rod": Named("con rod", ("rod",)),
    "big-end": Named("big end of the rod", ("rod.big_end",)),
    "small-end": Named("small end of the rod", ("rod.small_end",)),
    "rod-ends": Named("rod ends", ("rod.ends",)),
    "rod-cap": Named("big end cap", ("rod.cap",)),
    "inlet-valve": Named("inlet valve", ("valves.inlet",)),
    "exhaust-valve": Named("exhaust valve", ("valves.exhaust",)),
    "seats": Named("valve seats and guides"),
    "springs": Named("valve springs"),
    "cam": Named("cam", ("cam",), shared=True),
    "cam-bracket": Named("bracket of the cam shaft", shared=True),
    "crankpin": Named("crankpin", ("crank.pin",), shared=True),
    "through-rod": Named("rod through the crankpin", shared=True),
    "cheek": Named("crank cheek", ("crank.cheek",), shared=True),
    "joint": Named("crank joint", ("crank.joint",), shared=True),
    "joint-plate": Named("plate on the crank cheek", ("crank.plate",), shared=True),
    "shaft": Named("main journal", ("crank",), shared=True, whole="crank"),
    "main-bearing": Named("main bearing", ("crank.bearing",), shared=True),
    "bearing-seat": Named("bearing seat in the case", ("case.bearing_seat",), shared=True),
    "case": Named("crankcase", ("case",), shared=True),
    "cam-drive": Named("cam drive", ("cam_drive",), shared=True),
    "cam-pulleys": Named("cam pulleys", ("cam_drive.wheel",), shared=True),
    "flywheel": Named("flywheel", ("flywheel",), shared=True),
    "load": Named("propeller or fan", ("load",), shared=True),
    "intake": Named("intake", ("intake",), shared=True),
    "exhaust": Named("exhaust", ("exhaust",), shared=True),
}
"""Every kind of part that is drawn, by the slug its id begins with."""

_BY_BEGIN = {begin: slug for slug, named in PARTS.items() for begin in named.begins}


def slug_of(way_id: str) -> str:
    """The part of the drawing that a way to fail speaks of.

    Examples
    --------
    >>> slug_of("head.lift#2"), slug_of("crank.joint.slip")
    ('head-2', 'joint')

    Raises
    ------
    KeyError
        For a way that nothing in the drawing stands for.
    """
    way, _, number = way_id.partition("#")
    words = way.split(".")
    begins = (".".join(words[:count]) for count in range(len(words), 0, -1))
    slug = next((_BY_BEGIN[begin] for begin in begins if begin in _BY_BEGIN), None)
    if slug is None:
        raise KeyError(f"no part of the drawing stands for {way_id}")
    return slug if PARTS[slug].shared else f"{slug}-{number or 1}"


def part_slug(kind: str, cylinder: int | None = None) -> str:
    """Id of a part: with its cylinder, counted from 1, unless the engine has one for all."""
    return kind if PARTS[kind].shared or cylinder is None else f"{kind}-{cylinder}"
