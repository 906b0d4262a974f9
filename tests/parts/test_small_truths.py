"""Joints glued besides, nutted studs, sealants with a skin, points: each judged as it is."""

import math

import pytest
from tests.parts.moments import engine, moment, numbers, said
from tests.parts.test_sizes import BASE

import firstfire as ff
from firstfire.engine.read import with_values
from firstfire.engine.resolve import resolve
from firstfire.engine.working import recorded
from firstfire.errors import EngineFileError
from firstfire.parts.all import ways
from firstfire.runs.point import spark_angle
from firstfire.setup.parts_list import parts_list

WREN, HERON, PLOVER = (f"engines/{name}.toml" for name in ("wren", "heron", "plover"))


def find(described, name, **what):
    return next(w for w in ways(recorded(moment(described, **what))) if w.id == name)


def flywheel(**joint):
    values = {f"flywheel.joint.{name}": value for name, value in joint.items()}
    return find(with_values(engine(WREN), values), "flywheel.hub.slip")


@pytest.mark.parametrize("bond", ["retaining_compound", "epoxy"])
@pytest.mark.parametrize("kind", ["keyed", "pinned", "splined", "polygon", "plain_press"])
def test_a_joint_glued_besides_holds_the_larger_of_both(kind, bond):
    alone = flywheel(kind=kind)
    glue = flywheel(kind="bonded", bond=bond)
    both = flywheel(kind=kind, glued="true", bond=bond)
    # What the key leaves of the shaft limits it as before.
    assert alone.capacity <= both.capacity <= max(alone.capacity, glue.capacity)
    assert "stiffer" in both.formula
    values = numbers(both)
    assert values["joint_holds"] == pytest.approx(
        max(values["bond_holds"], values["without_bond_holds"])
    )
    assert values["capacity"] == pytest.approx(both.capacity)


def test_a_weak_key_in_a_good_bond_is_held_by_the_bond():
    key = flywheel(kind="keyed", cross_pins="1", cross_pin_diameter="1 mm")
    glued = flywheel(kind="keyed", cross_pins="1", cross_pin_diameter="1 mm", glued="true")
    assert glued.capacity > 1.2 * key.capacity


@pytest.mark.parametrize(
    ("wheel", "prop"), [("steel", "shear_strength"), ("petg", "shear_strength_on_plastic")]
)
def test_a_glue_sticks_to_a_print_as_its_row_tells_of_prints(wheel, prop):
    values = {"flywheel.joint.kind": "bonded", "flywheel.joint.bond": "epoxy"}
    described = with_values(engine(WREN), values | {"flywheel.material": wheel})
    row = moment(described).engine.materials["epoxy"]
    held = numbers(find(described, "flywheel.hub.slip"))
    assert held["glue_shear_at_room"] == row[prop]
    assert row["shear_strength"] > row["shear_strength_on_plastic"]


def test_a_clamp_has_no_gap_for_a_bond():
    assert flywheel(kind="clamped", glued="true").capacity == flywheel(kind="clamped").capacity


def test_a_crank_in_one_piece_has_no_joint_that_slips():
    ids = {way.id for way in ways(moment(engine(PLOVER)))}
    assert "crank.pin.twist" in ids
    assert not {"crank.joint.slip", "crank.journal.slip", "crank.joint.fret"} & ids


def test_studs_with_nuts_at_both_ends_end_in_no_thread_of_the_print():
    nutted, threaded, bolts = (
        with_values(engine(WREN), {"head.fasteners.kind": kind})
        for kind in ("nutted_studs", "studs", "through_bolts")
    )
    assert find(nutted, "head.lift").capacity == find(bolts, "head.lift").capacity
    assert find(nutted, "head.lift").governs == "screw"
    assert find(threaded, "head.lift").capacity < find(nutted, "head.lift").capacity
    assert "body.boss.split" not in {way.id for way in ways(moment(nutted))}


@pytest.mark.parametrize(
    ("kind", "nuts"), [("nutted_studs", 8), ("studs", 4), ("through_bolts", 4), ("screws", 0)]
)
def test_a_stud_is_bought_with_the_nuts_it_takes(kind, nuts):
    bought = parts_list(with_values(engine(WREN), {"head.fasteners.kind": kind})).bought
    assert sum(item.count for item in bought if item.what.startswith("nut M5")) == nuts


