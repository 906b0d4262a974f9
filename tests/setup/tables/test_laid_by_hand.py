"""Tables of a controller by hand: what is run where, how it is laid, scaled and written."""

from __future__ import annotations

import math
from types import SimpleNamespace

import numpy as np
import pytest

from firstfire.errors import OutsideValidity
from firstfire.setup.tables import advance, grid, tables, written
from firstfire.setup.tables.grid import Grid
from firstfire.setup.tables.table import Table, table

RPM, DEGREE = math.pi / 30.0, math.pi / 180.0


def at(air=1.0, light=True):
    return SimpleNamespace(air=(air,), light=light, intake=(0.8e5, 0.9e5))


def test_a_place_that_does_not_burn_has_it_from_its_neighbours():
    """Between 1 and 3 lies 2 whatever it breathed; at the end it stands as it breathed."""
    rows = (
        (at(1.0), at(9.0, light=False), at(3.0), at(7.0, light=False)),
        (None, at(4.0), None, at(8.0)),
        (None, at(5.0, light=False), None, None),
    )
    found = Grid(np.arange(4.0), np.arange(3.0), rows)
    assert found.of(lambda one: one.air[0]) == pytest.approx(
        np.array([[1, 2, 3, 7], [4, 4, 6, 8], [5, 5, 5, 5]])
    )
    assert found.missing == 8
    with pytest.raises(OutsideValidity):
        Grid(np.arange(2.0), np.arange(1.0), ((None, None),)).of(lambda one: one.air[0])


def test_places_are_run_from_the_widest_throttle_down(monkeypatch):
    """Three speeds and two openings; told is the share of thirteen by seventeen."""
    told, asked = [], []

    def tried(plain, speed, opening, near, stop):
        asked.append((plain, speed, opening, near, stop))
        return None if (speed, opening) == (200.0, 0.5) else (speed, opening)

    monkeypatch.setattr(grid, "speeds_of", lambda _: np.array([100.0, 200.0, 300.0]))
    monkeypatch.setattr(
        grid, "openings_of", lambda *of: {("plain", "stop"): np.array([0.1, 0.5])}[of]
    )
    monkeypatch.setattr(grid, "tried", tried)
    found = grid.grid("plain", "stop", lambda what, done: told.append((what, done)))
    assert asked == [
        ("plain", 100.0, 0.5, None, "stop"), ("plain", 200.0, 0.5, (100.0, 0.5), "stop"),
        ("plain", 300.0, 0.5, (100.0, 0.5), "stop"), ("plain", 100.0, 0.1, (100.0, 0.5), "stop"),
        ("plain", 200.0, 0.1, (100.0, 0.1), "stop"), ("plain", 300.0, 0.1, (200.0, 0.1), "stop"),
    ]  # fmt: skip
    assert found.at == (
        ((100.0, 0.1), (200.0, 0.1), (300.0, 0.1)), ((100.0, 0.5), None, (300.0, 0.5)),
    )  # fmt: skip
    done = [share for _, share in told]
    assert done == pytest.approx([one / 221 for one in (0, 1, 2, 13, 14, 15)])
    assert told[1][0] == f"throttle 50.0 %, {200 / RPM:.0f} rpm"


def test_a_point_is_run_as_it_is_asked_or_is_none(monkeypatch):
    def breathed(plain, speed, opening, near, stop):
        if stop == "beyond":
            raise OutsideValidity("beyond")
        return plain, speed, opening, near, stop

    monkeypatch.setattr(grid, "breathed", breathed)
    given = ("plain", 100.0, 0.5, "near")
    assert grid.tried(*given, "stop") == (*given, "stop")
    assert grid.tried(*given, "beyond") is None


def test_openings_lie_where_air_and_logarithm_have_their_share(monkeypatch):
    """Of an engine whose air goes as the opening's logarithm both shares are the same.

    24 from 0.04 to 1 are tried, at 0.04^(1 - k/23); by sixteenths it goes straight between them.
    """
    asked = []

    def breathed(plain, speed, opening, near, stop):
        asked.append((plain, speed, near, stop))
        return SimpleNamespace(air=(2.0 + math.log(opening), 2.0 + math.log(opening)))

    made = SimpleNamespace(
        intake=SimpleNamespace(throttle_opening=1.0), use=SimpleNamespace(idle_speed=100.0)
    )
    monkeypatch.setattr(grid, "breathed", breathed)
    monkeypatch.setattr(grid, "speeds_of", lambda _: np.arange(13.0))
    monkeypatch.setattr(
        grid, "first_opening", lambda plain, speed: 0.08 if (plain, speed) == (made, 100.0) else 9
    )
    found = grid.openings_of(made, "stop")

    def between(place):
        low = min(int(place), 22)
        before, after = (40.0 * 25.0 ** (k / 23) for k in (low, low + 1))
        return round(before + (place - low) * (after - before))

    assert (1e3 * found).round(9).tolist() == [between(23 * n / 16) for n in range(17)]
    assert len(asked) == 24
    assert asked[0] == (made, 8.0, None, "stop")
    # half of what lets an idle in, but a fifth of full throttle at most
    monkeypatch.setattr(grid, "first_opening", lambda *_: 0.9)
    made.intake.throttle_opening = 0.5
    assert grid.openings_of(made, "stop")[[0, -1]] == pytest.approx([0.1, 0.5])


