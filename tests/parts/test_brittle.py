"""Brittle parts at their holes, corners and threads; ductile ones by what is left of them.

Each number is worked out beside it by hand, in MPa, N and mm; the laws are held to their books in
`tests/formulas/test_notches_and_flanges.py`.
"""

from __future__ import annotations

from dataclasses import replace

import pytest
from tests.parts.moments import AIR, COLD, FILES, ROOT, engine, moment
from tests.parts.test_sizes import changed, cold

from firstfire.catalog import Catalog
from firstfire.engine.engine import Engine
from firstfire.engine.moment import Moment
from firstfire.engine.read import read, with_values
from firstfire.engine.records import Way
from firstfire.engine.working import recorded
from firstfire.parts import ways

PEAK = 3e6 + AIR
HEAD = {
    "head.made": "bought", "head.thickness": "14 mm", "head.diameter": "76 mm",
    "head.fasteners.circle_diameter": "60 mm", "head.fasteners.torque": "3 N*m",
    "head.fasteners.count": "4", "gasket.inside_diameter": "45 mm", "gasket.width": "4 mm",
    "valves.inlet.throat_diameter": "14 mm", "valves.exhaust.throat_diameter": "12 mm",
}  # fmt: skip
BODY = {
    "head.fasteners.kind": "screws", "body.material": "resin", "body.infill": "1.0",
    "liner.outside_diameter": "48 mm", "body.outside_diameter": "60 mm",
    "body.foot.thickness": "8 mm", "body.foot.fillet": "0.5 mm",
    "body.foot.circle_diameter": "72 mm", "gasket.inside_diameter": "45 mm",
    "gasket.width": "4 mm", "head.fasteners.torque": "2 N*m",
    "head.fasteners.circle_diameter": "62 mm", "head.diameter": "76 mm",
    "head.fasteners.engaged_length": "12 mm",
}  # fmt: skip


def found(at: Moment) -> dict[str, Way]:
    return {way.id: way for way in ways(recorded(at))}


def of(described: Engine) -> dict[str, Way]:
    return found(cold(described, peak=PEAK))


def test_an_acrylic_head_tightened_by_hand() -> None:
    # Four M5 at 3 N·m: 4 × 3/(0.2 × 5 mm) = 12 kN on a ring of radius 24.5 inside bolts at 30.
    # Middle: 12000/2π × (0.685 ln(30/24.5) + 0.1575 (1 - 0.8167²)) = 365.1 N·mm/mm, × 6/14²: 11.18;
    # a port of 14 is felt as 1 + (14/(14 + 0.0991))² = 1.986 with L = (1.2/68)²/π = 0.0991: 22.2.
    # At the bolts 6.13 × 2.879 × 1.169 = 20.6.
    tight = of(with_values(changed(), {**HEAD, "head.material": "pmma"}))["head.tighten.crack"]
    assert tight.demand == pytest.approx(22.20e6, rel=1e-3)
    # It bears that for twelve hours, not for a pulse: no more than its 68 MPa.
    assert tight.capacity <= 68e6


def test_an_aluminium_head_is_judged_by_its_section() -> None:
    # 12000/2π × (0.665 × 0.2025 + 0.1675 × 0.3331) = 363.8, × 6/14² = 11.14; between ports of 14
    # and 12 the share (30 - 13)/30 is left: 19.65.
    tight = of(with_values(changed(), {**HEAD, "head.material": "aluminium"}))
    assert tight["head.tighten.crack"].demand == pytest.approx(19.65e6, rel=1e-3)
    assert "toughness" not in tight["head.tighten.crack"].inputs
    assert "head.crack" not in tight


