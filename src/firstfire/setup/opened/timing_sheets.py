"""How each number of a timing table is worked out."""

from __future__ import annotations

import math
from collections.abc import Iterator

from firstfire.engine.cam_lift import bottom_after_top
from firstfire.engine.geometry import mechanism
from firstfire.formulas import slider_crank
from firstfire.setup.number import Number
from firstfire.setup.opened.sheet import Sheet
from firstfire.setup.timing.places import Place
from firstfire.setup.timing.timing import Timing
from firstfire.setup.timing.tooth import EXPONENT, Shifted
from firstfire.setup.timing.words import latency_words

_GEOMETRY = "plane geometry"
_ROD = "plane geometry of crank and rod"
_KEPT = "volumes by the exact slider-crank; polytropic, exponent 1.3 (common practice, no source)"


def timing_sheets(found: Timing) -> dict[str, tuple[Number, Sheet]]:
    """Every number of a timing table by its id, with its working."""
    told = dict([_tooth(found), *_lags(found)])
    for place in found.places:
        told |= _place(found, place)
    for cylinder, rows in enumerate(found.teeth, 1):
        for row in rows:
            told |= _shifted(found, cylinder, row)
    return told


def _sheet(found: Timing, cylinder: int = 1) -> Sheet:
    return Sheet(found.engine.values(cylinder), cylinder)


def _tooth(found: Timing) -> tuple[str, tuple[Number, Sheet]]:
    sheet = _sheet(found)
    teeth = sheet.path("cam_drive.teeth_cam")
    sheet.found("value", "one tooth at the crank", "rad", f"4 * pi / {teeth}")
    told = Number("tooth", "what one tooth of the cam's wheel is worth at the crank", found.tooth,
                  "rad", why="720° of crank for one turn of the cam", source=_GEOMETRY)  # fmt: skip
    return "tooth", (told, sheet)


def _lags(found: Timing) -> Iterator[tuple[str, tuple[Number, Sheet]]]:
    """How much later than its edge the spark comes, cranked and at top speed."""
    plain = found.plain
    if latency_words(plain) is None:
        return
    fast = max(plain.use.full_throttle_speeds)
    for ident, speed, words in (
        ("cranked", plain.use.cranking_speed, "cranked"), ("top", fast, "at top speed"),
    ):  # fmt: skip
        sheet = _sheet(found)
        late = sheet.path("spark.latency")
        by = "use.cranking_speed" if ident == "cranked" else "the fastest of full throttle"
        sheet.put("speed", "crank speed", speed, "rad/s", by)
        sheet.found("value", "crank in that time", "rad", f"{late} * speed")
        told = Number(f"lag.{ident}", f"how much later than its edge the spark comes, {words}",
                      plain.spark.latency * speed, "rad", why="latency times speed",
                      source="definition")  # fmt: skip
        yield f"lag.{ident}", (told, sheet)


def _place(found: Timing, place: Place) -> dict[str, tuple[Number, Sheet]]:
    event = place.event
    base, whose = f"{event.cylinder}.{event.id}", f"cylinder {event.cylinder}, {event.name}"
    told = {}
    if place.rim is not None:
        sheet = _sheet(found)
        wheel = sheet.path("flywheel.diameter")
        sheet.put("turned", "crank after its mark", event.turn, "rad", "the engine's events")
        sheet.found("value", "along the rim", "m", f"{wheel} / 2 * turned")
        told[f"{base}.rim"] = (
            Number("rim", f"{whose}: along the flywheel's rim from top", place.rim, "m",
                   why="half the diameter times the angle", source=_GEOMETRY), sheet)  # fmt: skip
    sheet = _sheet(found)
    teeth, pitch = sheet.path("cam_drive.teeth_cam"), sheet.path("cam_drive.pitch")
    sheet.put("turned", "cam after its mark", place.cam, "rad", "half the crank's")
    sheet.found("wheel", "pitch diameter", "m", f"{teeth} * {pitch} / pi")
    sheet.found("value", "along the pitch line", "m", "wheel / 2 * turned")
    told[f"{base}.pulley"] = (
        Number("pulley", f"{whose}: along the cam wheel's pitch line", place.pulley, "m",
               why="half the pitch diameter times the angle", source=_GEOMETRY), sheet)  # fmt: skip
    told[f"{base}.depth"] = _depth(found, place, whose)
    return told


