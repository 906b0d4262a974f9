"""How a print is laid is felt by what is judged of it: walls, infill and layers of each part."""

import pytest
from tests.parts.moments import FILES, WARM, engine, moment

from firstfire.engine.read import with_values
from firstfire.engine.resolve import resolve
from firstfire.parts.all import ways
from firstfire.parts.laid_alike import why_alike
from firstfire.parts.softness import is_metal
from firstfire.runs.reads import reads

PLACES = ("liner", "body", "piston", "piston.boss", "rod", "head", "crank", "crank.crankpin",
          "crank.journal", "case")  # fmt: skip
PINS = {"crank.crankpin": "crank.crankpin_material", "crank.journal": "crank.journal.material"}
JOINTS = {"crank.crankpin": "crank.joint.kind", "crank.journal": "crank.journal.joint.kind"}
EVENTS = ("full_throttle", "overtighten")
LESSER = ("slip", "twist", "rock", "lift", "strip")
"""The lesser of hub and pin, or of print and screw: the other of the two may decide."""
STACKED = ("along_bore", "across_bore", "along_crank")


def is_printed(described, place):
    plain = resolve(described)
    if described.values(1)[f"{place.split('.')[0]}.made"] != "printed":
        return False
    return place not in PINS or not is_metal(plain.materials[described.values(1)[PINS[place]]])


CASES = [(file, place) for file in FILES for place in PLACES if is_printed(engine(file), place)]
each_print = pytest.mark.parametrize(("file", "place"), CASES, ids=lambda x: x.split("/")[-1])


def judged(described):
    """Ways by event and id, of walls whose warmth is given: fill changes heat besides."""
    return {
        (event, way.id): way
        for event in EVENTS
        for way in ways(moment(described, event=event, rises=WARM))
        if way.judged and way.factor > 0
    }


def read(described):
    """Paths that each of those ways reads."""
    return {
        (event, ident): paths
        for event in EVENTS
        for ident, paths in reads(moment(described, event=event, rises=WARM)).items()
    }


def changed(before, after):
    return {
        key
        for key in before.keys() & after.keys()
        if before[key].factor != pytest.approx(after[key].factor, rel=1e-9)
    }


@each_print
@pytest.mark.parametrize("what", ["walls", "infill"])
def test_a_sparse_print_feels_more_plastic_wherever_it_says_so(file, place, what):
    """What reads a print's walls or infill and counts what bears of a section feels them."""
    sparse = with_values(engine(file), {f"{place}.walls": "1", f"{place}.infill": "0.2"})
    more = {f"{place}.walls": "2"} if what == "walls" else {f"{place}.infill": "1.0"}
    before, after = judged(sparse), judged(with_values(sparse, more))
    moved = changed(before, after)
    readers = read(sparse)
    by_strength = {
        key
        for key, way in before.items()
        if f"{place}.{what}" in readers[key]
        and any(name.endswith("section_leaves") for name in way.inputs)
        and way.unit != "K"
        and not key[1].partition("#")[0].endswith(LESSER)
    }
    assert by_strength <= moved
    assert moved or why_alike(resolve(sparse), resolve(sparse), f"{place}.{what}").startswith(
        "Steel plates"
    )


@each_print
@pytest.mark.parametrize("what", ["walls", "infill"])
def test_an_engine_as_drawn_feels_it_or_says_why_not(file, place, what):
    described = engine(file)
    doubled = str(min(2 * described.values(1)[f"{place}.walls"], 200))
    said = {"walls": ({}, {f"{place}.walls": doubled}),
            "infill": ({f"{place}.infill": "0.2"}, {f"{place}.infill": "1.0"})}  # fmt: skip
    a, b = (with_values(described, one) for one in said[what])
    if not changed(judged(a), judged(b)):
        assert why_alike(resolve(a), resolve(b), f"{place}.{what}").endswith(".")


@each_print
def test_layers_turned_are_felt_or_it_says_why_not(file, place):
    described = engine(file)
    if place == "piston.boss" or (
        place in JOINTS and described.values(1)[JOINTS[place]] == "solid"
    ):
        return  # one print with its part: it lies as that lies, and is turned with it
    before = judged(described)
    lies = described.values(1)[f"{place}.layers_stacked"]
    felt = 0
    for other in STACKED:
        if other == lies:
            continue
        turned = with_values(described, {f"{place}.layers_stacked": other})
        if changed(before, judged(turned)):
            felt += 1
        else:
            why = why_alike(resolve(described), resolve(turned), f"{place}.layers_stacked")
            assert why.endswith(".")
    plates = "Steel plates" in why_alike(resolve(described), resolve(turned), f"{place}.walls")
    assert felt or plates
