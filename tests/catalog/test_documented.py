"""The examples of docs/catalog.md do what they say."""

import re
from pathlib import Path

import pytest

from firstfire import catalog

PAGE = (Path(__file__).parents[2] / "docs" / "catalog.md").read_text(encoding="utf-8")
ROWS, CURVE, FUELS = re.findall(r"```toml\n(.*?)```", PAGE, re.DOTALL)
(PYTHON,) = re.findall(r"```python\n(.*?)```", PAGE, re.DOTALL)


def test_own_rows_of_the_page(tmp_path):
    path = tmp_path / "catalog.toml"
    path.write_text(ROWS.replace("[tube.scrap]", f"{CURVE}\n[tube.scrap]"), encoding="utf-8")
    rows = catalog.load([path])
    mine, kind = rows.row("material", "my PETG, black"), rows.row("material", "petg")
    assert mine.si("strength_in_plane") == 39e6
    assert [p.value for p in mine.curve("strength")] == [0.40]
    # The modulus curve is inherited and stretched: glass transition 71 in place of 75 C.
    first, shipped = mine.curve("modulus")[0], kind.curve("modulus")[0]
    assert first.temperature - 296.15 == pytest.approx((shipped.temperature - 296.15) * 48 / 52)
    assert rows.row("tube", "scrap").origin == "yours"


def test_own_fuels_of_the_page(tmp_path):
    path = tmp_path / "catalog.toml"
    path.write_text(FUELS, encoding="utf-8")
    rows = catalog.load([path])
    petrol, ethanol = rows.row("fuel", "petrol"), rows.row("fuel", "ethanol")
    mixed, old = rows.row("fuel", "E20 from the pump"), rows.row("fuel", "old_can")
    for name in ("heating_value", "air_fuel_ratio"):
        assert ethanol.si(name) < mixed.si(name) < petrol.si(name)
    assert old.si("heating_value_vapour") == pytest.approx(42.6e6 + 0.35e6)


def test_python_of_the_page():
    names: dict[str, object] = {}
    exec(PYTHON, names)
    assert names["petg"].key == "petg"


def test_the_page_names_every_sureness():
    from firstfire.catalog.entry import SURE

    assert all(f"*{sure}*" in PAGE for sure in SURE)