def _depth(found: Timing, place: Place, whose: str) -> tuple[Number, Sheet]:
    cylinder = place.event.cylinder
    sheet = _sheet(found, cylinder)
    deck = sheet.path("cylinder.deck")
    travel = _travel(found, sheet, cylinder, place.event.own)
    sheet.found("value", "crown below the face", "m", f"{deck} + {travel}")
    told = Number("depth", f"{whose}: crown below the cylinder's top face", place.depth, "m",
                  why="the deck and how far the piston has come down", source=_ROD)  # fmt: skip
    return told, sheet


def _travel(found: Timing, sheet: Sheet, cylinder: int, after_top: float) -> str:
    """How far the piston is below its top at an angle after its top."""
    throw, rod, offset = mechanism(found.plain.cylinders[cylinder - 1])
    by = "crank, rod and pin of the file"
    sheet.put("throw", "throw of the crank", throw, "m", by)
    sheet.put("rod", "length of the rod", rod, "m", by)
    sheet.put("offset", "offset of the bore", offset, "m", by)
    angle = after_top + slider_crank.top_centre_angle(throw, rod, offset)
    sheet.put("angle", "crank from the bore's line in radians", angle % (4 * math.pi), "",
              "the engine's events")  # fmt: skip
    sheet.found("highest", "height at top", "m", "sqrt((rod + throw)**2 - offset**2)")
    sheet.found("height", "height there", "m",
                "throw * cos(angle) + sqrt(rod**2 - (throw * sin(angle) - offset)**2)")  # fmt: skip
    return sheet.found("travel", "below top", "m", "highest - height")


def _shifted(found: Timing, cylinder: int, row: Shifted) -> dict[str, tuple[Number, Sheet]]:
    if row.inlet_closes is None or row.filling is None:
        return {}
    base = f"{cylinder}.teeth.{row.teeth:+d}"
    whose = f"cylinder {cylinder}, cam {row.teeth:+d} teeth late"
    kept = _kept(found, cylinder, row.inlet_closes)
    kept.found("value", "charge kept", "", "ratio / cylinder.compression_ratio")
    told = {f"{base}.kept": (
        Number("kept", f"{whose}: charge kept at cranking speed", row.filling, "",
               why="volume when the inlet shuts over volume at bottom", source=_KEPT), kept)
    }  # fmt: skip
    if row.gauge is not None:
        read = _kept(found, cylinder, row.inlet_closes)
        air = read.path("surroundings.air_pressure")
        read.put("exponent", "polytropic exponent", EXPONENT, "", "common practice", "assumed")
        read.found("value", "a gauge reads", "Pa", f"{air} * (ratio**exponent - 1)")
        told[f"{base}.gauge"] = (
            Number("gauge", f"{whose}: reading of a cylinder that leaks nothing", row.gauge, "Pa",
                   why="the charge that is kept, squeezed", source=_KEPT), read)  # fmt: skip
    return told


def _kept(found: Timing, cylinder: int, closes: float) -> Sheet:
    """As far as the volume when the inlet shuts over that at top."""
    sheet = _sheet(found, cylinder)
    parts = found.plain.cylinders[cylinder - 1]
    bottom = bottom_after_top(parts)
    late = closes - 2.0 * math.pi - bottom
    travel = _travel(found, sheet, cylinder, bottom + late)
    stroke = sheet.put("stroke_length", "stroke", slider_crank.stroke(*mechanism(parts)), "m",
                       "crank, rod and pin of the file")  # fmt: skip
    squeeze = sheet.path("cylinder.compression_ratio")
    sheet.found("ratio", "volume over that at top", "",
                f"1 + ({squeeze} - 1) * {travel} / {stroke}")  # fmt: skip
    return sheet
