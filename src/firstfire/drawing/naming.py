"""One table: which part of the drawing each way to fail speaks of, and what parts are called."""

from __future__ import annotations

import re
from dataclasses import dataclass


@dataclass(frozen=True)
class Named:
    """A part as drawn.

    Attributes
    ----------
    title
        In the trade's words, as in the ledger.
    ways
        Ids of the ways to fail that speak of it, without the cylinder's number.
    shared
        Whether there is one an engine, and not one a cylinder.
    """

    title: str
    ways: tuple[str, ...] = ()
    shared: bool = False


PARTS: dict[str, Named] = {
    "head": Named("head", ("head.break", "head.lift", "head.char", "head.eat", "head.seat.loosen",
                           "head.seat.fall", "head.tighten.crack", "head.crack")),
    "chamber-face": Named("chamber face of the head", ("head.face.soften",)),
    "chamber-plate": Named("chamber plate", ("head.chamber_plate.melt",)),
    "exhaust-port": Named(
        "exhaust port", ("exhaust_port.soften", "exhaust_port.char", "exhaust_port.eat")
    ),
    "inlet-port": Named("inlet port"),
    "plug": Named("spark plug", ("plug.blow",)),
    "fasteners": Named(
        "head fasteners", ("head.fasteners.strip", "head.preload.fade", "head.bolt.tire")
    ),
    "washers": Named("washers under the head's fasteners", ("head.washer.sink",)),
    "gasket": Named("head gasket", ("gasket.open", "gasket.sealant.blow")),
    "charge": Named("charge in the cylinder"),
    "liner": Named("liner", ("liner.burst", "liner.crush", "liner.ovalise")),
    "bore": Named("bore of the liner", ("liner.bore.soften",)),
    "body": Named("body round the liner", ("body.split", "body.part", "body.foot.crack",
                                            "body.foot.hold", "body.boss.split")),
    "piston": Named("piston", ("piston.swell", "ring.none.leak")),
    "piston-crown": Named(
        "piston crown", ("piston.crown.break", "piston.crown.char", "piston.crown.eat")
    ),
    "shield": Named("crown shield", ("piston.shield.melt", "piston.shield.loosen")),
    "ring-land": Named("ring land", ("piston.land.break", "piston.land.sink")),
    "bosses": Named("pin bosses", ("piston.boss.crush",)),
    "piston-pin": Named("piston pin", ("pin.bend", "pin.walk")),
    "rings": Named(
        "piston ring",
        ("ring.leak", "ring.roll", "ring.fill", "ring.overheat", "ring.gap.close", "ring.swell"),
    ),
    "rod": Named("con rod", ("rod.tear", "rod.buckle")),
    "big-end": Named(
        "big end of the rod",
        ("rod.big_end.crush", "rod.big_end.melt", "rod.big_end.bush.loosen"),
    ),
    "small-end": Named("small end of the rod",
        ("rod.small_end.crush", "rod.small_end.melt", "rod.small_end.bush.loosen"),
    ),
    "rod-ends": Named("rod ends", ("rod.ends.wear",)),
    "rod-cap": Named("big end cap", ("rod.cap.open",)),
    "inlet-valve": Named("inlet valve", ("valves.inlet.float", "valves.inlet.late",
                     "valves.inlet.retainer", "valves.inlet.tappet",
                     "valves.inlet.spring.break", "valves.inlet.rocker.break")),
    "exhaust-valve": Named("exhaust valve", ("valves.exhaust.float", "valves.exhaust.overheat",
                     "valves.exhaust.lash.close",
                     "valves.exhaust.retainer", "valves.exhaust.tappet",
                     "valves.exhaust.spring.break", "valves.exhaust.rocker.break")),
    "seats": Named("valve seats and guides"),
    "springs": Named("valve springs"),
    "cam": Named("cam", ("cam.face.wear", "cam.shaft.twist"), shared=True),
    "cam-bracket": Named("bracket of the cam shaft", shared=True),
    "crankpin": Named("crankpin", ("crank.pin.bend", "crank.pin.split", "crank.pin.twist"),
                      shared=True),
    "through-rod": Named("rod through the crankpin", shared=True),
    "cheek": Named("crank cheek", ("crank.cheek.break",), shared=True),
    "joint": Named("crank joint", ("crank.joint.slip", "crank.joint.fret"), shared=True),
    "joint-plate": Named("plate on the crank cheek", ("crank.plate.slip",), shared=True),
    "shaft": Named(
        "main journal",
        ("crank.journal.break", "crank.journal.split", "crank.journal.slip", "crank.journal.rock",
         "crank.starter_end.twist"),
        shared=True,
    ),
    "main-bearing": Named(
        "main bearing", ("crank.bearing.dent", "crank.bearing.life"), shared=True
    ),
    "bearing-seat": Named(
        "bearing seat in the case", ("case.bearing_seat.crush",), shared=True
    ),
    "case": Named("crankcase", ("case.burst", "case.tear", "case.flange.break", "case.joint.open",
                                "case.mount.break"), shared=True),
    "cam-drive": Named(
        "cam drive", ("cam_drive.gear.break", "cam_drive.belt.jump", "cam_drive.belt.tear"),
        shared=True,
    ),
    "cam-pulleys": Named("cam pulleys", ("cam_drive.wheel.slip",), shared=True),
    "flywheel": Named("flywheel", ("flywheel.burst", "flywheel.hub.slip"), shared=True),
    "load": Named("propeller or fan", ("load.blade.throw", "load.hub.slip"), shared=True),
    "intake": Named("intake", ("intake.burst", "intake.soften", "intake.fold"), shared=True),
    "exhaust": Named("exhaust", ("exhaust.burst",), shared=True),
}  # fmt: skip
"""Every kind of part that is drawn, by the slug its id begins with."""

_BY_WAY = {way: slug for slug, named in PARTS.items() for way in named.ways}


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
    slug = _BY_WAY[way]
    return slug if PARTS[slug].shared else f"{slug}-{number or 1}"


def part_slug(kind: str, cylinder: int | None = None) -> str:
    """Id of a part: with its cylinder, counted from 1, unless the engine has one for all."""
    return kind if PARTS[kind].shared or cylinder is None else f"{kind}-{cylinder}"


def plain_slug(text: str) -> str:
    """Letters, digits and hyphens only, for names in files.

    Examples
    --------
    >>> plain_slug("Wren <2>")
    'wren-2'
    """
    return re.sub(r"[^a-z0-9]+", "-", text.lower()).strip("-")
