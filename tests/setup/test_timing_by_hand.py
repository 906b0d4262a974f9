"""Timing by hand: places, the picture, a tooth, steps and words, of stand-ins with round sizes."""

from __future__ import annotations

import math
from types import SimpleNamespace

import pytest

from firstfire.engine.cam_lift import Span
from firstfire.setup.timing import picture, places, steps, text, tooth, words

DEG = math.pi / 180
CRANK = (15e-3, 25e-3, 0.0)
"""Throw, rod and offset: at 90° the rod is 20 mm high, and the piston 20 mm below its top."""


def test_an_events_lengths_on_rim_cam_wheel_and_bore(monkeypatch):
    """580° of crank are 290 of the cam, or -70: of 36 teeth of 3 mm 7 back, 21 mm. 100° are 50, 5
    teeth on, 15 mm. A quarter of a rim of 100 mm is 25 π mm. Deck 0.5 mm, piston 20 down at 90°.
    """
    monkeypatch.setattr(places, "mechanism", lambda _: CRANK)
    monkeypatch.setattr(places, "bottom_after_top", lambda _: math.pi)
    plain = SimpleNamespace(
        cylinders=(None, SimpleNamespace(cylinder=SimpleNamespace(deck=0.5e-3))),
        cam_drive=SimpleNamespace(teeth_cam=36, pitch=3e-3),
        flywheel=SimpleNamespace(thickness=1e-3, diameter=0.1),
    )
    event = SimpleNamespace(cylinder=2, crank=580 * DEG, own=90 * DEG, turn=90 * DEG)
    monkeypatch.setattr(places, "happenings", lambda _: (event,))
    (found,) = places.places(plain)
    assert found.cam / DEG == pytest.approx(-70.0)
    assert 1e3 * found.pulley == pytest.approx(-21.0)
    assert 1e3 * found.rim == pytest.approx(25 * math.pi)
    assert 1e3 * found.depth == pytest.approx(20.5)
    assert found.words == "90° after firing top"
    other = places.place_of(plain, SimpleNamespace(cylinder=2, crank=100 * DEG, own=0.0, turn=0.0))
    assert 1e3 * other.pulley == pytest.approx(15.0)


@pytest.mark.parametrize(
    ("own", "said"),
    [(2.0, "2° after firing top"), (0.04, "at firing top"), (-719.0, "1° after firing top"),
     (172.0, "10° before bottom"), (185.0, "3° after bottom"), (350.0, "10° before overlap top"),
     (361.0, "1° after overlap top"), (502.0, "40° before bottom"), (545.0, "3° after bottom"),
     (719.0, "1° before firing top")],
)  # fmt: skip
def test_a_place_is_told_from_the_nearest_centre(own, said):
    """Of an offset bore, whose bottom is 182° after its top: 542° on the second turn."""
    assert places.where(own * DEG, 182 * DEG) == said


def pictured(monkeypatch, width):
    """A cylinder that fires at 100°, with an inlet of 8 mm that opens by steps from 250 to 290°."""
    events = [("firing-top", 100.0), ("overlap-top", 460.0), ("start-spark", 95.0),
              ("running-spark", 720.0)]  # fmt: skip
    monkeypatch.setattr(picture, "happenings", lambda _: [
        SimpleNamespace(cylinder=1, id=name, crank=at * DEG) for name, at in events
    ])  # fmt: skip
    valve = SimpleNamespace(lift=8e-3)
    asked = []

    def rise(which, span, angle):
        assert (which, span) == (valve, "its span")
        asked.append(angle / DEG)
        return {16: 3e-3, 17: 5e-3, 18: 3e-3, 19: 1e-9}.get(round(angle / DEG / 10 - 0.5), 0.0)

    monkeypatch.setattr(picture, "valve_rise", rise)
    monkeypatch.setattr(picture, "spans", lambda _: {"inlet": "its span"})
    monkeypatch.setattr(picture, "valve_of", lambda parts, which: {"inlet": parts}[which])
    return picture.picture(SimpleNamespace(cylinders=(valve,)), width), asked