def test_openings_that_would_be_the_same_are_a_thousandth_apart(monkeypatch):
    """From 0.001 to 0.01 by the logarithm several round to 1: they then go by whole thousandths."""
    made = SimpleNamespace(
        intake=SimpleNamespace(throttle_opening=0.01), use=SimpleNamespace(idle_speed=100.0)
    )
    monkeypatch.setattr(
        grid, "breathed", lambda _, __, opening, **___: SimpleNamespace(air=(math.log(opening),))
    )
    monkeypatch.setattr(grid, "speeds_of", lambda _: np.arange(13.0))
    monkeypatch.setattr(grid, "first_opening", lambda *_: 0.002)
    assert (1e3 * grid.openings_of(made, None)).round(9).tolist() == list(range(1, 18))


def test_a_straight_line_misses_by_the_worst_field(monkeypatch):
    """Airs of 1, 2, 3 and 1, 2, 7: means of 1.5 and 3.5, against 1.2 and 3.5, a quarter off."""
    rows = ((at(1.0), at(2.0), at(3.0)), (at(1.0), at(2.0), at(7.0)))
    found = Grid(np.array([100.0, 200.0, 300.0]), np.array([0.1, 0.3]), rows)
    told, asked = [], []

    def tried(plain, speed, opening, near, stop):
        asked.append((plain, speed, opening, near, stop))
        return at(1.2 if speed < 200 else 3.5)

    monkeypatch.setattr(grid, "tried", tried)
    plain = SimpleNamespace(cylinders=("one",))
    off = grid.straight_off(plain, found, "stop", lambda _, done: told.append(done))
    assert off == pytest.approx(0.25)
    assert told == pytest.approx([0.0, 0.5])
    assert asked == [
        (plain, 150.0, pytest.approx(0.2), rows[0][0], "stop"),
        (plain, 250.0, pytest.approx(0.2), rows[0][1], "stop"),
    ]
    monkeypatch.setattr(grid, "tried", lambda *_: at(light=False))
    assert grid.straight_off(plain, found) == 0.0


def looked(bounded=False):
    return SimpleNamespace(
        speeds=np.array([100.0, 300.0]), openings=np.array([0.2, 0.6]),
        advance=np.array([[10.0, 20.0], [30.0, 50.0]]) * DEGREE, bounded=np.array([bounded]),
        start=5.0 * DEGREE, notes=("one", "two"),
    )  # fmt: skip


def test_an_advance_is_laid_straight_between_its_places():
    """At 150 rad/s a quarter of the way: 12.5 and 35°; at an opening of 0.3 a quarter of that."""
    places = Grid(np.array([50.0, 150.0, 400.0]), np.array([0.1, 0.3]), ())
    found = advance.advance_of(places, looked())
    assert found.name == "advance_tenth_degree"
    assert found.scale == pytest.approx(math.pi / 1800)
    assert found.over == ("throttle_permille", "speed_rpm")
    # 0.3: 10 + 20/4, 12.5 + 22.5/4 and 20 + 30/4
    assert found.values.tolist() == [[100, 125, 200], [150, 181, 275]]
    assert "bound" not in found.what
    assert "still rose at 60 degrees" in advance.advance_of(places, looked(bounded=True)).what


def test_an_advance_is_looked_for_with_the_kick_back_of_its_own_shaft(monkeypatch):
    shaft = lambda plain, stop: SimpleNamespace(shaft=(plain, stop))  # noqa: E731
    monkeypatch.setattr(advance, "cranked", shaft)
    monkeypatch.setattr(advance, "kick_back", lambda *given: given)
    monkeypatch.setattr(advance, "advance_table", lambda *given, stop: (*given, stop))
    found = advance.looked_for("engine", "plain", "stop")
    assert found == ("engine", "plain", ("plain", ("plain", "stop"), "stop"), "stop")


