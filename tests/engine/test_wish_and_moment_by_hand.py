"""From a wish to a size; pressures and means of a moment; limits of what is written: by pencil."""

import math

import numpy as np
import pytest
from tests.engine.by_hand import FIGURES, MM, RPM, plain, refused

from firstfire.catalog import load
from firstfire.engine.fuel import fuel
from firstfire.engine.moment import Moment
from firstfire.engine.quantity import read_quantity, write_quantity
from firstfire.engine.records import PartTemperature, Way
from firstfire.engine.toml_lines import line_numbers
from firstfire.engine.typed import file_lines
from firstfire.engine.values import written
from firstfire.engine.wish import wish
from firstfire.engine.working import Wanted, working
from firstfire.errors import OutsideValidity
from firstfire.formulas.recorded import found, put_in


@pytest.mark.parametrize(
    ("cylinders", "bore", "stroke"),
    [(1, 34.9998 * MM, 31.8180 * MM), (2, 27.7794 * MM, 25.2540 * MM)],
)
def test_a_wish(cylinders, bore, stroke):
    """500 W at 66.667 turns a second: 1000/(66.667 p) is 30.612, 21.429 and 60 cm³ at 4.9, 7 and
    2.5 bar; stroke (4 V / π 1.21)^⅓, bore 1.1 of it.
    """
    sizes = wish(500.0, 4000 * RPM, cylinders)
    assert sizes.displacement == pytest.approx(30.6122e-6, rel=FIGURES)
    assert sizes.displacement_low == pytest.approx(21.4286e-6, rel=FIGURES)
    assert sizes.displacement_high == pytest.approx(60e-6, rel=FIGURES)
    assert (sizes.bore, sizes.stroke) == pytest.approx((bore, stroke), rel=FIGURES)


def test_a_wish_beyond_printed_engines():
    """A bore of 110 mm asks for 31.06 times as much as one of 35: 15.5 kW; of 15 mm for 39 W."""
    assert wish(15.4e3, 4000 * RPM).bore < 110 * MM
    with pytest.raises(OutsideValidity, match="110 mm"):
        wish(15.7e3, 4000 * RPM)
    with pytest.raises(OutsideValidity, match="39 W at 4000 rpm"):
        wish(39.0, 4000 * RPM)


def a_moment(peak, crankcase, **more):
    return Moment(
        engine=plain({}), event="first_fire", seconds=1.0, cycles=1.0, cylinder=0,
        peak_pressure=peak, crankcase_pressure=crankcase, speed=30.0, loads=None,
        temperatures=None, **more,
    )  # fmt: skip


def test_gas_pressure_is_above_the_crankcases():
    assert a_moment(35e5, 1e5).gas_pressure == 34e5
    assert a_moment(0.9e5, 1e5).gas_pressure == 0.0
    told = a_moment(35e5, 1e5, recorded=True, instead={"gas_pressure": 20e5})
    assert told.gas_pressure == 20e5
    assert told.given("cycles", 3.0) == 3.0
    assert a_moment(35e5, 1e5, instead={"gas_pressure": 20e5}).gas_pressure == 34e5


def test_a_walls_mean_is_by_its_depth():
    """A millimetre at 390 and two at 340."""
    wall = PartTemperature(
        surface=400.0, peak=410.0, depth=np.array([1.0, 2.0, 4.0]),
        profile=np.array([400.0, 380.0, 300.0]),
    )  # fmt: skip
    assert wall.mean == pytest.approx((390 + 2 * 340) / 3)
    assert wall.at(3.0) == pytest.approx(340.0)


def test_a_factor_is_what_it_holds_over_what_is_asked():
    way = Way("a.b", "part", "slips", 4.0, 10.0, "N", False, "friction", None, "", "")
    none = Way("a.b", "part", "slips", 0.0, 10.0, "N", False, "friction", None, "", "")
    assert (way.factor, none.factor) == (2.5, math.inf)


def test_a_working_names_its_steps():
    """A number found keeps its own words; the same law asked again is the other one."""
    side, other = put_in("side", 3.0), put_in("other_side", 4.0)
    area = found("area", side * side, "m²", "its area")
    again = found("area", other * other, "m²", "its area")
    inputs, lines = working(
        Wanted("demand", area + again, "m²", "both"), Wanted("capacity", area / again, "", "share")
    )
    assert inputs == {"side": 3.0, "other_side": 4.0}
    assert [(one.name, one.expression, one.words) for one in lines] == [
        ("area", "side * side", "its area"),
        ("area_2", "other_side * other_side", "other its area"),
        ("demand", "area + area_2", "both"),
        ("capacity", "area / area_2", "share"),
    ]


