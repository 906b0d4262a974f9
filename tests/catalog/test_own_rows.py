"""A person's own rows: they inherit, they win, they are marked; a bad file is refused whole."""

import pytest

from firstfire.catalog import load, own_files
from firstfire.errors import CatalogError

MINE = """
[sources]
coupons = "five coupons of my own, pulled on 3 May"

[material.my_petg]
like = "petg"
name = "my PETG, black"
aliases = ["black petg"]
strength_in_plane = { value = 39, low = 36, high = 42, unit = "MPa", source = "coupons", \
sure = "measured" }
"""

GOOD = '{ value = 1, low = 1, high = 1, unit = "%s", source = "my own test", sure = "measured" }'


@pytest.fixture
def write(tmp_path):
    def put(text, name="catalog.toml"):
        path = tmp_path / name
        path.write_text(text, encoding="utf-8")
        return path

    return put


def refusal(path):
    with pytest.raises(CatalogError) as refused:
        load([path])
    return str(refused.value)


def test_an_own_row_inherits_and_overrides(write):
    catalog = load([write(MINE)])
    mine, kind = catalog.row("material", "Black PETG"), catalog.row("material", "petg")
    assert (mine.origin, kind.origin) == ("yours", "catalog")
    assert mine.name == "my PETG, black"
    assert mine["strength_in_plane"].si == 39e6
    assert mine["strength_in_plane"].source == "five coupons of my own, pulled on 3 May"
    assert mine["strength_across"] == kind["strength_across"]
    assert mine.texts["hazard"] == kind.texts["hazard"]
    assert mine.curves == kind.curves


def test_own_rows_stand_after_the_shipped_ones(write):
    assert load([write(MINE)]).rows("material")[-1].key == "my_petg"


def test_an_own_row_with_a_shipped_key_stands_in_its_place(write):
    catalog = load(
        [write('[material.petg]\nlike = "petg"\nname = "PETG"\ndensity = ' + GOOD % "kg/m^3")]
    )
    row = catalog.row("material", "petg")
    assert (row.origin, row.si("density")) == ("yours", 1.0)
    assert len(catalog.rows("material")) == len(load().rows("material"))


def test_the_shipped_catalog_is_left_alone(write):
    load([write(MINE)])
    with pytest.raises(CatalogError):
        load().row("material", "my_petg")


def test_an_own_row_may_be_like_another_own_row(write):
    text = MINE + '\n[material.mine_again]\nlike = "my_petg"\n'
    assert load([write(text)]).row("material", "mine again").si("strength_in_plane") == 39e6


def test_the_file_named_first_wins(write):
    first = write(MINE, "first.toml")
    second = write(MINE.replace("value = 39", "value = 37"), "second.toml")
    assert load([first, second]).row("material", "my_petg").si("strength_in_plane") == 39e6
    assert load([second, first]).row("material", "my_petg").si("strength_in_plane") == 37e6


def test_a_row_of_another_kind_from_nothing(write):
    text = "[tube.mine]\nbore = " + GOOD % "mm" + "\noutside = " + GOOD % "inch"
    row = load([write(text)]).row("tube", "mine")
    assert row.si("outside") == pytest.approx(0.0254)
    assert row.origin == "yours"


def test_an_own_glass_transition_stretches_the_curves_of_an_amorphous_plastic(write):
    text = (
        '[material.soft]\nlike = "petg"\nglass_transition = { value = 49, low = 47, high = 51,'
        ' unit = "degC", source = "my own test", sure = "measured" }'
    )
    catalog = load([write(text)])
    soft, kind = catalog.row("material", "soft"), catalog.row("material", "petg")
    # T' = 23 + (T - 23)(49 - 23)/(75 - 23): half as far above 23 C.
    for mine, shipped in zip(soft.curves["strength"], kind.curves["strength"], strict=True):
        assert mine.temperature - 296.15 == pytest.approx((shipped.temperature - 296.15) / 2)
        assert mine.value == shipped.value
        assert "stretched" in mine.source


def test_a_semi_crystalline_plastic_is_not_stretched(write):
    text = '[material.mine]\nlike = "pa6_cf"\nglass_transition = ' + (GOOD % "degC").replace(
        "value = 1, low = 1, high = 1", "value = 50, low = 50, high = 50"
    )
    catalog = load([write(text)])
    assert catalog.row("material", "mine").curves == catalog.row("material", "pa6_cf").curves


def test_an_own_curve_replaces_the_inherited_one(write):
    text = (
        MINE + "strength = [{ temperature = 60, relative_strength = 0.4, low = 0.3, high = 0.5,"
        ' source = "coupons", sure = "measured", load_time = "2 minute" }]\n'
    )
    (point,) = load([write(text)]).row("material", "my_petg").curves["strength"]
    assert (point.temperature, point.value, point.load_time) == (333.15, 0.4, 120.0)