def test_a_foot_of_clear_resin_by_hand() -> None:
    # Gas on 49 mm at 3 MPa: 5657 N. Wall at 30, screws at 36: 5657/2π × (0.69 ln 1.2 + 0.155 (1 -
    # 0.6944))/(½ (1.38 + 0.62 × 0.6944)) = 172.2 N·mm/mm, × 6/8² = 16.15 MPa. Corner 0.9072
    # (0.5/8)^-1/3 = 2.286, felt with L = 0.0815 mm as 1.971: 31.83 MPa.
    foot = of(with_values(changed(), BODY))["body.foot.crack"]
    assert foot.demand == pytest.approx(31.83e6, rel=1e-3)
    # 50 MPa and 15 % more for a pulse: it stands its first combustion...
    assert foot.factor == pytest.approx(57.5 / 31.83, rel=1e-3)
    # ... and a thousand, to 0.18^(3/6) = 0.424 of that, not: 24.4 MPa.
    often = found(cold(with_values(changed(), BODY), peak=PEAK, cycles=1000.0))
    assert often["body.foot.crack"].factor == pytest.approx(24.4 / 31.83, rel=2e-3)


def test_plastic_round_a_screw_by_hand() -> None:
    # 2 N·m on M5 pulls 2000 N; × tan 30°/(π × 5 × 12) = 6.126 MPa; the head's edge is 7 mm from the
    # screw: (14² + 5²)/(14² - 5²) × 6.126 = 7.917. Grooves of 0.3 mm with a root of 0.1: 1 + 2 √3
    # = 4.464, felt with L = 0.0815 as 2.571 in resin; gas adds where it opens the joint.
    wedged = of(with_values(changed(), BODY))["body.boss.split"]
    hoop = 7.917e6 * wedged.inputs["head.fasteners.torque"] / 2.0
    groove = wedged.demand / hoop
    assert groove >= 2.57
    tight = found(moment(with_values(changed(), BODY), event="overtighten", rises=COLD))
    assert tight["body.boss.split"].demand == pytest.approx(1.5 * 2.571 * 7.917e6, rel=2e-3)


def test_a_case_between_bolts_and_bearings_by_hand() -> None:
    # Throw 20 and cheeks of 30 mm turn in 35, 2 of room, wall 6: 86 mm wide. A bearing of 35 leaves
    # 51 × 6 mm. PETG of 6 mm yields first: the mean pull counts.
    described = with_values(
        changed(),
        {"crank.cheek_width": "30 mm", "case.wall": "6 mm", "crank.main_bearing": "6202"},
    )
    tears = of(described)["case.tear"]
    assert tears.demand == pytest.approx(tears.inputs["bearing_force"] / (51 * 6) * 1e6, rel=1e-6)
    # Of resin it feels the hole: d/w 0.407, Roark 7, Table 17.1: 12.882 - 21.455 + 14.87 - 3.483 =
    # 2.814, less a hair for L = 0.08 mm.
    resin = of(with_values(described, {"case.material": "resin"}))["case.tear"]
    assert resin.demand / tears.demand == pytest.approx(2.81, rel=0.01)


@pytest.mark.parametrize("material", ["aluminium", "steel", "brass", "pa12", "cast_iron"])
def test_what_is_ductile_feels_no_notch(material: str) -> None:
    """Metals, and tough polyamide, yield at a notch: only the section that it leaves counts.

    Grey iron breaks without bending, but not at holes of an engine's size: its flakes are notches
    already (15 MPa·√m and 180 MPa: below 17 mm; Shigley 9, section 6-10, notch sensitivity 0.2).
    """
    described = with_values(
        changed(), {**BODY, "body.material": material, "case.material": material}
    )
    described = with_values(described, {**HEAD, "head.material": material})
    for name, way in of(described).items():
        if name in ("body.foot.crack", "body.boss.split", "case.tear", "head.tighten.crack"):
            assert way.judged, name
            assert "toughness" not in way.inputs, name
    assert "head.crack" not in of(described)


def test_the_stranger_in_metal_has_no_brittle_head_case_or_body() -> None:
    every = found(moment("tests/strangers/5_metal_wren.toml", event="first_fire", rises=COLD))
    assert "head.crack" not in every
    assert every["head.tighten.crack"].factor > 5
    assert every["case.tear"].factor > 3


