"""A start as a page: whole, quiet, and its pictures show what the account has."""

import itertools
import math
import re
from dataclasses import replace
from pathlib import Path

import pytest
from tests.report.reading import NAMESPACE, SVG, by_id, elements, strict, words
from tests.report.test_browser import _SIZES, Opened

import firstfire as ff
from firstfire.engine.resolve import resolve
from firstfire.errors import CannotWrite, FirstfireError
from firstfire.report.charts.start_kick import kick_chart
from firstfire.report.charts.start_odds import odds_chart
from firstfire.report.charts.start_pressure import peaks_chart
from firstfire.report.charts.start_speeds import run_away_chart, torque_by_speed
from firstfire.report.charts.start_story import story_charts
from firstfire.report.clean import clean
from firstfire.report.start import start_report, write_start_report
from firstfire.runs.start.account import account, heard_at
from firstfire.runs.start.asked import Asked
from firstfire.runs.start.changes import Change
from firstfire.runs.start.idle import Idling
from firstfire.verdict.facts.cautions import cautions
from firstfire.verdict.start.plan import plan
from firstfire.verdict.start.text import card
from firstfire.verdict.start.words import sentence, story

WREN = Path(__file__).resolve().parents[2] / "engines" / "wren.toml"
RPM, DEG = math.pi / 30, math.pi / 180


@pytest.fixture(scope="module")
def wren():
    engine = ff.read(WREN)
    asked = Asked(seconds=3.0, after=1.0, seed=1, let_go_at=heard_at(resolve(engine)))
    return account(engine, asked, count=8, tries=1)


def troubled(found):
    """Half of the engines die, each third spark misses, 40° throw it back; a change helps."""
    sparks = [
        replace(one, missed="lean" if place % 3 == 0 else None)
        for place, one in enumerate(found.lived.sparks)
    ]
    one = found.odds.each[0]
    each = tuple(
        replace(one, why=None if place > 3 else "dies", started_at=1 if place > 3 else None,
                gauge=1e5 * (5 + place))
        for place in range(8)
    )  # fmt: skip
    change = Change("Fit a flywheel of 0.0068 kg*m^2", {"flywheel.inertia": "0.0068 kg*m^2"}, 0.9,
                    0.3)  # fmt: skip
    return replace(
        found,
        lived=replace(found.lived, sparks=tuple(sparks)),
        odds=replace(found.odds, each=each),
        kick=replace(found.kick, strong=40 * DEG, mean=55 * DEG),
        changes=(change,),
    )


def never_over(found):
    """No spark comes, nothing runs."""
    cranked = replace(found.cranked, over=False, mean_speed=0.0, least_speed=0.0, gauge=1e-7)
    kicked = replace(found.kick, true=math.nan, strong=math.inf, mean=math.inf, thrown=None)
    return replace(
        found, cranked=cranked, kick=kicked, least=math.inf, weak_least=math.inf,
        lived=replace(found.lived, sparks=(), let_go=None), runs_away=None,
        strong=replace(found.strong, volts=None), idling=Idling(None, 0.0, math.nan),
    )  # fmt: skip


@pytest.fixture(scope="module", params=[lambda one: one, troubled, never_over])
def each(request, wren):
    found = request.param(wren)
    return found, start_report(found)


@pytest.fixture(scope="module")
def tree(each):
    return strict(each[1])


def flat(text):
    return " ".join(text.split())


def test_its_names_fit_together_and_nothing_is_fetched(each, tree):
    page = each[1]
    ids = [e.get("id") for e in tree.iter() if e.get("id")]
    assert len(ids) == len(set(ids))
    asked = [e.get("href")[1:] for e in tree.iter() if (e.get("href") or "").startswith("#")]
    assert set(asked) <= set(ids)
    assert set(re.findall(r"url\(#([^)]+)\)", page)) <= set(ids)
    assert not re.findall(r"""(?:src|href|url\()\s*=?\s*["'(]?\s*(?:https?:)?//""", page)
    assert len(page.encode()) < 800_000
    assert (
        "nan" not in flat(words(next(elements(tree, "main")))).lower().replace("nano", "").split()
    )


def test_headings_go_down_one_step_at_a_time(tree):
    levels = [int(e.tag[-1]) for e in tree.iter() if re.fullmatch(NAMESPACE + "h[1-6]", str(e.tag))]
    assert levels.count(1) == 1
    assert all(b <= a + 1 for a, b in itertools.pairwise(levels))


