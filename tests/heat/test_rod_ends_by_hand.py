"""The round engine's rod ends and crankpin, worked out with a calculator.

A pin of silver steel, 12 mm thick, 20 mm between its webs and 7 mm in each; eyes 4 mm thick, 16 mm
wide on it and 14 mm on the piston pin. A web's face is 30 mm by half a stroke and 30: 1500 mm².
"""

import math

import pytest
from tests.heat.made_cycle import made_cycle
from tests.heat.round_engine import lump, round_engine, through

from firstfire.heat.cylinder import network
from firstfire.heat.running import running

PI, MM = math.pi, 1e-3
PIN = PI / 4 * 144 * MM**2


def walls(layout="single", **values):
    return network(round_engine(layout, **values), 0)


def steel(name="silver_steel"):
    row = round_engine().materials[name]
    return row["conductivity"], row["density"] * row["specific_heat"]


def powers(**values):
    engine = round_engine(**values)
    found = network(engine, 0)
    return running(engine, 0, found, made_cycle(), pin_power=3.0, big_end_power=20.0)


def test_eyes() -> None:
    big, small = walls().stack("big_end"), walls().stack("small_end")
    assert big.fire_area == pytest.approx(PI * 12 * 16 * MM**2)
    assert big.back_area == pytest.approx(PI * 20 * 16 * MM**2)
    assert small.fire_area == pytest.approx(PI * 12 * 14 * MM**2)
    assert big.capacity.sum() == pytest.approx(PI / 4 * (400 - 144) * 16 * MM**3 * 1270 * 1250)
    assert not big.swept
    # from 6 µm each half as large again as the one before, up to an eighth of the wall
    assert big.size[0] == pytest.approx(6e-6, rel=0.02)
    assert big.size[-1] == pytest.approx(4 * MM / 8, rel=0.02)
    assert big.size[2] / big.size[1] == pytest.approx(1.5)


def test_bushes() -> None:
    """1.5 mm of bronze, 60 W/(m K), pressed into the eye: 2e-4 m² K/W, 15 mm wide."""
    big = walls(rod__big_end="bush").stack("big_end")
    assert big.parts == ("big_end_bush", "big_end")
    assert [one.thickness for one in big.layers] == pytest.approx([1.5 * MM, 4 * MM])
    bronze = big.capacity[: big.starts[1]].sum()
    assert bronze == pytest.approx(PI / 4 * (225 - 144) * 16 * MM**3 * 8800 * 380)
    assert big.layers[0].solid.conductivity == 60.0
    # taken a micron further out than it is
    contact = big.contact[big.starts[1] - 1]
    assert contact == pytest.approx(2e-4 / (PI * 15 * 16 * MM**2), rel=2e-4)
    assert walls().stack("big_end").parts == ("big_end",)


def test_crankpin() -> None:
    """34 mm of steel; 20 - 16 = 4 mm of it lie free."""
    pin = lump(walls(), "crankpin")
    assert pin.capacity == pytest.approx(steel()[1] * PIN * 34e-3)
    assert pin.area == pytest.approx(PI * 12 * 4 * MM**2)
    assert pin.thickness == pytest.approx(6 * MM)
    assert lump(walls(rod__big_end_width=25 * MM), "crankpin").area == 0.0


def test_a_pin_of_one_piece_is_held_by_its_cheeks() -> None:
    """20 and twice 10 mm."""
    pin = lump(walls(crank__built="one_piece"), "crankpin")
    assert pin.capacity == pytest.approx(steel()[1] * PIN * 40e-3)


@pytest.mark.parametrize(
    ("values", "thickness", "metal"),
    [
        ({"crank__joint__plate": "steel_mild"}, 2, "steel_mild"),
        ({"crank__material": "silver_steel", "crank__made": "bought"}, 10, "silver_steel"),
    ],
)
def test_webs(values, thickness, metal) -> None:
    """Two faces outside, and the metal of both webs."""
    webs = lump(walls(**values), "webs")
    assert webs.capacity == pytest.approx(steel(metal)[1] * 2 * 1500 * thickness * MM**3)
    assert webs.area == pytest.approx(2 * 1500 * MM**2)
    assert webs.thickness == pytest.approx(thickness * MM)


