"""What each seal lets by where nobody said, against a pencil; the laws' numbers put in by hand."""

import pytest
from tests.engine.by_hand import FIGURES, MM, value

from firstfire.formulas import leak, oring_contact, ring_leak

NICK = 0.01e-6
RING = {
    "rings.section": "2.62 mm", "rings.inside_diameter": "34.59 mm", "rings.groove_depth": "2.2 mm",
    "piston.skirt_clearance": "0.24 mm",
}  # fmt: skip
IRON = {"rings.kind": "metal", "rings.gap": "0.16 mm", "piston.skirt_clearance": "0.24 mm"}
METAL_PISTON = {"piston.material": "aluminium"}


def by_law(height, wavelength, ovality, **other):
    """One O-ring by the law, in micrometres and so on, on a groove of 40 - 0.24 - 4.4 = 35.36."""
    put = {"section": 2.59331 * MM, "squeeze": 0.105389, "hardness": 75.0, "aside": 0.12} | other
    return ring_leak.oring_leak_area(
        40 * MM, put["section"], put["squeeze"], oring_contact.rubber_modulus(put["hardness"]),
        height=height * 1e-6, wavelength=wavelength * MM, off_centre=put["aside"] * MM,
        ovality=ovality * MM,
    )  # fmt: skip


@pytest.mark.parametrize(
    ("lines", "law"),
    [
        ({}, by_law(0.5, 0.1, 0.05)),
        ({"liner.kind": "metal"}, by_law(0.5, 0.1, 0.01)),
        ({"liner.bore_finish": "sanded"}, by_law(1.5, 0.1, 0.05)),
        ({"liner.bore_finish": "as_cut"}, by_law(2.5, 0.1, 0.05)),
        # A print is as oval as its sizes scatter; coated it is as sanded.
        ({"liner.kind": "bare_print"}, by_law(15, 0.2, 0.08)),
        ({"liner.kind": "bare_print", "liner.coating": "epoxy"}, by_law(1.5, 0.1, 0.08)),
        ({"rings.hardness": 60}, by_law(0.5, 0.1, 0.05, hardness=60.0)),
        ({"rings.hardness": 95}, by_law(0.5, 0.1, 0.05, hardness=90.0)),
        # 0.12 mm more of play: groove 35.24, gland 2.38, section 2.62 √(37.21/37.86) = 2.59741.
        ({"piston.skirt_clearance": "0.36 mm"},
         by_law(0.5, 0.1, 0.05, section=2.59741 * MM, squeeze=1 - 2.38 / 2.59741, aside=0.18)),
    ],
)  # fmt: skip
def test_an_oring(lines, law):
    assert value(RING | lines, "leak.ring") == pytest.approx(law + NICK, rel=1e-3)


def test_two_orings_share_the_pressure():
    """Two alike, one after the other, leak 1/√2 of one."""
    hand = by_law(15, 0.2, 0.08) / 2**0.5 + NICK
    lines = RING | {"liner.kind": "bare_print", "rings.count": 2}
    assert value(lines, "leak.ring") == pytest.approx(hand, rel=1e-3)


@pytest.mark.parametrize(
    ("lines", "hand"),
    [
        # A gap of 0.16 mm over half of 0.24, or of 0.5 % of 40 where the piston is of metal.
        ({}, ring_leak.split_rings_leak_area(0.16 * MM, 0.12 * MM, 1)),
        ({"rings.count": 2}, ring_leak.split_rings_leak_area(0.16 * MM, 0.12 * MM, 2)),
        (METAL_PISTON | {"piston.skirt_clearance": "0.048 mm"},
         ring_leak.split_rings_leak_area(0.16 * MM, 0.1 * MM, 1)),
        (METAL_PISTON, ring_leak.split_rings_leak_area(0.16 * MM, 0.12 * MM, 1)),
        # Three times as much in a rough bore; no less than a nick.
        ({"liner.bore_finish": "as_cut"},
         3 * ring_leak.split_rings_leak_area(0.16 * MM, 0.12 * MM, 1)),
        ({"liner.bore_finish": "sanded"}, ring_leak.split_rings_leak_area(0.16 * MM, 0.12 * MM, 1)),
        ({"rings.gap": "0.01 mm"}, NICK),
        # No rings: 0.3 of π × 40 × 0.12 mm².
        ({"rings.count": 0}, 0.3 * leak.annular_area(40 * MM, 0.12 * MM)),
        ({"rings.kind": "none"}, 0.3 * leak.annular_area(40 * MM, 0.12 * MM)),
    ],
)  # fmt: skip
def test_split_rings_and_none(lines, hand):
    assert value(IRON | lines, "leak.ring") == pytest.approx(hand, rel=FIGURES)


@pytest.mark.parametrize(
    ("lines", "path", "square_mm"),
    [
        ({}, "leak.inlet_seat", 0.01),
        ({"valves.exhaust.made": "shop_made"}, "leak.exhaust_seat", 0.08),
        ({}, "leak.gasket", 0.01),
        ({"gasket.kind": "cured_sealant"}, "leak.gasket", 0.02),
        ({}, "leak.plug", 0.002),
        ({}, "leak.wall", 0.02),
        ({"head.made": "bought"}, "leak.wall", 0.0),
        ({"head.coating": "epoxy"}, "leak.wall", 0.0),
        ({"head.chamber_plate": "aluminium"}, "leak.wall", 0.0),
    ],
)
def test_seats_and_walls(lines, path, square_mm):
    assert value(lines, path) == pytest.approx(square_mm * 1e-6)
