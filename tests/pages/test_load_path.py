"""The path of the load of one line: the moment and the forces that the line was judged by."""

import math
import re

import numpy as np
import pytest
from tests.pages.stood_in import asked, doing, never

from firstfire.drawing.forces import NAMES
from firstfire.drawing.section import section
from firstfire.engine.geometry import firing_angles
from firstfire.pages.answers.load_path import load_path
from firstfire.pages.answers.margins import at_hand
from firstfire.pages.answers.quick import Quick
from firstfire.runs.moments import judged_peak, loads_at
from firstfire.verdict.numbers import shown


def path_of(plain, bout, way):
    found = at_hand(plain, "full_throttle@0", bout, None, {})
    return load_path(plain, bout, next(one for one in found if one.way.id == way))


def felt(plain, bout, seconds=60.0):
    rows = range(len(plain.cylinders))
    return loads_at(bout, plain, [judged_peak(bout, row, seconds) for row in rows])


def judged_felt(plain, bout, way):
    """Loads at the second that a line is judged at."""
    found = at_hand(plain, "full_throttle@0", bout, None, {})
    return felt(plain, bout, next(one.at_seconds for one in found if one.way.id == way))


def drawn(plain, path):
    made = section(plain, crank_angle=path.forces.crank_angle, forces=path.forces)
    return {(arrow.cylinder, arrow.name): arrow for arrow in made.arrows}


def test_a_rod_that_buckles_is_shown_when_its_thrust_is_largest(plain, fired):
    """Gas less inertia, over the cosine of the rod's lean (slider and crank, Shigley or Norton)."""
    path = path_of(plain, fired, "rod.buckle")
    own, angle = path.forces.cylinders[0], path.forces.crank_angle
    rod = judged_felt(plain, fired, "rod.buckle").cylinders[0].rod
    assert own.rod == pytest.approx(float(rod.max()), rel=1e-9)
    parts = plain.cylinders[0]
    lean = math.asin(parts.cylinder.stroke / 2 * math.sin(angle) / parts.rod.length)
    assert own.rod == pytest.approx((own.gas - own.inertia) / math.cos(lean), rel=2e-3)
    assert set(drawn(plain, path)) == {(1, "gas"), (1, "inertia"), (1, "rod")}
    assert f"in the rod {shown(own.rod, 'N')}" in path.words
    assert "after top" in path.words


def test_a_rod_is_torn_near_the_other_top_where_nothing_burns(plain, fired):
    path = path_of(plain, fired, "rod.tear")
    rod = judged_felt(plain, fired, "rod.tear").cylinders[0].rod
    assert path.forces.cylinders[0].rod == pytest.approx(float(rod.min()), rel=1e-9)
    assert abs(path.forces.crank_angle) > math.radians(270)
    assert "before top" in path.words


def test_a_joint_slips_when_the_torque_is_largest_not_the_force(plain, fired):
    path, force = (path_of(plain, fired, way) for way in ("crank.journal.slip", "crank.pin.bend"))
    loads = judged_felt(plain, fired, "crank.journal.slip")
    torque = np.abs(loads.journals[0].torque)
    angle = path.forces.crank_angle % (4 * math.pi)
    assert np.interp(angle, loads.shaft_angle, torque) == pytest.approx(torque.max(), rel=1e-6)
    assert path.forces.crank_angle > force.forces.crank_angle + math.radians(5)
    assert set(drawn(plain, path)) == {(1, "rod"), (1, "crankpin")}


def test_a_head_feels_the_gas_alone_and_its_arrow_is_the_largest(plain, fired):
    path = path_of(plain, fired, "head.lift")
    gas = judged_felt(plain, fired, "head.lift").cylinders[0].gas
    assert path.forces.cylinders[0].gas == pytest.approx(float(gas.max()), rel=1e-9)
    (arrow,) = drawn(plain, path).values()
    assert arrow.name == "gas"
    assert 0.3 < math.dist(arrow.start, arrow.end) / (1e3 * plain.cylinders[0].cylinder.bore) < 1.0


@pytest.mark.parametrize("way", ["ring.fill", "exhaust_port.char", "cam_drive.belt.jump"])
def test_what_no_drawn_force_decides_says_so(plain, fired, way):
    path = path_of(plain, fired, way)
    assert path.forces is None
    assert "decides it" in path.words


def test_what_is_not_judged_has_none_and_says_so(plain, fired):
    path = path_of(plain, fired, "cam.face.wear")
    assert path.forces is None
    assert "not judged" in path.words


def test_of_a_twin_each_line_shows_its_own_cylinder_and_a_shared_one_both(heron):
    bout, plain = heron
    own = path_of(plain, bout, "rod.buckle#2")
    late = firing_angles(plain)[1]
    assert {cylinder for cylinder, _ in own.forces.path} == {2}
    assert 0 <= (own.forces.crank_angle - late) % (4 * math.pi) < math.radians(60)
    assert "of cylinder 2" in own.words
    both = path_of(plain, bout, "crank.pin.bend")
    assert both.forces.path == {(n, name) for n in (1, 2) for name in ("rod", "crankpin")}
    largest = max(
        float(c.crankpin.max()) for c in judged_felt(plain, bout, "crank.pin.bend").cylinders
    )
    shown = max(one.crankpin for one in both.forces.cylinders)
    assert shown == pytest.approx(largest, rel=1e-9)


def test_every_line_of_either_engine_has_a_path_or_says_why_not(plain, fired, heron):
    for bout, numbers in ((fired, plain), heron):
        for margin in at_hand(numbers, "full_throttle@0", bout, None, {}):
            path = load_path(numbers, bout, margin)
            assert path.words
            if path.forces is not None:
                assert {name for _, name in path.forces.path} <= set(NAMES)
                assert path.forces.newtons_per_mm > 0


def test_the_drawing_turns_to_the_moment_of_the_line_that_is_pointed_at():
    """In the quick answer: all forces where it presses most, then those of one line, then none."""
    quick, found = Quick(), {}
    for name, more in (("most", {"over": ("forces",)}), ("one", {"pointed": "rod.tear"}),
                       ("none", {"pointed": "no.such"})):  # fmt: skip
        told = list(quick.answers(asked(event="cranking", **more), never))
        last = [one for one in told if one.kind == "at hand"][-1]
        found[name] = re.findall(r'data-force="(\w+)"', last.data["desk"]), str(last.data["over"])
    assert set(found["most"][0]) >= {"gas", "rod", "crankpin"}
    assert set(found["one"][0]) <= {"gas", "inertia", "rod"}
    assert found["one"][0]
    assert "Con rod is torn apart: its load" in found["one"][1]
    assert found["none"] == ([], "")


def test_what_is_pointed_at_is_asked_and_no_more_once_it_is_left(hub):
    doing(hub, {"do": "point", "way": "rod.tear"}, {"do": "point", "way": ""})
    assert [one.pointed for one in hub.office.asked] == ["rod.tear", ""]
    heard = doing(hub, {"do": "point"})
    assert "understood" in heard.last("say")