@pytest.mark.parametrize(
    ("change", "says"),
    [
        (('unit = "MPa"', 'unit = "MPaa"'), '"MPaa", which is no unit. Give one such as MPa'),
        (('unit = "MPa"', 'unit = "mm"'), "of the wrong kind. Give one such as MPa"),
        (('unit = "MPa", ', ""), "has no unit"),
        (("low = 36", "low = 40"), "has low 40 above value 39"),
        (("high = 42", "high = 38"), "has value 39 above high 38"),
        (("high = 42, ", ""), "has no high"),
        (("value = 39", "value = nan"), "has value nan. A finite number is needed"),
        (("high = 42", "high = inf"), "has high inf"),
        (("low = 36", "low = -1"), "has low -1 MPa"),
        (("value = 39", 'value = "39"'), "has value '39'. A number is needed"),
        (("value = 39", "value = true"), "A number is needed"),
        (('source = "coupons", ', ""), "has no source"),
        (('source = "coupons"', 'source = ""'), "has no source"),
        (('source = "coupons"', 'source = "coupon"'), "which is no key of [sources]"),
        ((', sure = "measured"', ""), "has no sureness. sure is one of: read here"),
        (('sure = "measured"', 'sure = "certain"'), 'has sure = "certain"'),
        (("strength_in_plane", "strenght_in_plane"), "Did you mean strength_in_plane"),
        (('like = "petg"', 'like = "pteg"'), 'is "pteg", which is no material. Nearest: petg'),
        (('aliases = ["black petg"]', 'aliases = ["PLA+"]'), 'also means "PLA, toughened (PLA+)"'),
        (('name = "my PETG, black"', "name = 3"), "is 3. Write it as a text"),
        (("{ value = 39, low = 36, high = 42,", "{"), "has no value"),
        (("[sources]", "[units]\ntemperature = 3\n[sources]"), "units is not a table of texts"),
    ],
)
def test_refused_with_place_fault_and_cure(write, change, says):
    assert change[0] in MINE
    path = write(MINE.replace(*change))
    told = refusal(path)
    assert told.startswith(f"{path}: 1 problem\n  ")
    assert says in told


def test_a_message_names_file_row_and_property(write):
    path = write(MINE.replace("low = 36", "low = 40"))
    assert refusal(path) == (
        f"{path}: 1 problem\n"
        "  material.my_petg.strength_in_plane has low 40 above value 39. "
        "Low may not exceed the value."
    )


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("[materials.x]\n", "materials is no kind of row. Kinds: material."),
        ("material = 3\n", "material is no kind of row"),
        ("[material]\nx = 3\n", "material.x is not a table"),
        ("[material.x]\nnote = 'a'\n", "material.x has no density"),
        ("[tube.x]\nbore = " + GOOD % "mm", "tube.x has no outside. Give outside diameter."),
        ("[oring.x]\nsection = [1, 2]\ninside = " + GOOD % "mm", "Write [low, value, high]"),
        ("[oring.x]\nsection = 2\ninside = " + GOOD % "mm", "has no unit"),
        ("[material.x\n", "is no TOML"),
    ],
)
def test_a_malformed_file_is_refused(write, text, says):
    assert says in refusal(write(text))


@pytest.mark.parametrize(
    ("points", "says"),
    [
        ("[]", "is no list of points"),
        ("[{ relative_strength = 1 }]", "point 1 has no temperature"),
        ("[%s, %s]" % ((("{ temperature = 60, relative_strength = 0.4, low = 0.3, high = 0.5,"
                         ' source = "my test", sure = "measured" }'),) * 2),
         "has points out of order"),
        ('[{ temperature = 60, relative_strength = 0.4, low = 0.5, high = 0.5,'
         ' source = "my test", sure = "measured" }]', "point 1 has low 0.5 above value 0.4"),
        ('[{ temperature = 60, relative_strength = 0.4, low = 0.3, high = 0.5,'
         ' source = "my test" }]', "point 1 has no sureness"),
        ('[{ temperature = 60, relative_strength = 0.4, low = 0.3, high = 0.5,'
         ' source = "my test", sure = "measured", load_time = "soon" }]', 'load_time "soon"'),
    ],
)  # fmt: skip
def test_a_bad_curve_is_refused(write, points, says):
    assert says in refusal(write(MINE + f"strength = {points}\n"))


def test_all_problems_of_all_files_at_once(write):
    first = write(MINE.replace("low = 36", "low = 40").replace('"petg"', '"pteg"'), "first.toml")
    second = write("[oring.x]\nsection = 3\n", "second.toml")
    with pytest.raises(CatalogError) as refused:
        load([first, second])
    told = str(refused.value)
    assert f"{first}: 2 problems" in told
    assert f"{second}: " in told
    assert told.index(str(first)) < told.index(str(second))


def test_a_file_that_is_not_there(tmp_path):
    assert "can't be read" in refusal(tmp_path / "nothing.toml")


def test_own_files_beside_the_engine_then_the_users(tmp_path, monkeypatch):
    monkeypatch.setenv("XDG_CONFIG_HOME", str(tmp_path / "config"))
    engine = tmp_path / "engines" / "wren.toml"
    engine.parent.mkdir()
    assert own_files(engine) == ()
    users = tmp_path / "config" / "firstfire" / "catalog.toml"
    users.parent.mkdir(parents=True)
    users.write_text("")
    assert own_files(engine) == (users,)
    beside = engine.parent / "catalog.toml"
    beside.write_text("")
    assert own_files(engine) == (beside, users)
    assert own_files(engine.parent) == (beside, users)
    assert own_files(None) == (users,)


def test_own_files_without_a_config_variable_look_in_the_home(tmp_path, monkeypatch):
    monkeypatch.delenv("XDG_CONFIG_HOME", raising=False)
    monkeypatch.setenv("HOME", str(tmp_path))
    users = tmp_path / ".config" / "firstfire" / "catalog.toml"
    users.parent.mkdir(parents=True)
    users.write_text("")
    assert own_files(None) == (users,)