def test_pictures_are_named_and_the_rest_is_hidden_from_readers(tree):
    charts = [e for e in tree.iter(SVG + "svg") if e.get("role") == "img"]
    assert len(charts) >= 5
    for chart in charts:
        said = [words(by_id(chart, name)) for name in chart.get("aria-labelledby").split()]
        assert all(len(text) > 3 for text in said)
    others = [e for e in tree.iter(SVG + "svg") if e.get("role") != "img"]
    assert all(e.get("aria-hidden") == "true" for e in others)
    assert all(th.get("scope") in ("col", "row") for th in elements(tree, "th"))


def test_all_that_is_said_stands_there(each, tree):
    found = each[0]
    text = flat(words(next(elements(tree, "main"))))
    assert flat(words(by_id(tree, "sentence"))) == flat(sentence(found))
    for one in story(found):
        assert flat(one.what) in text
    for name, said in card(found):
        assert name in text
        assert flat(said) in text
    for stage in plan(found):
        assert all(flat(w) in text for w in (stage.do, stage.go, stage.no_go, stage.minds))
    for one in cautions(found.engine, found.plain):
        assert flat(one.text) in text
    assert "only after that cylinder has held liquid" in text
    if found.changes:
        assert "0.0068 kg*m^2" in text
        assert "90 in 100, was 30 in 100" in text


def test_why_no_change_is_told(wren):
    def said(found):
        return flat(words(strict(start_report(replace(found, changes=())))))

    dies = troubled(wren)
    assert "None of what was tried helps." in said(dies)
    stopped = replace(dies, odds=replace(dies.odds, stopped=True))
    assert "It was stopped before a change was tried." in said(stopped)
    assert "Nothing: all that were drawn start." in said(wren)


def test_faults_that_it_was_given_are_named(wren):
    text = flat(words(strict(start_report(wren, ["ring_leak=1 mm^2"]))))
    assert "With the fault: ring_leak=1 mm^2." in text


def test_a_name_of_any_kind_is_text(wren):
    name = '</title><script>alert(1)</script>{{ 7 * 7 }}\u202e" onerror="x'
    page = start_report(replace(wren, engine=replace(wren.engine, name=name)))
    tree = strict(page)
    assert words(next(elements(tree, "h1"))) == clean(name).strip()
    assert len(list(elements(tree, "script"))) == 1
    assert "\u202e" not in page


def classes(chart, kind):
    """Pieces of a picture with just these classes."""
    return re.findall(rf'<(?:line|circle|rect|polyline) class="{kind}"([^>]*)>', chart.svg)


def test_every_spark_has_a_stroke_or_a_cross(wren):
    found = troubled(wren)
    missed = sum(one.missed is not None for one in found.lived.sparks)
    for chart in story_charts(found):
        assert len(classes(chart, "mark")) == len(found.lived.sparks) - missed
        assert len(classes(chart, "limit")) == 2 * missed
        numbers = re.findall(r'class="label strongly"[^>]*>(\d+)<', chart.svg)
        assert numbers == [str(n + 1) for n in range(len(story(found)))]


def test_the_curve_of_the_story_is_the_speed_of_every_moment(wren):
    """Read back by its scales, at 0.5 and 1 s: within 1 % of the axis."""
    desk, _ = story_charts(wren)
    (low, high, left, right, _), (slow, fast, foot, top, _) = (
        map(float, re.search(rf'data-{axis}="([^"]+)"', desk.svg).group(1).split()) for axis in "xy"
    )
    points = re.search(r'class="curve strong" points="([^"]+)"', desk.svg).group(1).split()
    places = [tuple(map(float, point.split(","))) for point in points]
    times = [low + (x - left) / (right - left) * (high - low) for x, _ in places]
    speeds = [slow + (y - foot) / (top - foot) * (fast - slow) for _, y in places]
    import numpy as np

    for second in (0.5, 1.0):
        is_ = np.interp(second, wren.lived.spun.time, wren.lived.spun.speed) / RPM
        assert np.interp(second, times, speeds) == pytest.approx(is_, abs=0.01 * fast)


def test_a_peak_for_each_cycle_filled_where_it_burned(wren):
    found = troubled(wren)
    chart = peaks_chart(found)
    missed = sum(one.missed is not None for one in found.lived.sparks)
    assert len(classes(chart, "open")) == missed
    assert len(classes(chart, "dot")) == len(found.lived.sparks) - missed
    assert f"({missed} of {len(found.lived.sparks)})" in chart.description
    assert peaks_chart(never_over(wren)) is None