def test_a_limit_gives_way_by_a_hair():
    """120 mm and a thousand millionth of it: 0.7 of that passes, 1.5 doesn't."""
    long = {"cylinder.stroke": "108 mm"}
    assert "cylinder.bore" not in refused(long | {"cylinder.bore": "120.000000084 mm"})
    assert "120 mm" in refused(long | {"cylinder.bore": "120.00000018 mm"})["cylinder.bore"]
    assert "10 mm" in refused({"cylinder.bore": "9.9 mm"})["cylinder.bore"]


@pytest.mark.parametrize(
    ("density", "taken"), [(12.2, False), (12.4, True), (128000, True), (130000, False)]
)
def test_ones_own_material_is_within_a_hundred_times_its_row(density, taken):
    """PETG has 1230 to 1290 kg/m³."""
    path = "materials.petg.density"
    assert (path not in refused({path: f"{density} kg/m^3"})) is taken


def test_quantities():
    assert read_quantity("1 1/8 in", "length") == pytest.approx(28.575 * MM)
    assert read_quantity("-1 1/4 in", "length") == pytest.approx(-31.75 * MM)
    assert read_quantity("3/8 in", "length") == pytest.approx(9.525 * MM)
    assert read_quantity("50 degF", "temperature") == pytest.approx(283.15)
    assert write_quantity(283.15, "temperature") == "10 °C"
    assert write_quantity(250e5, "stress", "bar") == "250 bar"


def test_fuels():
    """E10's 6.4272 carbon with 1.9449 and 0.033153 each; a tenth of ethanol by volume is 78.93 of
    749.43 by mass.
    """
    e10 = fuel(load(), "e10")
    assert e10.hydrogen == pytest.approx(12.5003, rel=FIGURES)
    assert e10.oxygen == pytest.approx(0.213081, rel=FIGURES)
    shares = dict(e10.vapours)
    assert shares == pytest.approx({"ethanol": 0.10532, "petrol": 0.89468}, rel=FIGURES)


def test_a_mixture_of_mixtures(tmp_path):
    """Half of E10 and half of petrol by mass has half of E10's ethanol."""
    own = tmp_path / "catalog.toml"
    own.write_text(
        '[fuel.e5_or_so]\nlike = "e10"\nname = "e5 or so"\n'
        'made_of = "50 % e10, 50 % petrol by mass"\n',
        encoding="utf-8",
    )
    shares = dict(fuel(load([own]), "e5_or_so").vapours)
    assert shares == pytest.approx({"ethanol": 0.05266, "petrol": 0.94734}, rel=FIGURES)


TEXT = '''a = """
b = 1
"""
c = 'x"' # "
d = [
  "]", # ]
  'y = "', 1
]
e = "x\\"["
f = """q""" # "
g = 2
[[x]]
h = 1
[[x]]
h = { k = "}" }
k.l = [ { m = 1 }, { m = [
  2 ] } ]
n = \'\'\'
o = "1\'\'\'
p = 1
q = """\\"""
r = 1
"""
s = 1
'''


def test_each_key_stands_on_its_line():
    assert line_numbers(TEXT) == {
        "a": 1, "c": 4, "d": 5, "e": 9, "f": 10, "g": 11, "x.0": 12, "x.0.h": 13, "x.1": 14,
        "x.1.h": 15, "x.1.k.l": 16, "x.1.n": 18, "x.1.p": 20, "x.1.q": 21, "x.1.s": 24,
    }  # fmt: skip


def test_changes_as_a_file_has_them():
    """What has no heading stands first; each heading once."""
    changes = {"rod.length": "70 mm", "name": "wren", "rings.count": "2", "rod.made": "rod"}
    assert file_lines(changes) == [
        'name = "wren"', "[rod]", 'length = "70 mm"', 'made = "rod"', "[rings]", "count = 2",
    ]  # fmt: skip


def test_a_table_is_shown_as_it_is_written():
    table = ((0.0, 0.0), (math.pi / 3, 2 * MM))
    assert written("valves.inlet.lift_table", table) == "0 deg, 0 mm; 60 deg, 2 mm"
