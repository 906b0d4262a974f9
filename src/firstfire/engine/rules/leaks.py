"""Rules for leaks: what each seal lets by when cold, as an area, and how far that may be off."""

from __future__ import annotations

import contextlib
from typing import NamedTuple

from firstfire.engine.rules.cylinder import is_metal
from firstfire.engine.rules.rule import Asked, Rule
from firstfire.errors import OutsideValidity
from firstfire.formulas import leak, oring_contact, oring_gland, ring_leak

_NOT_MEASURED = "no measurement found; log-uniform over a decade until yours"
_RINGS = (
    "film under rubber: B. N. J. Persson, Phys. Rev. Lett. 99 (2007) 125502, from memory; one "
    "O-ring on a smooth bore works very well: Gas Engine Magazine, O-ring Ramblings, 2004"
)


class Surface(NamedTuple):
    """Root-mean-square height of a bore's roughness and its longest wavelength, m."""

    height: float
    wavelength: float


#: Drawn or honed tube; sanded; sawn or drilled; a print with its layer lines. Common practice.
SURFACES = {
    "smooth": Surface(0.5e-6, 0.1e-3),
    "sanded": Surface(1.5e-6, 0.1e-3),
    "as_cut": Surface(2.5e-6, 0.1e-3),
    "as_printed": Surface(15e-6, 0.2e-3),
}

#: A hair or a nick across a ring that seals: 0.1 × 0.1 mm.
NICK = 0.01e-6


class Span(NamedTuple):
    """How far a leak that nobody measured may be off: factors on its centre, and why."""

    low: float
    high: float
    why: str


_DECADE = 10**0.5

#: 5-95 % of the leak past rings, by their kind.
RING_SPANS = {
    "o_ring": Span(0.1, 10.0, "an O-ring is gas-tight or has a nick, a twist or a dry spot: two "
                              "decades until measured"),
    "metal": Span(0.3, 4.0, "gaps stand in line or not, faces bed in or not; a decade until "
                            "measured"),
    "ptfe": Span(1 / _DECADE, _DECADE, "butt or lapped gap, in line or not; a decade until "
                                       "measured"),
    "none": Span(0.5, 2.0, "a piston stands in the middle or to one side"),
}  # fmt: skip
OTHER_SPAN = Span(1 / _DECADE, _DECADE, "a decade until measured")


def bore_ovality(ask: Asked) -> float:
    """Largest less smallest diameter to expect of the bore, m: common practice, no source."""
    if ask["liner.made"] == "printed":
        return ask.number("printing.repeatability")
    return 0.05e-3 if ask["liner.kind"] == "tube" else 0.01e-3


def _surface(ask: Asked) -> Surface:
    finish = str(ask["liner.bore_finish"])
    coated = ask["liner.coating"] in ("epoxy", "resin", "ceramic_paint")
    return SURFACES["sanded" if coated and finish == "as_printed" else finish]


def _squeeze(ask: Asked) -> tuple[float, float]:
    """Section of the O-ring on its groove, m, and its squeeze."""
    bore = ask.number("cylinder.bore")
    groove = bore - ask.number("piston.skirt_clearance") - 2 * ask.number("rings.groove_depth")
    section = ask.number("rings.section")
    inside = ask.number("rings.inside_diameter")
    # Out of range it is refused elsewhere, with its cure; here it only has to be a number.
    with contextlib.suppress(OutsideValidity):
        section = oring_gland.stretched_section(section, inside, groove)
    return section, max(1 - (bore - groove) / 2 / section, -1.0)


def _oring(ask: Asked) -> float:
    section, squeeze = _squeeze(ask)
    surface = _surface(ask)
    one = ring_leak.oring_leak_area(
        ask.number("cylinder.bore"),
        section,
        squeeze,
        oring_contact.rubber_modulus(min(max(ask.number("rings.hardness"), 40.0), 90.0)),
        height=surface.height,
        wavelength=surface.wavelength,
        off_centre=ask.number("piston.skirt_clearance") / 2,
        ovality=bore_ovality(ask),
    )
    return leak.in_series(*[one] * int(ask["rings.count"])) + NICK


def _split(ask: Asked) -> float:
    """Iron or PTFE: the gap over the land, which a metal piston has 0.5 % of the bore smaller."""
    bore = ask.number("cylinder.bore")
    land = ask.number("piston.skirt_clearance")
    if is_metal(ask, "piston.material"):
        land = max(land, 0.005 * bore)
    area = ring_leak.split_rings_leak_area(
        ask.number("rings.gap"), land / 2, int(ask["rings.count"])
    )
    rough = 3.0 if _surface(ask).height > SURFACES["sanded"].height else 1.0
    return max(area * rough, NICK)


def _ring(ask: Asked) -> float:
    if int(ask["rings.count"]) == 0 or ask["rings.kind"] == "none":
        # A bare skirt is a plug in the bore: the annulus, its length throttling most of it.
        return 0.3 * leak.annular_area(
            ask.number("cylinder.bore"), ask.number("piston.skirt_clearance") / 2
        )
    return _oring(ask) if ask["rings.kind"] == "o_ring" else _split(ask)


def _seat(valve: str) -> Rule:
    return Rule(
        f"leak.{valve}_seat",
        lambda ask: 0.01e-6 if ask[f"valves.{valve}.made"] == "bought" else 0.08e-6,
        "a bought valve, lapped; a shop-made one leaks more",
        _NOT_MEASURED,
    )


RULES = (
    Rule("leak.ring", _ring, "an O-ring by squeeze, play and the bore's surface, a nick added; a "
         "split ring by gap and land; cold", _RINGS, follows=True),
    _seat("inlet"),
    _seat("exhaust"),
    Rule("leak.gasket", lambda ask: 0.02e-6 if ask["gasket.kind"] == "cured_sealant" else 0.01e-6,
         "cut with scissors or squeezed from a tube", _NOT_MEASURED),
    Rule("leak.plug", "0.002 mm^2", "with its washer", _NOT_MEASURED),
    Rule("leak.wall",
         lambda ask: 0.0 if ask["head.made"] != "printed" or ask["head.coating"] != "none"
         or ask["head.chamber_plate"] is not None else 0.02e-6,
         "printed walls seep between lines unless sealed", _NOT_MEASURED),
)  # fmt: skip
