"""Rules of thumb for cylinder, liner, gasket, head and its screws, against a pencil."""

import pytest
from tests.engine.by_hand import FIGURES, MM, value

ALUMINIUM_HEAD = {"head.material": "aluminium"}
BARE = {"liner.material": "petg", "liner.made": "printed"}


def of_bore(mm):
    return {"cylinder.bore": f"{mm} mm", "cylinder.stroke": f"{0.9 * mm:g} mm"}


def held(kind, **more):
    return {"head.fasteners.kind": kind} | {f"head.fasteners.{k}": v for k, v in more.items()}


def heads(inlet, exhaust):
    return {
        "valves.inlet.head_diameter": f"{inlet} mm",
        "valves.exhaust.head_diameter": f"{exhaust} mm",
    }


@pytest.mark.parametrize(
    ("lines", "path", "hand"),
    [
        # π/4 × 4² × 3.6 = 45.2389 cm³ swept.
        ({}, "cylinder.compression_ratio", 6.0),
        (ALUMINIUM_HEAD, "cylinder.compression_ratio", 6.5),
        ({"cylinder.chamber_volume": "9 cm^3"}, "cylinder.compression_ratio", 6.02655),
        ({"cylinder.compression_ratio": 7}, "cylinder.chamber_volume", 7.53982e-6),
        # 40 + 2 × 2, of a print 40 + 2 × 5, or the tube's own.
        ({}, "liner.outside_diameter", 44 * MM),
        (BARE, "liner.outside_diameter", 50 * MM),
        ({"liner.tube": "aluminium_40x45"}, "liner.outside_diameter", 45 * MM),
        # 36 + 0.9 × 30, and + 16 of body outside 44.
        ({"piston.length": "30 mm"}, "liner.length", 63 * MM),
        ({}, "body.outside_diameter", 60 * MM),
        ({}, "body.foot.fillet", 0.8 * MM),
        ({"body.foot.thickness": "12 mm"}, "body.foot.fillet", 1 * MM),
        # 60 + 2.4 × M5.
        ({}, "body.foot.circle_diameter", 72 * MM),
        ({"gasket.kind": "sheet"}, "gasket.thickness", 0.8 * MM),
        ({"gasket.kind": "cured_sealant"}, "gasket.thickness", 0.3 * MM),
        ({"gasket.kind": "o_ring"}, "gasket.thickness", 0.0),
        ({"gasket.kind": "metal"}, "gasket.thickness", 0.5 * MM),
        ({"gasket.kind": "none"}, "gasket.thickness", 0.0),
        ({}, "gasket.inside_diameter", 41 * MM),
        # 0.45 × 41 = 18.45, 0.35 × 41 = 14.35, to half a millimetre.
        (of_bore(41), "head.thickness", 18.5 * MM),
        (of_bore(41) | ALUMINIUM_HEAD, "head.thickness", 14.5 * MM),
        ({}, "head.diameter", 72 * MM),
        ({}, "head.chamber_plate_thickness", 0.0),
        ({"head.chamber_plate": "aluminium"}, "head.chamber_plate_thickness", 3 * MM),
        # 40 - 3 less both heads, 1 to 6 mm.
        (heads(18, 16), "head.valve_bridge", 3 * MM),
        (heads(14, 14), "head.valve_bridge", 6 * MM),
        (heads(20, 18), "head.valve_bridge", 1 * MM),
        ({}, "body.fins.length", 12 * MM),
        ({}, "head.fins.length", 12 * MM),
        # Of an M5: 0.8, 2 and 2.5 diameters; the M5 insert is 9.5 mm long, for an M8 none is known.
        (held("through_bolts"), "head.fasteners.engaged_length", 4 * MM),
        (held("nutted_studs"), "head.fasteners.engaged_length", 4 * MM),
        (held("studs"), "head.fasteners.engaged_length", 10 * MM),
        (held("screws"), "head.fasteners.engaged_length", 12.5 * MM),
        (held("inserts"), "head.fasteners.engaged_length", 9.5 * MM),
        (held("inserts", thread="M8"), "head.fasteners.engaged_length", 12 * MM),
        # 18 of head, 0.8 of gasket; long bolts pass 68.4 of liner too.
        (held("screws"), "head.fasteners.clamped_length", 18.8 * MM),
        (held("inserts"), "head.fasteners.clamped_length", 18.8 * MM),
        *((held(kind), "head.fasteners.clamped_length", 87.2 * MM)
          for kind in ("through_bolts", "nutted_studs", "studs")),
        # Gas 3.5 MPa × 1256.64 mm² = 4398.2 N; 2.5/4 of it is 2748.9 N, × 0.2 × 5 mm.
        (held("through_bolts"), "head.fasteners.torque", 2.74889),
        # An M5 has 14.183 mm²; 15 % of 580 MPa, 40 % of 450 MPa.
        (held("screws"), "head.fasteners.torque", 1.23392),
        (held("studs", property_class="A2-70"), "head.fasteners.torque", 2.55294),
        # 1.45 × 40, or outside the liner with 2.2 × 5.
        ({}, "head.fasteners.circle_diameter", 58 * MM),
        ({"liner.outside_diameter": "50 mm"}, "head.fasteners.circle_diameter", 61 * MM),
        ({}, "head.fasteners.washer_diameter", 15 * MM),
        (ALUMINIUM_HEAD, "head.fasteners.washer_diameter", 10 * MM),
    ],
)  # fmt: skip
def test_cylinder(lines, path, hand):
    assert value(lines, path) == pytest.approx(hand, rel=FIGURES, abs=1e-12)


@pytest.mark.parametrize(
    ("lines", "path", "word"),
    [
        ({}, "liner.kind", "tube"),
        (BARE, "liner.kind", "bare_print"),
        ({"liner.material": "brass"}, "liner.kind", "tube"),
        ({"liner.tube": "brass_46x50", "cylinder.bore": "46 mm"}, "liner.material", "brass"),
        ({}, "liner.material", "aluminium_6061_t6"),
        ({"liner.kind": "metal"}, "liner.material", "cast_iron_grey"),
        ({"liner.kind": "bare_print"}, "liner.material", "petg"),
        ({"liner.kind": "bare_print"}, "liner.made", "printed"),
        ({"liner.kind": "bare_print"}, "liner.bore_finish", "as_printed"),
        ({}, "liner.bore_finish", "smooth"),
        ({"gasket.kind": "sheet"}, "gasket.material", "gasket_fibre"),
        ({"gasket.kind": "cured_sealant"}, "gasket.material", "silicone_sealant"),
        ({"gasket.kind": "o_ring"}, "gasket.material", "fkm"),
        ({"gasket.kind": "metal"}, "gasket.material", "copper"),
        ({"head.fasteners.insert": "M5"}, "head.fasteners.kind", "inserts"),
        ({}, "head.fasteners.kind", "through_bolts"),
        (held("inserts"), "head.fasteners.insert", "M5"),
        (held("inserts", thread="M8"), "head.fasteners.insert", None),
        *((of_bore(bore), "head.fasteners.thread", thread) for bore, thread in (
            (32, "M4"), (33, "M5"), (46, "M5"), (47, "M6"), (56, "M6"), (57, "M8"))),
    ],
)  # fmt: skip
def test_words(lines, path, word):
    assert value(lines, path) == word
