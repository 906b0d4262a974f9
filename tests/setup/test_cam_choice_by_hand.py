"""The search for cams by hand: made-up worth takes the place of gas that is run."""

from __future__ import annotations

import math
from types import SimpleNamespace

import pytest

from firstfire.errors import OutsideValidity, Stopped
from firstfire.setup.cams import choose
from firstfire.setup.cams.chosen import Breath, Opening, Point

DEG = math.pi / 180
OPENS, CLOSES = "exhaust.opens_before_bottom", "exhaust.closes_after_top"


def point(opens=45.0, closes=10.0, law="polynomial_4567"):
    return Point(law, {OPENS: opens, CLOSES: closes}, {"exhaust": 4e-3})


def search_of(breath, filling=0.8, tried=0, refused=0):
    """A search that is worth what is made up of a point, and tells what it ran."""
    ran = []

    def run(at):
        ran.append(at)
        found.tried += 1
        return breath(at), {"opens": at.angles[OPENS]}

    found = SimpleNamespace(
        run=run, worth=lambda at: run(at)[0].filling, ran=ran, tried=tried, refused=refused,
        best=(filling, {}),
    )  # fmt: skip
    return found


def test_what_can_not_be_run_is_worth_less_than_anything():
    nothing = choose._NONE
    assert (nothing.filling, nothing.work) == (-math.inf, -math.inf)
    assert choose._Search(None, (), None, None).best == (-math.inf, {})


def search_with(monkeypatch, filled, **known):
    """A real search on a stand-in of an engine that fills so."""
    shares = []
    found = choose._Search(
        "engine", (300.0,), lambda: False, lambda _, share: shares.append(share), **known
    )
    monkeypatch.setattr(choose, "_values", lambda at: {"of": at})
    monkeypatch.setattr(choose, "_sprung", lambda _, put: put if put["of"] else None)
    monkeypatch.setattr(choose, "with_values", lambda engine, put: (engine, put))
    monkeypatch.setattr(choose, "resolve", lambda one: one)

    def breathing(plain, speeds, _stop):
        assert (plain[0], speeds) == ("engine", (300.0,))
        return Breath(filled[plain[1]["of"]], 5e5)

    monkeypatch.setattr(choose, "breathing", breathing)
    return found, shares


def test_a_search_tells_how_far_it_is_and_keeps_its_best(monkeypatch):
    """64 pairs and 8 openings are 72: 10 run and 8 refused are a quarter, one more 19/72.

    Run again it is not run anew; what can't be made is counted apart.
    """
    search, shares = search_with(monkeypatch, {"a": 0.7, "b": 0.8}, tried=10, refused=8)
    assert search.worth("a") == 0.7
    assert search.worth("b") == 0.8
    assert search.worth("a") == 0.7
    assert search.best == (0.8, {"of": "b"})
    assert search.worth("") == -math.inf
    assert (search.tried, search.refused) == (12, 9)
    assert shares == pytest.approx([18 / 72, 19 / 72, 20 / 72])
    search.stop = lambda: True
    with pytest.raises(Stopped):
        search.worth("a")


def test_all_but_done_is_no_more_than_ninety_nine_per_cent(monkeypatch):
    search, shares = search_with(monkeypatch, {"a": 0.7}, tried=70, refused=30)
    search.worth("a")
    assert shares == [0.99]


def test_a_pair_of_cams_is_worth_the_mean_of_cylinders_and_speeds(monkeypatch):
    """0.8 and 0.9, then 0.7 and 0.6: 0.75; and 5, 6, 5 and 4 bar are 5."""
    filled = {100.0: ((0.8, 5e5), (0.9, 6e5)), 200.0: ((0.7, 5e5), (0.6, 4e5))}

    def at(plain, _kind, _why, speed, warm, spark, **_):
        assert (plain, warm, spark) == ("plain", "warm", speed / 1000.0)
        each = [SimpleNamespace(filling_trapped=f, imep_net=w) for f, w in filled[speed]]
        return SimpleNamespace(fired=SimpleNamespace(cycle=SimpleNamespace(cylinders=each)))

    def spark(plain, speed, *, starting):
        assert (plain, starting) == ("plain", False)
        return speed / 1000.0

    monkeypatch.setattr(choose, "operating_point", at)
    monkeypatch.setattr(choose, "assumed_warm", lambda _: "warm")
    monkeypatch.setattr(choose, "spark_angle", spark)
    found = choose.breathing("plain", (100.0, 200.0), lambda: False)
    assert found == pytest.approx((0.75, 5e5))
    assert choose.filling("plain", (100.0, 200.0), lambda: False) == pytest.approx(0.75)

    def not_at_all(*_, **__):
        raise OutsideValidity("No.")

    monkeypatch.setattr(choose, "operating_point", not_at_all)
    assert choose.breathing("plain", (100.0,), lambda: False) == (-math.inf, -math.inf)