def test_odds_rise_where_the_gauge_tells(wren):
    """Four that show 5 to 8 bar die, four that show 9 to 12 start: from 8.5 bar, all do."""
    chart = odds_chart(troubled(wren))
    assert len(classes(chart, "mark")) == 8
    assert len(classes(chart, "centre")) == 1
    assert "From 8.5" in chart.description
    assert "No reading" not in odds_chart(wren).description
    slow, fast, foot, top, _ = map(
        float, re.search(r'data-y="([^"]+)"', chart.svg).group(1).split()
    )
    points = re.search(r'class="curve strong" points="([^"]+)"', chart.svg).group(1).split()
    shares = [slow + (float(p.split(",")[1]) - foot) / (top - foot) * (fast - slow) for p in points]
    assert shares[0] == pytest.approx(50, abs=0.5)
    assert shares[-1] == pytest.approx(100, abs=0.5)


def test_kick_back_is_hatched_from_the_angle_on(wren):
    chart = kick_chart(troubled(wren))
    low, high, left, right, _ = map(
        float, re.search(r'data-x="([^"]+)"', chart.svg).group(1).split()
    )
    begins = [
        float(re.search(r' x="([\d.]+)"', one).group(1)) for one in classes(chart, "bar fails")
    ]
    angles = [low + (x - left) / (right - left) * (high - low) for x in begins]
    assert angles == [pytest.approx(55, abs=0.3), pytest.approx(40, abs=0.3)]
    assert "Hatched" in chart.description
    assert not classes(kick_chart(wren), "bar fails")
    free = kick_chart(never_over(wren))
    assert not classes(free, "bar fails")
    assert "Hatched" not in free.description


def test_limits_stand_across_the_run_away(wren):
    chart = run_away_chart(wren)
    assert "its limiter, 5000 rpm" in chart.svg
    assert "inlet valve floats off its cam" in chart.svg
    assert run_away_chart(never_over(wren)) is None


def test_gas_friction_and_what_is_left_are_three_curves(wren):
    names = re.findall(r'data-name="([^"]+)"', torque_by_speed(wren).svg)
    assert names == ["gas", "friction and load", "left"]


def test_a_file_that_is_there_stays_and_another_ending_is_refused(wren, tmp_path):
    file = tmp_path / "start.html"
    write_start_report(wren, file)
    assert file.read_text(encoding="utf-8") == start_report(wren)
    with pytest.raises(CannotWrite, match="stays as it is"):
        write_start_report(troubled(wren), file)
    assert file.read_text(encoding="utf-8") == start_report(wren)
    write_start_report(troubled(wren), file, overwrite=True)
    assert "was 30 in 100" in file.read_text(encoding="utf-8")
    with pytest.raises(FirstfireError, match=r"ends in \.html"):
        write_start_report(wren, tmp_path / "start.txt")
    assert [one.name for one in tmp_path.iterdir()] == ["start.html"]


def test_a_browser_finds_it_silent_and_no_wider_than_its_screen(wren, tmp_path, browser):
    for name, made in (("starts", wren), ("troubled", troubled(wren))):
        file = tmp_path / f"{name}.html"
        write_start_report(made, file)
        for width, scheme in ((320, "dark"), (390, "light"), (1200, "light")):
            with Opened(browser, file, width, color_scheme=scheme) as opened:
                wide = opened.page.evaluate("document.documentElement.scrollWidth")
                outside = [u for u in opened.asked if not u.startswith(("data:", file.as_uri()))]
                assert opened.said == []
                assert outside == []
                assert wide <= width
                shown = "e => e.getClientRects().length > 0"
                desk = opened.page.eval_on_selector(".for-desk svg", shown)
                narrow = opened.page.eval_on_selector(".for-narrow svg", shown)
                assert (desk, narrow) == (width > 640, width < 640)


def test_what_is_for_the_eye_only_is_no_smaller_than_nine_pixels(wren, tmp_path, browser):
    file = tmp_path / "start.html"
    write_start_report(troubled(wren), file)
    with Opened(browser, file, 390) as opened:
        sizes = opened.page.evaluate(_SIZES)
    assert len(sizes) > 30
    assert [said for size, said in sizes if size < 9.0] == []
