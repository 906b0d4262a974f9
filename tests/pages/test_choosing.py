"""Rows of the catalog for one place: each really put there, and said why where it can't fit."""

import pytest
from tests.pages.stood_in import WREN, asked, doing, never

from firstfire.errors import Stopped
from firstfire.pages.answers.choosing import Offer, nearest, offers
from firstfire.pages.answers.quick import Quick


def by_key(engine, path):
    return {one.key: one for one in offers(engine, path, never)}


def test_a_seal_fits_whose_stretch_is_borne(wren):
    """A piston seal is stretched by 1 to 5 % onto its groove (Parker O-Ring Handbook, 4.1.2)."""
    found, rows = by_key(wren, "rings.oring"), wren.catalog
    like = [k for k in found if abs(rows.row("oring", k)["section"].si - 1.78e-3) < 1e-6]
    groove = 35.3e-3  # of a seal of that section in this bore, as a drawing of it says
    stretch = {key: groove / rows.row("oring", key)["inside"].si - 1 for key in like}
    fits = [stretch[key] for key in like if not found[key].why_not]
    others = [stretch[key] for key in like if found[key].why_not]
    # A little beyond the rule is told as a way to fail, and not refused.
    assert all(not 0.01 <= one <= 0.05 for one in others)
    assert all(-0.02 < one < 0.10 for one in fits)
    assert 0 < sum(found[key].why_not == "" for key in like) < len(like)


def test_a_bearing_too_large_for_the_throw_says_so_with_the_cure(wren):
    found = by_key(wren, "crank.main_bearing")
    assert found["6205"].why_not.startswith("crank.main_journal_diameter is 25 mm")
    assert found[str(wren.values(1).spoken("crank.main_bearing").value)].why_not == ""
    assert "dynamic load 14.4 kN" in found["6205"].does


def test_what_is_not_known_of_a_material_is_said(wren):
    found = by_key(wren, "head.material")
    rows = wren.catalog
    bare = [key for key in found if rows.row("material", key).get("continuous_use") is None]
    there = rows.row("material", "pa6_cf").get("continuous_use") is not None
    assert there
    assert all("continuous use" in found[key].lacks for key in bare)
    assert "continuous use" not in found["pa6_cf"].lacks


def test_what_is_of_the_same_structure_is_told_apart(wren):
    found = by_key(wren, "rings.material")  # fkm, a rubber
    assert found["nbr"].like
    assert not found["petg"].like
    assert all(one.like for one in offers(wren, "crank.main_bearing", never))


def test_something_newer_ends_it(wren):
    with pytest.raises(Stopped):
        list(offers(wren, "rings.oring", lambda: True))


def test_the_nearest_that_can_not_fit_are_told_and_the_others_counted():
    each = [Offer(str(n), str(n), "", "" if n == 50 else "no", "") for n in range(100)]
    fit, others, more = nearest(each, "50")
    assert [one.key for one in fit] == ["50"]
    assert [int(one.key) for one in others] == [*range(44, 50), *range(51, 57)]
    assert more == 87


def test_choices_come_behind_the_answer_and_again_with_each_change():
    quick = Quick()
    first = list(quick.answers(asked(event="cranking", choosing="crank.main_bearing"), never))
    assert [one.kind for one in first][-1] == "choices"
    html = str(first[-1].data["html"])
    assert html.index("data-choose") < html.index("Can't fit here") < html.index("25 mm")
    other = WREN.replace('bore = "40 mm"', 'bore = "41 mm"')
    again = asked(other, 2, event="cranking", choosing="crank.main_bearing")
    assert list(quick.answers(again, never))[-1].kind == "choices"


def test_only_a_place_that_names_a_row_is_asked_for(hub):
    doing(hub, {"do": "choose", "path": "crank.main_bearing"})
    assert hub.office.asked[-1].choosing == "crank.main_bearing"
    heard = doing(hub, {"do": "choose", "path": "cylinder.bore"}, {"do": "choose", "path": "x"})
    assert heard.last("say")
    assert hub.office.asked[-1].choosing == "crank.main_bearing"
    doing(hub, {"do": "choose", "path": ""})
    assert hub.office.asked[-1].choosing == ""