@pytest.mark.parametrize(
    ("worked", "law", "start"),
    [("cam", "cycloidal", "cycloidal"), ("suction", "cycloidal", "harmonic"),
     ("cam", "table", "polynomial_4567")],
)  # fmt: skip
def test_a_search_starts_from_the_files_cams_in_degrees(worked, law, start):
    inlet = SimpleNamespace(worked=worked, cam_law=law, opens_before_top=10 * DEG,
                            closes_after_bottom=50 * DEG, lift=5e-3)  # fmt: skip
    exhaust = SimpleNamespace(cam_law="harmonic", opens_before_bottom=45 * DEG,
                              closes_after_top=12 * DEG, lift=4e-3)  # fmt: skip
    valves = SimpleNamespace(inlet=inlet, exhaust=exhaust)
    found = choose._start(SimpleNamespace(cylinders=[SimpleNamespace(valves=valves)]))
    both = {"inlet.opens_before_top": 10.0, "inlet.closes_after_bottom": 50.0}
    assert found.angles == pytest.approx(
        {OPENS: 45.0, CLOSES: 12.0} | (both if worked == "cam" else {})
    )
    assert found.lifts == {"exhaust": 4e-3} | ({"inlet": 5e-3} if worked == "cam" else {})
    assert found.law == start


def test_each_step_goes_both_ways_but_not_for_when_the_exhaust_opens():
    assert list(choose._moves(point(), 8.0)) == [
        (CLOSES, 8.0), (CLOSES, -8.0), ("exhaust", 8.0), ("exhaust", -8.0),
    ]  # fmt: skip


def test_a_search_climbs_by_eight_degrees_and_then_by_four():
    """Filled best when it closes 30° late: from 10° to 18 and 26°; 34° is as far off, then 30°.

    A thousandth of filling is to be gained: 0.01 a degree is.
    """
    search = search_of(lambda at: Breath(0.9 - 0.01 * abs(at.angles[CLOSES] - 30.0), 5e5))
    best = choose._climb(search, point())
    assert best.angles[CLOSES] == 30.0
    assert best.lifts == {"exhaust": 4e-3}
    laws = [at.law for at in search.ran[:4]]
    assert laws == ["polynomial_4567", "polynomial_345", "modified_sine", "cycloidal"]


def test_half_a_thousandth_of_filling_is_no_gain():
    search = search_of(lambda at: Breath(0.8 + 5e-4 * (at.angles[CLOSES] != 10.0), 5e5))
    assert choose._climb(search, point()).angles[CLOSES] == 10.0


@pytest.mark.parametrize(("refused", "closes"), [(23, 18.0), (24, 10.0)])
def test_after_sixty_four_pairs_no_further_round_is_begun(refused, closes):
    """35 run, 24 refused, four laws and the best of them once more are 64.

    One less, and one round of four at 8° goes from 10° to 18° and no further.
    """
    search = search_of(
        lambda at: Breath(0.7 + 0.01 * min(at.angles[CLOSES], 26.0), 5e5), tried=35, refused=refused
    )
    assert choose._climb(search, point()).angles[CLOSES] == closes


def test_the_exhaust_opens_when_a_cycle_works_most():
    """At 61°: later is tried first, and worse; then 53, 61 and 69°, then 4° to both sides."""
    search = search_of(
        lambda at: Breath(0.8, 5e5 * (1.0 - 1e-3 * (at.angles[OPENS] - 61.0) ** 2 / 4.0))
    )
    found = choose._open(search, point(), 0.75)
    assert [at / DEG for at in found.tried] == pytest.approx([37, 53, 61, 69, 57, 65])
    assert (found.before / DEG, found.after / DEG) == pytest.approx((45.0, 61.0))
    # 16² × 10⁻³/4 = 0.064 less of 5 bar where it began
    assert (found.work_before, found.work_after) == pytest.approx((4.68e5, 5e5))
    assert search.best == (0.8, {"opens": 61.0})
    assert search.ran[0].angles == point().angles


@pytest.mark.parametrize(("more", "after"), [(1.0015, 45.0), (1.0025, 53.0)])
def test_two_thousandths_of_work_pay(more, after):
    search = search_of(lambda at: Breath(0.8, 5e5 * (more if at.angles[OPENS] == 53.0 else 1.0)))
    assert choose._open(search, point(), 0.75).after / DEG == pytest.approx(after)


@pytest.mark.parametrize(("less", "after"), [(0.5e-3, 53.0), (1.5e-3, 45.0)])
@pytest.mark.parametrize(("best", "before"), [(0.8, 0.75), (0.75, 0.8)])
def test_a_thousandth_of_filling_may_be_lost_for_work(less, after, best, before):
    """Of the best found, or of the file's own where that is more."""
    search = search_of(
        lambda at: Breath(0.8 - less * (at.angles[OPENS] > 45.0),
                          5e5 * (1.1 if at.angles[OPENS] == 53.0 else 1.0)), best,
    )  # fmt: skip
    assert choose._open(search, point(), before).after / DEG == pytest.approx(after)