def sheet(count=2, injector=True):
    told = SimpleNamespace(dead_times=((10.0, 1.9e-3), (12.0, 1.3e-3)), voltage=12.0)
    warm = lambda kelvin, times: SimpleNamespace(temperature=kelvin, times=times)  # noqa: E731
    crank = SimpleNamespace(times=(7e-3,), dead_time=1e-3)
    return SimpleNamespace(
        plain=SimpleNamespace(injector=told, cylinders=(None,) * count), fuel="fuel",
        injector=SimpleNamespace(pulses=(crank,)) if injector else None, faults=(),
        cold=SimpleNamespace(
            start=[warm(263.15, None), warm(303.15, 1.5)], warm_up=[],
            density=[warm(273.15, 1.07), warm(313.15, 0.93)], on=None, primed_map=None,
        ),
    )  # fmt: skip


def test_pulses_ends_and_intake_in_their_own_steps(monkeypatch):
    """3 and 4 ms are 3000 and 4000 µs; 10° before its top is 710° after; 0.8 and 0.9 bar."""
    asked = []

    def pulse_at(plain, fuel, point):
        asked.append((plain, fuel, point.kind, point.at))
        return SimpleNamespace(times=(3e-3, 4e-3), own_ends=(-10.0 * DEGREE, 15.0 * DEGREE))

    monkeypatch.setattr(tables, "pulse_at", pulse_at)
    one, of = at(), sheet()
    places = Grid(np.array([100.0]), np.array([0.5]), ((one,),))
    found = {each.name: each for each in tables._fuel(of, places)}
    assert asked[0] == (of.plain, "fuel", "full", one)
    assert found["pulse_us"].values.tolist() == [[[3000]], [[4000]]]
    assert found["end_tenth_degree"].values.tolist() == [[[7100]], [[150]]]
    assert found["intake_hectopascal"].values.tolist() == [[850]]
    assert found["pulse_us"].over == ("cylinder", "throttle_permille", "speed_rpm")
    assert found["pulse_us"].unit == "1 us"
    assert found["intake_hectopascal"].over == ("throttle_permille", "speed_rpm")


def test_corrections_are_per_cent_by_celsius_and_tenths_of_a_volt():
    """Where four times the fuel don't do it, 400 stand."""
    found = {each.name: each.values.tolist() for each in tables._corrections(sheet())}
    assert found == {
        "dead_tenth_volt": [100, 120], "dead_us": [1900, 1300], "start_celsius": [-10, 30],
        "start_percent": [400, 150], "air_celsius": [0, 40], "air_percent": [107, 93],
    }  # fmt: skip


def test_axes_are_rpm_and_thousandths():
    places = Grid(np.array([600.0, 4000.0]) * RPM, np.array([0.02, 1.0]), ())
    found = {each.name: each.values.tolist() for each in tables._axes(places)}
    assert found == {"speed_rpm": [600, 4000], "throttle_permille": [20, 1000]}
    scales = [each.scale for each in tables._axes(places)]
    assert scales == pytest.approx([math.pi / 30, 1e-3])


def test_constants_begin_with_sizes():
    places = Grid(np.zeros(13), np.zeros(17), ())
    found = [(name, value) for name, value, _ in tables._constants(sheet(), places)]
    assert found[:4] == [("CYLINDERS", 2), ("LOADS", 17), ("SPEEDS", 13), ("DEAD_TIME_US", 1300)]
    assert len(list(tables._constants(sheet(injector=False), places))) == 3


@pytest.mark.parametrize(("off", "kept"), [(0.03, "stays within 3.0 %"), (0.031, "only within")])
def test_notes_say_how_near_the_mixture_stays(off, kept):
    places = Grid(np.zeros(2), np.zeros(2), ((at(), None), (at(), at(light=False))))
    first, _, over, missing = tables._notes(sheet(), places, off)
    assert kept in first
    assert over.startswith("Where 400 percent stand")
    assert missing.startswith("At 2 of 4 places")