def test_a_column_of_the_picture_is_ten_degrees(monkeypatch):
    """Marks stand at a tenth of their degrees; of 3 and 5 of 8 mm the second is more than half;
    the middle of column 0 is 5°, 95° before the firing top."""
    (scale, tops, bar), asked = pictured(monkeypatch, 82)
    for mark in range(0, 721, 90):
        at = 10 + mark // 10
        assert scale[at : at + len(str(mark))] == str(mark)
    assert len(scale) == 10 + 72 + 3
    assert tops == "tops".ljust(10) + " " * 9 + "ST" + " " * 35 + "t" + " " * 24 + "R"
    assert asked == pytest.approx([10 * n - 95 for n in range(72)])
    assert bar == "inlet".ljust(10) + "." * 26 + "=#=" + "." * 43


def test_a_narrow_picture_has_sixty_columns(monkeypatch):
    """Of 12° each; a width of 81 is narrow, and so is one of 70."""
    for width in (81, 70):
        (scale, tops, bar), asked = pictured(monkeypatch, width)
        assert len(scale) == 10 + 60 + 3
        assert scale.index("360") == 10 + 30
        assert tops.index("T") == 10 + 8
        assert tops.index("t", 10) == 10 + 38
        assert tops.index("R") == 10 + 59
        assert len(bar) == 70
        assert asked == pytest.approx([12 * n + 6 - 100 for n in range(60)])


def test_of_two_cylinders_each_has_its_own_lines(monkeypatch):
    monkeypatch.setattr(picture, "happenings", lambda _: [
        SimpleNamespace(cylinder=n, id="firing-top", crank=(n - 1) * math.pi) for n in (1, 2)
    ])  # fmt: skip
    monkeypatch.setattr(picture, "spans", lambda _: {})
    _, first, second = picture.picture(SimpleNamespace(cylinders=(None, None)), 82)
    assert first == "1 tops".ljust(10) + "T"
    assert second == "2 tops".ljust(10) + " " * 18 + "T"


def moved(monkeypatch, teeth, ratio=5.0):
    """A cylinder of ratio 7 whose cam has 36 teeth, each 20° of the crank, some of them late."""
    asked = {}
    valves = SimpleNamespace(inlet="inlet valve", exhaust="exhaust valve", placed="side")
    parts = SimpleNamespace(valves=valves, cylinder=SimpleNamespace(compression_ratio=7.0))
    plain = SimpleNamespace(
        cylinders=(parts,), cam_drive=SimpleNamespace(teeth_cam=36),
        surroundings=SimpleNamespace(air_pressure=1e5),
    )  # fmt: skip

    def rise(valve, span, angle):
        asked[valve] = angle / DEG
        return (span.shuts - span.opens) * 1e-3

    def kept(of, late, *lengths):
        asked["kept"] = (of, late / DEG, *lengths)
        return ratio

    monkeypatch.setattr(tooth, "spans", lambda _: {
        "exhaust": Span(130 * DEG, 370 * DEG), "inlet": Span(350 * DEG, 580 * DEG),
    })  # fmt: skip
    monkeypatch.setattr(tooth, "valve_rise", rise)
    monkeypatch.setattr(tooth, "bottom_after_top", lambda _: 182 * DEG)
    monkeypatch.setattr(tooth, "mechanism", lambda _: CRANK)
    monkeypatch.setattr(tooth, "effective_compression_ratio", kept)
    return tooth.shifted(plain, 0, teeth), asked


@pytest.mark.parametrize("teeth", [-1, 0, 2])
def test_a_cam_some_teeth_late_moves_all_by_twenty_degrees_each(monkeypatch, teeth):
    """The inlet then shuts 38° after a bottom at 182°, and 20° a tooth later. Ratio 5 of 7 is kept,
    and 1 bar squeezed by 5 to the power of 1.3 reads 5^1.3 - 1 bar."""
    row, asked = moved(monkeypatch, teeth)
    late = 20.0 * teeth
    edges = (row.inlet_opens, row.inlet_closes, row.exhaust_opens, row.exhaust_closes)
    assert [edge / DEG - late for edge in edges] == pytest.approx([350, 580, 130, 370])
    assert (asked["inlet valve"], asked["exhaust valve"]) == pytest.approx((360.0, 360.0))
    assert row.inlet_lift == pytest.approx(230 * DEG * 1e-3)
    assert row.exhaust_lift == pytest.approx(240 * DEG * 1e-3)
    assert asked["kept"] == pytest.approx((7.0, 38.0 + late, *CRANK))
    assert row.filling == pytest.approx(5 / 7)
    assert row.gauge == pytest.approx(1e5 * (5**1.3 - 1))
    assert (row.inlet_room, row.exhaust_room) == (None, None)