def test_a_bead_that_has_a_skin_before_it_is_closed_sticks_to_one_face():
    soon, late = (
        find(with_values(engine(HERON), {"gasket.open_time": time}), "gasket.sealant.blow")
        for time in ("5 min", "40 min")
    )
    assert late.capacity == pytest.approx(soon.capacity / 2)
    assert any("gasket.open_time" in change.set for change in late.raise_by)
    assert not any("gasket.open_time" in change.set for change in soon.raise_by)


def test_warmth_hastens_the_skin():
    """Silicone has its skin in 15 minutes at 23 °C, and in less than 8 at 33 °C."""
    values = {"gasket.open_time": "10 min", "gasket.cure_temperature": "33 degC"}
    warm = find(with_values(engine(HERON), values), "gasket.sealant.blow")
    assert warm.inputs["faces_stuck"] == 1.0


@pytest.mark.parametrize(("metal", "sticks"), [(("head", "body"), 1.5e6), (("head",), 0.8e6)])
def test_a_bead_sticks_to_metal_as_its_row_says_only_between_two_metals(metal, sticks):
    values = {f"{part}.material": "aluminium_6061_t6" for part in metal}
    values |= {f"{part}.made": "bought" for part in metal}
    blows = find(with_values(engine(HERON), values), "gasket.sealant.blow")
    assert blows.inputs["glue_shear_at_room"] == pytest.approx(sticks)


@pytest.mark.parametrize(
    ("stacked", "made", "row"),
    [
        ("along_bore", "printed", "expansion_across"),
        ("along_crank", "printed", "expansion"),
        ("along_bore", "bought", "expansion"),
    ],
)
def test_a_head_grows_along_the_bore_as_its_layers_lie(stacked, made, row):
    described = with_values(
        engine(WREN),
        {"head.material": "pa12_cf", "head.layers_stacked": stacked, "head.made": made},
    )
    material = resolve(described).materials["pa12_cf"]
    assert material["expansion_across"] > 1.5 * material["expansion"]
    grows = find(described, "gasket.open").inputs["head_expansion"]
    assert grows == pytest.approx(material[row])


def test_an_older_bead_holds_more_at_firing():
    young, old = (
        find(with_values(engine(HERON), {"gasket.cure_time": time}), "gasket.sealant.blow")
        for time in ("20 min", "24 h")
    )
    assert old.capacity > 2 * young.capacity


def test_the_parts_list_says_how_soon_to_close_it():
    bought = parts_list(engine(HERON)).bought
    note = next(item.note for item in bought if item.note and "Cure it" in item.note)
    assert "Close the joint within 5 min" in note


@pytest.mark.parametrize(("kind", "count"), [("y", 1), ("separate", 2), ("plenum", 2)])
def test_one_injector_on_a_y_serves_both(kind, count):
    values = {"intake.mixture_by": "injector", "intake.kind": kind}
    bought = parts_list(with_values(engine(HERON), values)).bought
    assert [item.count for item in bought if "injector" in item.what] == [count]


def test_points_have_no_controllers_delay_and_one_angle_at_every_speed():
    points = engine(HERON)
    plain = ff.resolve(points)
    assert plain.spark.latency == 0.0
    angles = {
        spark_angle(plain, rpm * math.pi / 30, starting=starting)
        for rpm in (300, 3000)
        for starting in (True, False)
    }
    assert len(angles) == 1
    sensed = ff.resolve(with_values(points, {"spark.source": "sensor"}))
    assert sensed.spark.latency > 0


@pytest.mark.parametrize("name", ["start_angle", "running_angle"])
def test_points_said_one_angle_have_it_at_start_and_running(name):
    values = {"spark.source": "points", f"spark.{name}": "12 deg"}
    spark = ff.resolve(with_values(said(BASE), values)).spark
    assert spark.start_angle == spark.running_angle == pytest.approx(math.radians(12))


def test_points_with_an_advance_table_are_refused():
    table = '[["1000 rpm", "10 deg"], ["3000 rpm", "25 deg"]]'
    with pytest.raises(EngineFileError, match=r"breaker points fire at one angle at every speed"):
        said(BASE + f'\n[spark]\nsource = "points"\nadvance_table = {table}\n')


def test_one_print_lies_one_way():
    with pytest.raises(EngineFileError, match="one print with its cheeks"):
        with_values(engine(HERON), {"crank.journal.layers_stacked": "along_bore"})


def test_a_resin_print_is_solid_and_a_laid_one_is_not():
    resin = said(BASE.replace("petg", "resin_tough")).values(1)
    assert resin["body.infill"] == resin["case.infill"] == 1.0
    assert said(BASE).values(1)["body.infill"] < 1.0