def test_no_more_than_eight_openings_are_tried():
    """Ever more work the earlier: 37°, and then seven more by 8°."""
    search = search_of(lambda at: Breath(0.8, 1e4 * at.angles[OPENS]))
    found = choose._open(search, point(), 0.75)
    assert [at / DEG for at in found.tried] == pytest.approx([37, 53, 61, 69, 77, 85, 93, 101])
    search = search_of(lambda _: choose._NONE)
    assert choose._open(search, point(), 0.75) is None


def test_values_are_written_in_tenths_of_a_degree_and_hundredths_of_a_millimetre():
    assert choose._values(point(45.04)) == {
        "valves.exhaust.opens_before_bottom": "45.0 deg",
        "valves.exhaust.closes_after_top": "10.0 deg",
        "valves.exhaust.cam_law": "polynomial_4567", "valves.exhaust.lift": "4.00 mm",
    }  # fmt: skip


def plain_of():
    valves = SimpleNamespace(
        inlet=SimpleNamespace(worked="suction"), exhaust=SimpleNamespace(worked="cam")
    )
    return SimpleNamespace(cylinders=[SimpleNamespace(valves=valves)])


@pytest.mark.parametrize("holds", [True, False])
def test_springs_are_two_hundredths_stronger_than_the_least_that_holds(monkeypatch, holds):
    """1.02 × 30 N are 30.6: 31 N. 1.02 × 2000 N/m are 2040: 41 steps of 50, 2.05 N/mm."""
    plain, line = plain_of(), SimpleNamespace(preload=30.0, rate=2000.0)
    wound, given = [], []

    def with_values(engine, put):
        assert engine == "engine"
        given.append(put)
        return plain

    monkeypatch.setattr(choose, "with_values", with_values)
    monkeypatch.setattr(choose, "resolve", lambda one: one)
    monkeypatch.setattr(choose, "profile", lambda *of: of)
    monkeypatch.setattr(choose, "top_speed", lambda _: 300.0)
    monkeypatch.setattr(choose, "needed_line", lambda _, speed: line if speed == 300.0 else None)
    monkeypatch.setattr(choose, "winding", lambda *of: wound.append(of))
    monkeypatch.setattr(choose, "_holds", lambda *of: holds and of == (plain, "exhaust"))
    put = choose._sprung("engine", {"a": 1})
    sprung = {"a": 1, "valves.exhaust.spring_preload": "31 N",
              "valves.exhaust.spring_rate": "2.05 N/mm"}  # fmt: skip
    assert put == (sprung if holds else None)
    assert given == [{"a": 1}, sprung]
    assert wound == [((plain.cylinders[0], "exhaust", 241), line, 300.0)]

    def none(*_):
        raise OutsideValidity("No spring fits.")

    monkeypatch.setattr(choose, "winding", none)
    assert choose._sprung("engine", {"a": 1}) is None


@pytest.mark.parametrize(
    ("faults", "numbers", "holds"), [([], [1, 1], True), ([], [1, 0], False), (["x"], [1], False)]
)
def test_cams_hold_that_can_be_made_and_keep_every_limit(monkeypatch, faults, numbers, holds):
    plain = plain_of()
    monkeypatch.setattr(
        choose.makeable, "faults", lambda *of: faults if of == (plain, "exhaust") else ["no"]
    )
    monkeypatch.setattr(choose.makeable, "line_width", lambda _: 4e-4)
    monkeypatch.setattr(choose, "profile", lambda *_: "made")

    def told(*of):
        assert of == (plain, "made", 4e-4)
        return [SimpleNamespace(holds=bool(one)) for one in numbers]

    monkeypatch.setattr(choose, "numbers", told)
    assert choose._holds(plain, "exhaust") is holds


def test_what_was_found_is_kept_where_it_is_better(monkeypatch):
    """From 0.75 to 0.8, at the file's own speeds; nothing where it is no better than before."""
    plain = SimpleNamespace(use=SimpleNamespace(full_throttle_speeds=(200.0, 400.0)))
    same = Opening(0.8, 0.8, 5e5, 5e5, ())

    def climb(search, start):
        assert (search.engine, search.speeds, start) == ("engine", (200.0, 400.0), "start")
        search.best = 0.8, {"a": 1}
        search.tried = 3
        return "here"

    before = 0.75
    monkeypatch.setattr(choose, "resolve", lambda _: plain)
    monkeypatch.setattr(
        choose, "filling", lambda *of: before if of[:2] == (plain, (200.0, 400.0)) else 0
    )
    monkeypatch.setattr(choose, "_start", lambda _: "start")
    monkeypatch.setattr(choose, "_climb", climb)
    monkeypatch.setattr(
        choose,
        "_open",
        lambda _, here, filled: same if (here, filled) == ("here", before) else None,
    )
    found = choose.choose("engine")
    assert (found.values, found.before, found.after) == ({"a": 1}, 0.75, 0.8)
    assert (found.speeds, found.tried, found.finished) == ((200.0, 400.0), 3, True)
    assert found.opening == same
    before = 0.85
    found = choose.choose("engine")
    assert (found.values, found.before, found.after) == ({}, 0.85, 0.85)