def test_what_keeps_nothing_reads_nothing(monkeypatch):
    row, _ = moved(monkeypatch, 0, ratio=0.9)
    assert row.filling == pytest.approx(0.9 / 7)
    assert row.gauge is None


def test_room_is_looked_at_every_two_degrees_or_closer(monkeypatch):
    """9° of span in five steps of 1.8°. 1 mm of room, 0.1 mm of travel a degree after 340°, less
    0.8 of a lift that is 1 mm but at the fourth place, 2 mm: 1 + 1.54 - 1.6 = 0.94 mm."""
    asked = []

    def rise(valve, span, angle):
        assert (valve, span.opens) == ("valve", 350 * DEG)
        asked.append(angle / DEG)
        return 2e-3 if len(asked) == 4 else 1e-3

    rooms = {("parts", "valve"): (1e-3, 0.8)}
    monkeypatch.setattr(tooth, "valve_of", lambda parts, which: {"inlet": parts.valve}[which])
    monkeypatch.setattr(tooth, "mechanism", lambda _: CRANK)
    monkeypatch.setattr(tooth, "room_over", lambda parts, valve: rooms[parts.name, valve])
    monkeypatch.setattr(tooth, "piston_travel", lambda angle, *_: 1e-4 * (angle / DEG - 340))
    monkeypatch.setattr(tooth, "valve_rise", rise)
    parts = SimpleNamespace(valves=SimpleNamespace(placed="above"), valve="valve", name="parts")
    room = tooth._room(parts, "inlet", Span(350 * DEG, 359 * DEG))
    assert asked == pytest.approx([350, 351.8, 353.6, 355.4, 357.2, 359])
    assert 1e3 * room == pytest.approx(0.94)


def test_a_stop_is_met_at_other_angles_on_both_sides_of_an_offset_bore(monkeypatch):
    """As of two bores, offset to either side; without an offset, 20 mm down at 90° of CRANK."""
    monkeypatch.setattr(steps, "mechanism", lambda _: CRANK)
    assert steps.stops(None, 20e-3) == pytest.approx((90 * DEG, 90 * DEG))
    monkeypatch.setattr(steps, "mechanism", lambda _: (15e-3, 25e-3, 2e-3))
    monkeypatch.setattr(steps, "angle_at_travel", lambda *asked: asked)
    assert steps.stops(None, 20e-3) == (
        (20e-3, 15e-3, 25e-3, -2e-3), (20e-3, 15e-3, 25e-3, 2e-3),
    )  # fmt: skip


def top_told(monkeypatch, before, after):
    met = {6e-3: (before * DEG, after * DEG)}
    monkeypatch.setattr(steps, "stops", lambda _, travel: met[travel])
    parts = SimpleNamespace(cylinder=SimpleNamespace(stroke=30e-3))
    found = SimpleNamespace(plain=SimpleNamespace(cylinders=(parts,)))
    return " ".join(steps._top(found).do)


def test_the_worked_example_of_a_stop(monkeypatch):
    """A fifth of 30 mm is 6. On a wheel 4° out 46° either side read 318 and 50°, and between them
    lies 4°. 45 and 47° differ by 2: top is 1° from the middle."""
    even = top_told(monkeypatch, 46, 46)
    assert "about 6 mm below its top: about 46° either side" in even
    assert "reads 318° and 50°, top is at 4°:" in even
    assert "offset" not in even
    uneven = top_told(monkeypatch, 45, 47)
    assert "reads 319° and 51°, top is at 5°:" in uneven
    assert "reads 45° before and 47° after. True top is 1° before the halfway mark" in uneven
    assert "True top is 1° after the halfway mark" in top_told(monkeypatch, 47, 45)


PLAIN = SimpleNamespace(
    flywheel=SimpleNamespace(thickness=10e-3, diameter=0.1),
    layout=SimpleNamespace(rotation="clockwise"),
    cam_drive=SimpleNamespace(kind="belt", teeth_cam=36, teeth_crank=18, pitch=5e-3),
)