def test_webs_of_print_alone_are_none() -> None:
    for values in ({"crank__joint__plate_thickness": 0.0}, {"crank__built": "one_piece"}):
        assert "webs" not in walls(**values).lump_nodes


def to_webs(held: float) -> float:
    """From the middle 10 mm either way, then over both holes, W/K."""
    conducts, _ = steel()
    return 1 / (0.01 / (2 * conducts * PIN) + 1e-4 / (2 * PI * 12 * held * MM**2))


def test_way_from_pin_to_webs() -> None:
    plate = walls(crank__joint__plate="steel_mild")
    assert through(plate, "crankpin", "webs") == pytest.approx(to_webs(7))
    forged = {"crank__material": "silver_steel", "crank__made": "bought"}
    one_piece = walls(**forged, crank__built="one_piece")
    assert through(one_piece, "crankpin", "webs") == pytest.approx(to_webs(10))


def test_films_on_pins() -> None:
    """5000 W/(m² K) over π · 12 · 16 and π · 12 · 14 mm²."""
    found = walls()
    assert through(found, "big_end", "crankpin") == pytest.approx(5000 * PI * 12 * 16 * MM**2)
    assert through(found, "small_end", "boss") == pytest.approx(5000 * PI * 12 * 14 * MM**2)


@pytest.mark.parametrize("layout", ["V 90", "opposed, common pin"])
def test_rods_on_a_common_pin_share_it(layout) -> None:
    """Each has half of 36 + 2 · 7 mm of pin, half of 36 - 2 · 16 mm free, one web, and half the
    way to the webs: 18 mm from the middle for both."""
    values = {"crank__crankpin_length": 36 * MM, "crank__joint__plate": "steel_mild"}
    found = walls(layout, **values)
    pin, webs = lump(found, "crankpin"), lump(found, "webs")
    assert pin.capacity == pytest.approx(steel()[1] * PIN * 50e-3 / 2)
    assert pin.area == pytest.approx(PI * 12 * 2 * MM**2)
    assert webs.capacity == pytest.approx(steel("steel_mild")[1] * 1500 * 2 * MM**3)
    assert webs.area == pytest.approx(1500 * MM**2)
    conducts, _ = steel()
    both = 1 / (0.018 / (2 * conducts * PIN) + 1e-4 / (2 * PI * 12 * 7 * MM**2))
    assert through(found, "crankpin", "webs") == pytest.approx(both / 2)


def test_a_twin_with_two_pins_shares_none() -> None:
    for layout in ("parallel 360", "V 60, two pins", "opposed"):
        pin = lump(walls(layout), "crankpin")
        assert pin.capacity == pytest.approx(steel()[1] * PIN * 34e-3)


def test_friction_is_halved_at_each_film() -> None:
    found = powers()
    assert {name: found.sources[name] for name in ("big_end", "crankpin", "small_end", "boss")} == {
        "big_end": 10.0, "crankpin": 10.0, "small_end": 1.5, "boss": 1.5,
    }  # fmt: skip
    # PETG decomposes at 380 °C
    assert found.limits == dict.fromkeys(["big_end", "small_end", "crankpin"],
                                         pytest.approx(653.15))  # fmt: skip


def test_friction_of_what_rolls_and_of_a_printed_pin() -> None:
    rolling = powers(rod__big_end="needle", rod__small_end="needle").sources
    assert "big_end" not in rolling
    assert "crankpin" not in rolling
    assert rolling["boss"] == 3.0
    printed = powers(crank__crankpin_material="petg").sources
    assert printed["big_end"] == 10.0
    assert "crankpin" not in printed