@pytest.mark.parametrize(
    ("part", "names"),
    [
        ("head", ("head.crack", "head.tighten.crack")),
        ("body", ("body.foot.crack", "body.boss.split")),
        ("case", ("case.tear",)),
    ],
)
def test_a_material_without_toughness_is_not_judged_where_a_notch_decides(
    part: str, names: tuple[str, ...]
) -> None:
    at = cold(
        with_values(changed(), {**BODY, f"{part}.material": "pmma", f"{part}.made": "bought"}),
        peak=PEAK,
    )
    acrylic = at.engine.materials["pmma"]
    untold = {k: v for k, v in acrylic.properties.items() if "toughness" not in k}
    materials = {**at.engine.materials, "pmma": replace(acrylic, properties=untold)}
    bare = replace(at, engine=at.engine.model_copy(update={"materials": materials}))
    for name in names:
        assert found(at)[name].judged, found(at)[name].why_not
        assert not found(bare)[name].judged
        assert "fracture toughness" in found(bare)[name].why_not


def test_every_plastic_and_metal_that_parts_are_made_of_has_a_toughness() -> None:
    for row in Catalog().rows("material"):
        if row.texts.get("made") == "printed":
            assert "fracture_toughness" in row.data, row.key
            assert row.si("fracture_toughness_across") <= row.si("fracture_toughness"), row.key
        if row.key in ("pmma", "pvc_u", "pom", "pa6_cast", "epoxy", "aluminium_6061_t6",
                       "steel_mild", "cast_iron_grey", "brass"):  # fmt: skip
            assert "fracture_toughness" in row.data, row.key


@pytest.mark.parametrize("file", FILES)
def test_a_tougher_material_never_cracks_sooner(file: str) -> None:
    for name in ("head.crack", "head.tighten.crack", "body.foot.crack", "body.boss.split",
                 "case.tear"):  # fmt: skip
        factors = []
        for times in (0.3, 1.0, 3.0):
            described = engine(file)
            keys = {described.values(1)[f"{part}.material"] for part in ("head", "body", "case")}
            sample = {
                f"materials.{key}.fracture_toughness": times * Catalog().row("material", key).si(
                    "fracture_toughness")
                for key in keys
            }  # fmt: skip
            way = found(moment(described, event="first_fire", rises=COLD, sample=sample)).get(name)
            factors.append(way.factor if way is not None and way.judged else None)
        known = [factor for factor in factors if factor is not None]
        assert known == sorted(known), (name, factors)


SPACER = "tests/field/clear_resin_spacer.toml"


def test_a_spacer_of_clear_resin_cracks_along_its_foot_within_a_few_starts() -> None:
    """A real one did on its second start; of the whole check see `tests/field`.

    Starts of ten seconds at 1500 rpm are 125 cycles each; the peak of a strong first combustion
    here is about 30 bar. Sizes are a builder's guess: the flange 6 to 10 mm, its corner 0.2 to 1.
    """
    spacer = read(ROOT / SPACER)
    lives = []
    for thick in ("6 mm", "8 mm", "10 mm"):
        for fillet in ("0.2 mm", "0.5 mm", "0.8 mm"):
            sizes = with_values(spacer, {"body.foot.thickness": thick, "body.foot.fillet": fillet})
            way = found(cold(sizes, peak=PEAK, cycles=4 * 125.0))["body.foot.crack"]
            lives.append(way.factor)
    # Four starts crack it in most of what a builder would draw, and the thickest stands by little.
    assert sum(factor < 1 for factor in lives) >= 5
    assert max(lives) < 2
    tough = with_values(spacer, {"body.material": "pa12_cf"})
    assert found(cold(tough, peak=PEAK, cycles=500.0))["body.foot.crack"].factor > 1.5