def test_ten_degrees_of_a_rim_of_100_mm():
    """π · 100 / 36 = 8.7 mm."""
    (said,) = steps._rim(SimpleNamespace(plain=PLAIN)).do
    assert "Ten degrees are 8.7 mm" in said


def test_cylinders_that_differ_are_proved_by_number():
    found = SimpleNamespace(teeth=((), ()))
    assert steps._whose(found, alike=False) == ("Cylinder 1", "Cylinder 2")
    assert steps._whose(found, alike=True) == ("Each cylinder, at its own top",)


@pytest.mark.parametrize(
    ("of", "typed"),
    [({"inlet": Span(345 * DEG, 580 * DEG), "exhaust": Span(130 * DEG, 370 * DEG)},
      "inlet opens=5 deg after top"),
     ({"exhaust": Span(130 * DEG, 370 * DEG)}, "exhaust closes=30 deg after top")],
)  # fmt: skip
def test_an_event_a_tooth_late_is_typed(monkeypatch, of, typed):
    """20° a tooth; half of it is no tooth."""
    monkeypatch.setattr(steps, "spans", lambda _: of)
    found = SimpleNamespace(tooth=20 * DEG, plain=SimpleNamespace(cylinders=(None,)))
    said = " ".join(steps._off(found).do)
    assert "Every event 20° late" in said
    assert "No whole tooth is 10°" in said
    assert f'"{typed}"' in said


@pytest.mark.parametrize(
    ("fires", "said"),
    [(450 * DEG, "fires 450° after cylinder 1: its top comes 90° after cylinder 1's"),
     (270 * DEG, "fires 270° after cylinder 1: its top comes 270° after cylinder 1's"),
     (2 * math.pi - 1e-9, "together; when one fires the other is on overlap."),
     (2 * math.pi + 1e-9, "together; when one fires the other is on overlap."),
     (1e-9, "both pistons are at top together."),
     (3.0 * DEG, "its top comes 3° after")],
)  # fmt: skip
def test_where_the_second_top_is(fires, said):
    assert said in words._second(SimpleNamespace(fires=(0.0, fires)))


def test_how_it_fires_in_a_sentence():
    engine = SimpleNamespace(name="Trial")

    def said(*gaps):
        found = SimpleNamespace(
            engine=engine, plain=PLAIN, order=(1, 2)[: len(gaps)],
            intervals=tuple(gap * DEG for gap in gaps),
        )  # fmt: skip
        return words.opening(found)

    assert "Trial: cylinders fire 1–2, 450° and 270° apart. The crank turns" in said(450, 270)
    assert "cylinders fire 1–2, every 360°." in said(360, 360)
    assert "one cylinder fires every 720°" in said(720)


def test_what_a_tooth_is_worth_in_words():
    found = SimpleNamespace(tooth=20 * DEG, tooth_on_rim=0.0192, plain=PLAIN)
    told = words.tooth_words(found).replace("\u202f", " ")
    assert "cam's 36 is 10° of the cam and 20° of the crank, 19.2 mm on the rim" in told


def test_what_is_assumed_is_told_once_as_a_sentence():
    found = SimpleNamespace(places=[
        SimpleNamespace(event=SimpleNamespace(assumed=why)) for why in ("it is so", "", "it is so")
    ])  # fmt: skip
    assert words.assumed_words(found) == ("It is so.",)


def test_a_row_of_a_tooth_reads_in_millimetres_bar_and_per_cent():
    """0.5 of 1 mm, 8.2 bar, 83 % kept; the cam's shut is 40° after bottom."""
    row = tooth.Shifted(
        teeth=-2, inlet_opens=350 * DEG, inlet_closes=580 * DEG, exhaust_opens=130 * DEG,
        exhaust_closes=370 * DEG, inlet_lift=0.5e-3, exhaust_lift=0.25e-3, filling=0.83,
        gauge=8.2e5, inlet_room=1.5e-3, exhaust_room=2.5e-3,
    )  # fmt: skip
    *_, line = text._teeth(SimpleNamespace(teeth=((row,),)))
    assert line == ("  2 teeth early 40° after bottom        0.50/0.25  83 %    8.2  1.5 mm")