@pytest.mark.parametrize("injector", [True, False])
def test_all_tables_are_made_in_turn_and_told_by_tenths(monkeypatch, injector):
    """Fuel to 0.1, places to 0.6, between them to 0.8, then the advance; a start of 5° is 50."""
    told, asked, of, found = [], [], sheet(injector=injector), looked()
    plain = SimpleNamespace(
        spark=SimpleNamespace(source="sensor"), intake=SimpleNamespace(mixture_by="injector")
    )

    def keeps(name, gives):
        def kept(*given, **more):
            asked.append((name, *(one for one in given if not callable(one))))
            tell = more.get("tell") or next((one for one in given if callable(one)), None)
            if tell is not None:
                tell(name, 0.5)
            return gives

        monkeypatch.setattr(tables, name, kept)

    keeps("resolve", plain)
    keeps("fuel_sheet", of)
    keeps("grid", "places")
    keeps("speeds_of", "speeds")
    keeps("openings_of", "openings")
    keeps("_axes", ("axis",))
    keeps("_constants", (("ONE", 1, "one"),))
    keeps("_fuel", ("fuel",))
    keeps("straight_off", 0.02)
    keeps("looked_for", found)
    keeps("advance_of", "advance")
    keeps("_notes", ("note",))
    made = tables.tables("engine", stop="stop", tell=lambda *given: told.append(given))
    places = "places" if injector else Grid("speeds", "openings", ())
    metered = [("_fuel", of, "places"), ("straight_off", plain, "places", "stop")]
    run = [("grid", plain, "stop")]
    axes = [("speeds_of", plain), ("openings_of", plain, "stop")]
    assert asked == [
        ("resolve", "engine"), ("fuel_sheet", "engine"), *(run if injector else axes),
        ("_axes", places), ("_constants", of, places), *(metered if injector else ()),
        ("looked_for", "engine", plain, "stop"), ("advance_of", places, found),
        ("_notes", of, places, 0.02 if injector else None),
    ]  # fmt: skip
    shares = [0.05, 0.35, 0.7, 0.8] if injector else [0.05, 0.8]
    assert [share for _, share in told] == pytest.approx(shares)
    assert made.tables == (("axis", "fuel", "advance") if injector else ("axis", "advance"))
    assert [one[:2] for one in made.constants] == [("ONE", 1), ("START_TENTH_DEGREE", 50)]
    assert made.notes == ("note", "Spark: one.", "Spark: two.")
    assert made.off == (0.02 if injector else None)


def few():
    speeds = Table("speed_rpm", "speed", "1 rpm", RPM, np.array([600, 4000]))
    loads = Table("throttle_permille", "throttle", "0.001", 1e-3, np.array([20, 1000]))
    volts = Table("dead_tenth_volt", "volts", "0.1 V", 0.1, np.array([100, 120]))
    dead = Table("dead_us", "dead", "1 us", 1e-6, np.array([1900, 1300]), ("dead_tenth_volt",))
    over = ("throttle_permille", "speed_rpm")
    flat = Table("flat", "flat", "1", 1.0, np.array([[1, 2], [3, 4]]), over)
    deep = Table("deep", "deep", "1", 1.0, np.array([[[1, 2], [3, 4]]]), ("cylinder", *over))
    engine = SimpleNamespace(name="wren", sha256="abc")
    return tables.TableSet(
        engine, None, (speeds, loads, volts, dead, flat, deep), (("ONE", 1, "one"),), None,
        ("A note.",),
    )  # fmt: skip


def test_files_hold_rows_by_load_and_columns_by_speed(tmp_path):
    found = few()
    names = written.write(found, tmp_path)
    assert set(names) == {one.name for one in tmp_path.iterdir()}
    assert (tmp_path / "flat.csv").read_text("utf-8") == (
        "throttle_permille by speed_rpm,600,4000\n20,1,2\n1000,3,4\n"
    )
    assert (tmp_path / "deep_1.csv").read_text("utf-8") == (tmp_path / "flat.csv").read_text(
        "utf-8"
    )
    assert (tmp_path / "dead_us.csv").read_text("utf-8") == (
        "dead_tenth_volt,dead_us\n100,1900\n120,1300\n"
    )


def test_a_header_says_first_whose_it_is_and_is_96_wide():
    """Words are wrapped at 93, behind three signs."""
    lines = written.header(few()).split("\n")
    assert lines[0].startswith("/* wren: tables for a controller, written by firstfire")
    assert lines[1] == "   Engine file sha256 abc."
    assert lines[2].startswith("   Estimates and no permission.")
    assert "   A note. */" in lines
    assert "static const uint8_t flat[2][2] TABLE_PLACE = {" in lines
    words = " ".join(["12345"] * 40)  # fifteen a line are 15 · 5 + 14, 89; sixteen would be 95
    told = list(written._comment(words))
    assert [len(one) for one in told] == [3 + 89, 3 + 89, 3 + 59 + 3]


def test_a_table_is_of_the_nearest_whole_steps_and_of_the_smallest_type():
    found = table("one", "what", "0.1 V", 0.1, [0.04, 0.06, 25.5])
    assert found.values.tolist() == [0, 1, 255]
    assert found.kind == "uint8_t"
    assert table("one", "", "", 0.1, [25.6]).kind == "uint16_t"
    assert table("one", "", "", 0.1, [-0.1, 3276.7]).kind == "int16_t"
    with pytest.raises(OutsideValidity):
        _ = table("one", "", "", 0.1, [-0.1, 3276.8]).kind
