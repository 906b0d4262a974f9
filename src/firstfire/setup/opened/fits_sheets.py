"""How each number of the fits is worked out: seats by their laws, rings, belt and torque."""

from __future__ import annotations

import math
from collections.abc import Iterator

from firstfire.engine.engine import Engine
from firstfire.engine.resolve import PlainEngine, resolve
from firstfire.formulas.belt import pulley_pitch_diameter
from firstfire.setup.fits.belt import BeltSet, belt_row, belt_set
from firstfire.setup.fits.rings import RingFit, ring_fit
from firstfire.setup.number import Number
from firstfire.setup.opened.by_law import ByLaw
from firstfire.setup.opened.fits_laws import law_sheets
from firstfire.setup.opened.sheet import Sheet
from firstfire.setup.orings import groove_diameter
from firstfire.setup.tubes import LEAST_SQUEEZE, MOST_SQUEEZE

Told = tuple[Number, Sheet | ByLaw]
_RINGS = "O-ring handbooks: squeeze 8 to 30 %, stretch to 5 %, fill 60 to 85 %"
_STRING = "a string's: tension, length, mass (M. Mersenne); belt makers' sonic meters go by it"


def fits_sheets(engine: Engine) -> dict[str, Told]:
    """Every number of the fits by its id, with its working."""
    plain = resolve(engine)
    told: dict[str, Told] = dict(law_sheets(engine))
    for cylinder, parts in enumerate(plain.cylinders, 1):
        bore = parts.cylinder.bore
        ring = ring_fit(plain, parts, bore, bore)
        if ring is not None and ring.squeeze is not None:
            for number, sheet in _oring(engine, plain, cylinder, ring):
                told[f"{number.id}-{cylinder}" if cylinder > 1 else number.id] = number, sheet
    belt, _ = belt_set(plain, engine.catalog)
    if belt is not None:
        told |= {number.id: (number, sheet) for number, sheet in _belt(engine, plain, belt)}
    return told


def _groove(engine: Engine, plain: PlainEngine, cylinder: int) -> Sheet:
    """As far as the section of a ring that is stretched on its groove."""
    sheet, parts = Sheet(engine.values(cylinder), cylinder), plain.cylinders[cylinder - 1]
    section, inside = sheet.path("rings.section"), sheet.path("rings.inside_diameter")
    sheet.put("floor", "diameter of the groove's floor", groove_diameter(parts), "m",
              "bore, skirt's clearance and rings.groove_depth")  # fmt: skip
    sheet.found("thin", "section once stretched", "m",
                f"{section} * sqrt(({inside} + {section}) / (floor + {section}))")  # fmt: skip
    return sheet


def _oring(
    engine: Engine, plain: PlainEngine, cylinder: int, ring: RingFit
) -> Iterator[tuple[Number, Sheet]]:
    if ring.squeeze is None or ring.stretch is None or ring.fill is None:
        return
    deep = "(cylinder.bore - floor) / 2"
    squeezed = _groove(engine, plain, cylinder)
    squeezed.path("cylinder.bore")
    squeezed.found("value", "of its section that is squeezed", "", f"1 - {deep} / thin")
    most = ring.squeeze[0] > MOST_SQUEEZE
    yield Number("squeeze", "squeeze of the O-ring", ring.squeeze[0], "",
                 MOST_SQUEEZE if most else LEAST_SQUEEZE, "at most" if most else "at least",
                 "one less the gland's depth over the stretched section",
                 _RINGS), squeezed  # fmt: skip
    stretched = Sheet(engine.values(cylinder), cylinder)
    stretched.put("floor", "diameter of the groove's floor",
                  groove_diameter(plain.cylinders[cylinder - 1]), "m",
                  "bore, skirt's clearance and rings.groove_depth")  # fmt: skip
    inside = stretched.path("rings.inside_diameter")
    stretched.found("value", "stretch on the groove", "", f"floor / {inside} - 1")
    yield Number("stretch", "stretch of the O-ring on its groove", ring.stretch, "",
                 why="floor of the groove over the free ring",
                 source=_RINGS), stretched  # fmt: skip
    filled = _groove(engine, plain, cylinder)
    wide = filled.path("rings.groove_width")
    filled.path("cylinder.bore")
    filled.found("value", "of the gland that it fills", "", f"pi / 4 * thin**2 / ({deep} * {wide})")
    yield Number("fill", "share of its gland that the O-ring fills", ring.fill, "",
                 why="its section over depth times width", source=_RINGS), filled  # fmt: skip


def _belt(engine: Engine, plain: PlainEngine, belt: BeltSet) -> Iterator[tuple[Number, Sheet]]:
    sheet = _span(engine, plain)
    tension = sheet.path("cam_drive.tension")
    row = belt_row(plain, engine.catalog)
    weighs = plain.cam_drive.width * (row["mass_per_area"].si if row is not None else math.nan)
    sheet.put("mass", "mass of each metre", weighs, "kg/m", "the belt's row and width", "catalog")
    sheet.found("value", "pitch when plucked", "Hz", f"sqrt({tension} / mass) / (2 * span)")
    yield Number("belt_pitch", "pitch of the cam belt's plucked span", belt.pitch, "Hz",
                 why="root of tension over mass, over twice the free length",
                 source=_STRING), sheet  # fmt: skip
    pressed = _span(engine, plain)
    tension = pressed.path("cam_drive.tension")
    pressed.put("press", "force across its middle", belt.press, "N", "a finger's", "assumed")
    pressed.found("value", "gives by", "m", f"press * span / (4 * {tension})")
    yield Number("belt_gives", "how far the belt's span gives under that force", belt.gives, "m",
                 why="force times length over four tensions", source=_STRING), pressed  # fmt: skip


def _span(engine: Engine, plain: PlainEngine) -> Sheet:
    sheet, drive = Sheet(engine.values(1)), plain.cam_drive
    small, large = sorted(
        pulley_pitch_diameter(teeth, drive.pitch) for teeth in (drive.teeth_crank, drive.teeth_cam)
    )
    sheet.put("lean", "half of what the wheels differ by", (large - small) / 2, "m",
              "teeth and pitch of cam_drive")  # fmt: skip
    apart = sheet.path("cam_drive.centre_distance")
    sheet.found("span", "free length", "m", f"sqrt({apart}**2 - lean**2)")
    return sheet
