"""A step's length, stages, error and implicit part, and what is due, in round numbers."""

from __future__ import annotations

import math
from types import SimpleNamespace

import numpy as np
import pytest

from firstfire.cycle import due, implicit, kernel, stepper
from firstfire.cycle.layout import (
    AIR,
    AMOUNT,
    ANGLE,
    BURNED,
    CYLINDER_SIZE,
    CYLINDER_SUMS,
    DURATION,
    FACTORS,
    FIXED,
    FUEL,
    LIFT,
    PHASE,
    PRESSURE,
    PROGRESS,
    SHAFT_SIZE,
    SPEED,
    SUCTION_SIZE,
    TEMPERATURE,
    VESSEL,
    VOLUME_HEAT,
    VOLUME_SIZE,
    VOLUME_SUMS,
    WITHIN,
    ZONE_AIR,
    ZONE_BURNED,
    ZONE_TEMPERATURE,
)

CYCLE = 4 * math.pi
ALLOWED = kernel.allowed.py_func


def place(row, what):
    return SHAFT_SIZE + row * VOLUME_SIZE + what


# How long a step is


@pytest.mark.parametrize(
    ("left", "speed", "target", "longest"),
    [
        (9.0, 10.0, 99.0, 0.02),  # 0.2 rad at 10 rad/s
        (9.0, -10.0, -99.0, 0.02),
        (9.0, 1.0, 99.0, 0.1),  # by the setting
        (0.01, 1.0, 99.0, 0.01),  # all that is left
        (9.0, 10.0, 1.15, 0.015),  # to the angle
        (9.0, 10.0, 1.3, 0.015),  # half of 0.03
        (9.0, 10.0, 1.5, 0.02),
        (9.0, 0.0, 1.0, 0.1),
    ],
)
def test_a_step_is_no_longer_than_it_may_be(left, speed, target, longest):
    """0.1 s, or 0.2 rad; from 1 rad on two even steps rather than a long one and a sliver."""
    setting = SimpleNamespace(largest_time=0.1, largest_angle=0.2)
    found = kernel.longest_step.py_func(setting, left, 1.0, speed, target)
    assert found == pytest.approx(longest)


def stepped(monkeypatch, errors, *, step, longest, turn=1.0, shares=(), **other):
    """Lengths that are tried, and what comes of them; an error of 8 asks for 0.45, 1 for 0.9."""
    tried, left, cuts = [], list(errors), list(shares)

    def try_step(engine, events, work, length):
        tried.append(length)
        assert (engine.name, events) == ("engine", "events")
        return left.pop(0) * work.one

    monkeypatch.setattr(kernel, "try_step", try_step)
    monkeypatch.setattr(kernel, "allowed", ALLOWED)

    def cut(engine, work, end):
        assert end in (9.0, tried[-1])
        assert engine.name == "engine"
        return engine.one * work.one * cuts.pop(0) if cuts else 1.0

    monkeypatch.setattr(kernel, "share_to_mark", cut)
    monkeypatch.setattr(kernel, "share_to_contact", cut)
    engine = SimpleNamespace(
        name="engine",
        one=1.0, step=SimpleNamespace(smallest_time=1e-6), suction_count=other.get("sucks", 0),
        shaft=SimpleNamespace(free=other.get("free", 0)),
    )  # fmt: skip
    work = SimpleNamespace(turn=turn, one=1.0)
    found = kernel.make_step.py_func(engine, "events", work, step, longest, 9.0)
    return tried, found


def test_a_step_that_errs_too_much_is_tried_again(monkeypatch):
    """8 times too much: 0.45 of 8 ms; an eighth of what is allowed lets the next be 1.8 times."""
    tried, found = stepped(monkeypatch, [8.0, 0.125], step=8e-3, longest=1.0)
    assert tried == pytest.approx([8e-3, 3.6e-3])
    assert found == pytest.approx((3.6e-3, 6.48e-3))


@pytest.mark.parametrize(("error", "times"), [(1e9, 0.1), (1.1, 0.8)])
def test_a_step_is_cut_to_between_a_tenth_and_four_fifths(monkeypatch, error, times):
    tried, _ = stepped(monkeypatch, [error, 1.0], step=8e-3, longest=1.0)
    assert tried == pytest.approx([8e-3, 8e-3 * times])


def test_a_step_grows_fivefold_at_most(monkeypatch):
    assert stepped(monkeypatch, [0.0], step=1e-3, longest=1.0)[1] == pytest.approx((1e-3, 5e-3))


@pytest.mark.parametrize(("error", "then"), [(0.4, 8e-3), (0.729, 2e-3)])
def test_a_step_cut_short_by_its_target_says_little_of_the_next(monkeypatch, error, then):
    """2 of 8 ms: well within, the next is tried at 8 again; 0.729 asks for 0.9/0.9 of 2."""
    _, found = stepped(monkeypatch, [error], step=8e-3, longest=2e-3)
    assert found == pytest.approx((2e-3, then))


@pytest.mark.parametrize("kind", ["free", "sucks"])
def test_a_step_ends_where_it_is_to_end(monkeypatch, kind):
    """A quarter of 8 ms; a step of 9 µm is left as it is, ten of the smallest being more."""
    tried, found = stepped(
        monkeypatch, [0.4, 0.4], step=8e-3, longest=1.0, shares=[0.25, 1.0], **{kind: 1}
    )
    assert tried == pytest.approx([8e-3, 2e-3])
    assert found == pytest.approx((2e-3, 8e-3))
    tried, _ = stepped(monkeypatch, [0.4], step=9e-6, longest=1.0, shares=[0.25], **{kind: 1})
    assert tried == [9e-6]
    tried, _ = stepped(
        monkeypatch, [0.4, 0.4], step=11e-6, longest=1.0, shares=[0.25, 1.0], **{kind: 1}
    )
    assert tried == pytest.approx([11e-6, 2.75e-6])


def test_no_step_is_small_enough(monkeypatch):
    """2 µm, cut to 0.2."""
    assert stepped(monkeypatch, [1e9], step=2e-6, longest=1.0)[1] == pytest.approx((-1.0, 2e-7))


def test_a_shaft_that_stands_is_looked_at_each_millisecond(monkeypatch):
    assert stepped(monkeypatch, [0.4], step=1.0, longest=1.0, turn=0.0)[0] == [1e-3]


def test_sums_are_booked(monkeypatch):
    """Rates of 2, and of 3 W, for 10 ms, each in its place."""
    given = []
    monkeypatch.setattr(kernel, "book_passages", lambda *all_: given.append(all_))
    engine = SimpleNamespace(
        cylinder_count=2, cylinder_sums_at=1, volume_count=2,
        volume_sums_at=1 + 2 * CYLINDER_SUMS,
    )  # fmt: skip
    sums = np.arange(2.0 * CYLINDER_SUMS).reshape(2, CYLINDER_SUMS)
    work = SimpleNamespace(cylinder_sums=sums, volume_sums=np.array([3.0, 4.0]))
    values = np.ones(1 + 2 * CYLINDER_SUMS + 2 * VOLUME_SUMS)
    kernel.book_sums.py_func(engine, work, values, 1e-2)
    expected = [1.0, *(1.0 + 1e-2 * np.arange(2 * CYLINDER_SUMS))]
    assert values[: 1 + 2 * CYLINDER_SUMS] == pytest.approx(expected)
    heats = values[1 + 2 * CYLINDER_SUMS + VOLUME_HEAT :: VOLUME_SUMS]
    assert heats == pytest.approx([1.03, 1.04])
    assert len(given) == 1
    assert (given[0][0], given[0][1], given[0][3]) == (engine, work, 1e-2)


def test_what_never_changes_is_filled_in(monkeypatch):
    """The second volume is fixed, at 3 bar."""
    asked = []
    monkeypatch.setattr(kernel, "fill_zone", lambda *all_: asked.append(all_))
    monkeypatch.setattr(kernel, "begin_stream", lambda *all_: asked.append(all_))
    volumes = [SimpleNamespace(kind=VESSEL), SimpleNamespace(kind=FIXED)]
    engine = SimpleNamespace(volume_count=2, volumes=volumes, gas="gas")
    values = np.zeros(place(2, 0))
    values[place(1, PRESSURE)] = 3e5
    kernel.fill_fixed.py_func(engine, "work", values)
    assert asked[0][:2] == ("work", "gas")
    assert asked[0][3:] == (1, 3e5)
    assert asked[1] == ("work", 1, 1, False)


def test_a_state_is_taken_up(monkeypatch):
    """Two values of three move; it turns backwards."""
    asked = []
    monkeypatch.setattr(kernel, "lay_out", lambda *all_: asked.append(all_))
    monkeypatch.setattr(kernel, "fill_fixed", lambda *all_: asked.append(all_[:2]))
    engine, work = SimpleNamespace(moving=2), SimpleNamespace(now=np.zeros(3))
    kernel.take_up.py_func(engine, work, np.array([1.0, -2.0, 3.0]))
    assert list(work.now) == [1.0, -2.0, 0.0]
    assert work.turn == -1.0
    assert asked == [(engine, work)] * 2


def test_a_row_of_the_trace_is_kept():
    """Beside its time those that move as they are now, sums as they are booked."""
    engine = SimpleNamespace(size=3, moving=2, cylinder_count=1)
    trace, kept = np.zeros((2, 4)), np.zeros((2, 1))
    work, final = SimpleNamespace(now=np.array([1.0, 2.0])), np.array([7.0, 8.0, 9.0])
    kernel.keep_row.py_func(engine, [5.0], work, final, trace, kept, 1)
    assert list(trace[1]) == [0.0, 1.0, 2.0, 9.0]
    assert kept[1, 0] == 5.0


def carried(monkeypatch, *, until_time=9.0, until_angle=99.0, most=2, free=0, speed=10.0, rows=0):
    """Steps of 10 ms at 10 rad/s from 1 rad on; something is due at each 1.5 rad."""
    seen = {}

    def note(name, answer=None):
        def part(*given):
            seen.setdefault(name, []).append(given)
            return answer(*given) if answer else None

        monkeypatch.setattr(kernel, name, part)

    def take_up(engine, work, final):
        work.now[:] = final[:2]
        work.turn = math.copysign(1.0, final[SPEED])

    def make_step(engine, events, work, step, longest, stop):
        work.trial[:] = work.now
        work.trial[ANGLE] += 0.01 * speed
        return 0.01, 0.02

    def next_event(engine, events, angle, turn):
        return angle + 1.5 * turn

    note("astray", lambda _: 0)
    note("take_up", take_up)
    note("make_step", make_step)
    note("next_event", next_event)
    note("set_turn", lambda *_: len(seen["set_turn"]) == 1)
    note("longest_step", lambda *_: 0.05)
    for name in ("meet_events", "end_burns", "renew_burns", "catch_rotor", "come_to_stand",
                 "book_sums", "keep_row"):  # fmt: skip
        note(name)
    engine = SimpleNamespace(
        shaft=SimpleNamespace(free=free), suction_count=0, moving=2, step="setting"
    )
    work = SimpleNamespace(now=np.zeros(2), trial=np.zeros(2))
    clock, step = np.array([3.0]), np.array([0.04])
    final = np.array([1.0, speed, 5.0])
    trace = np.zeros((rows, 4))
    found = kernel.step_on.py_func(
        [engine], [work], "factors", clock, step, final, "events", until_time, until_angle,
        trace, "kept", most,
    )  # fmt: skip
    return seen, engine, work, found, clock, step, final, trace


def same(one, other):
    return all(a is b or (not isinstance(b, np.ndarray) and a == b)
               for a, b in zip(one, other, strict=True))  # fmt: skip


def test_a_state_is_carried_on(monkeypatch):
    """Two steps: what is due first, then only burns that end; 6 and 5.99 s are left; 2.5 rad is no
    event of the next."""
    seen, engine, work, found, clock, step, final, trace = carried(monkeypatch, rows=3)
    assert found == (2, kernel.PAUSED, 0)
    assert (clock[0], step[0]) == pytest.approx((3.02, 0.02))
    assert final == pytest.approx([1.2, 10.0, 5.0])
    assert list(trace[:, 0]) == pytest.approx([3.01, 3.02, 0.0])
    assert same(seen["take_up"][0], (engine, work, final))
    assert same(seen["meet_events"][0], (engine, "factors", "events", work, work.now))
    assert same(seen["next_event"][0], (engine, "events", 1.0, 1.0))
    assert same(seen["end_burns"][0], (engine, "events", work, work.now))
    assert [len(seen[name]) for name in ("meet_events", "end_burns", "next_event")] == [1, 1, 1]
    assert seen["longest_step"] == [
        ("setting", pytest.approx(left), pytest.approx(angle), 10.0, 2.5)
        for left, angle in ((6.0, 1.0), (5.99, 1.1))
    ]
    assert same(seen["make_step"][0], (engine, "events", work, 0.04, 0.05, 2.5))
    assert seen["make_step"][1][3] == 0.02
    assert same(seen["book_sums"][0], (engine, work, final, 0.01))
    assert same(seen["keep_row"][1], (engine, "events", work, final, trace, "kept", 1))
    assert "set_turn" not in seen
    assert "catch_rotor" not in seen


@pytest.mark.parametrize(("speed", "until", "lands"), [(10.0, 1.1, 1.1), (10.0, 2.5, 2.5)])
def test_a_state_is_carried_to_its_angle(monkeypatch, speed, until, lands):
    """In one step or fifteen: the nearer of the angle and what is due is where to stop."""
    seen, *_, found, clock, _, final, _ = carried(
        monkeypatch, until_angle=until, speed=speed, most=99
    )
    assert found[1] == kernel.REACHED
    assert final[ANGLE] == lands
    assert clock[0] == pytest.approx(3.0 + (until - 1.0) / 10.0)
    assert seen["make_step"][0][5] == lands


def test_a_state_is_carried_back_to_its_angle(monkeypatch):
    """From 1 rad to 0.7, with something due at -0.5 only: three steps."""
    seen, *_, found, _, _, final, _ = carried(monkeypatch, until_angle=0.7, speed=-10.0, most=99)
    assert found[1] == kernel.REACHED
    assert len(seen["make_step"]) == 3
    assert final[ANGLE] == 0.7
    assert seen["make_step"][0][5] == 0.7


def test_a_state_is_carried_to_its_time(monkeypatch):
    seen, *_, found, clock, _, _, _ = carried(monkeypatch, until_time=3.035, most=99)
    assert found[1] == kernel.REACHED
    assert len(seen["make_step"]) == 4
    assert clock[0] == pytest.approx(3.04)


def test_what_is_due_is_met_where_a_step_lands_on_it(monkeypatch):
    """1.5 rad in fifteen steps, and once at the start."""
    seen, *_ = carried(monkeypatch, most=16)
    assert len(seen["meet_events"]) == 2
    assert seen["next_event"][1][2] == 2.5


def test_a_free_shaft_is_asked_which_way_it_turns(monkeypatch):
    seen, engine, work, *_ = carried(monkeypatch, free=1)
    assert same(seen["set_turn"][0], (engine, work, work.now))
    assert same(seen["renew_burns"][0], (engine, "factors", "events", 1.0))
    assert len(seen["renew_burns"]) == 1
    assert seen["catch_rotor"] == [(engine, work)] * 2
    assert seen["come_to_stand"] == [(work,)] * 2


# Its stages


def stages():
    """One value at 100, and rates of 2, 10, 100 and 1000."""
    return SimpleNamespace(
        now=np.array([100.0]), trial=np.zeros(1), miss=np.zeros(1),
        stage=np.array([[2.0], [10.0], [100.0], [1000.0]]),
    )  # fmt: skip


@pytest.mark.parametrize(
    ("stage", "ahead"),
    [(1, 2 * 0.8717330430169180), (2, 2 * 0.8445706001536942 - 1.129906423648418), (3, 100.0)],
)
def test_a_stage_starts_from_the_ones_before(stage, ahead):
    """Half a second of 0.87 · 2, of 0.84 · 2 - 0.11 · 10, of 100."""
    work = stages()
    stepper._start_stage.py_func(work, 1, stage, 0.5)
    assert work.trial[0] == pytest.approx(100.0 + 0.5 * ahead, rel=1e-14)


def test_a_step_ends_with_all_its_stages():
    """0.4842 - 12.2325 + 154.526 + 435.867, and by second order 0.7562 - 0.9604 + 50 + 217.93."""
    work = stages()
    stepper._end_step.py_func(work, 1, 0.5)
    third = 2 * 0.2421238070609535 - 12.23250583904515 + 154.5260255335102 + 435.866521508459
    second = 2 * 0.3781090314581937 - 0.9604229221242318 + 50.0 + 217.9332607542295
    assert work.trial[0] == pytest.approx(100.0 + 0.5 * third)
    assert work.miss[0] == pytest.approx(0.5 * (third - second))
    stepper._end_step.py_func(work, 1, -0.5)
    assert work.miss[0] == pytest.approx(0.5 * (third - second))


def test_a_stage_is_corrected_by_the_ones_before(monkeypatch):
    """Of the second volume's pressure: 0.2421 · 1 - 1.2233 · 10 + 0.5453 · 100."""
    given = []
    monkeypatch.setattr(stepper, "correct", lambda *all_: given.append(all_))
    rates = np.zeros((4, place(2, 0)))
    rates[:, place(1, PRESSURE)] = 1.0, 10.0, 100.0, 1000.0
    work = SimpleNamespace(unknowns=1, unknown=[1], stage=rates, earlier=np.zeros(2))
    stepper._correct_stage.py_func(work, 3, 1e-3)
    total = 0.2421238070609535 - 12.23250583904515 + 54.52602553351021
    assert work.earlier[0] == pytest.approx(total)
    assert given == [(work, 3, 1e-3, stepper.GAMMA, stepper.GAMMA)]


def test_a_step_asks_for_each_stage(monkeypatch):
    """Four, the first of which lists what is stiff; the Jacobian counts by 0.4359 of 1 ms."""
    asked = []

    def note(name):
        monkeypatch.setattr(stepper, name, lambda *given: asked.append((name, *given)))

    for name in ("clear_sums", "_start_stage", "rates_of", "find_stiff", "factor",
                 "_correct_stage", "_end_step"):  # fmt: skip
        note(name)
    monkeypatch.setattr(stepper, "error_of", lambda *given: given)
    engine, events = SimpleNamespace(moving=2), "events"
    work = SimpleNamespace(now=np.array([1.0, 2.0]), trial=np.zeros(2), stiff_count=1)
    assert stepper.try_step.py_func(engine, events, work, 1e-3) == (engine, events, work)
    expected = [("clear_sums", engine, work)]
    for stage in range(4):
        if stage:
            expected.append(("_start_stage", work, 2, stage, 1e-3))
        expected.append(("rates_of", engine, events, work, stage, stepper.WEIGHTS[stage]))
        if not stage:
            expected.append(("find_stiff", engine, work, 1e-3))
            expected.append(("factor", engine, work, pytest.approx(0.435866521508459e-3)))
        expected.append(("_correct_stage", work, stage, 1e-3))
    assert asked == [*expected, ("_end_step", work, 2, 1e-3)]


# Its error

ZONE = place(3, 0)
HOT = ZONE + CYLINDER_SIZE
LIFT_AT = HOT + CYLINDER_SIZE + SUCTION_SIZE
"""Of the second cylinder its burned zone, and of the second suction valve its lift."""


def erring(missed, *, burning=0, closed=1, speed=100.0, free=0):
    """A cylinder with 2 mg at 1 bar and 500 K, and 6 mg burned; a vessel alike; 1e-3 allowed."""
    now = np.zeros(LIFT_AT + SUCTION_SIZE)
    for row in (1, 2):
        now[place(row, PRESSURE)], now[place(row, TEMPERATURE)] = 1e5, 500.0
        for kind, mass in ((AIR, 1e-6), (FUEL, 0.25e-6), (BURNED, 0.75e-6)):
            now[place(row, kind)] = mass
    now[HOT + ZONE_AIR : HOT + ZONE_BURNED + 1] = 1e-6, 2e-6, 3e-6
    now[HOT + ZONE_TEMPERATURE] = 2000.0
    now[SPEED] = speed
    miss = np.zeros(len(now))
    for at, by in missed.items():
        miss[at] = by
    engine = SimpleNamespace(
        moving_count=2, moving_volumes=[1, 2], cylinder_count=2, cylinders_at=ZONE,
        valve_count=2, suctions_at=LIFT_AT - SUCTION_SIZE, shaft=SimpleNamespace(free=free),
        valves=[SimpleNamespace(suction=-1), SimpleNamespace(suction=1, max_lift=4e-3)],
        step=SimpleNamespace(relative=1e-3),
    )  # fmt: skip
    events = [None, SimpleNamespace(burning=burning, closed=closed)]
    work = SimpleNamespace(now=now, trial=now.copy(), miss=miss)
    return stepper.error_of.py_func(engine, events, work)


@pytest.mark.parametrize(
    ("missed", "setting", "error"),
    [
        ({place(1, PRESSURE): 200.0}, {}, 2.0),
        ({place(1, PRESSURE): 200.0}, {"closed": 0}, 2.0),
        ({place(1, PRESSURE): 200.0}, {"closed": 0, "speed": -10.0}, 8.0),
        ({place(1, PRESSURE): 200.0}, {"speed": 10.0}, 2.0),
        ({place(1, PRESSURE): 200.0}, {"closed": 0, "speed": 1.0}, 20.0),
        ({place(2, PRESSURE): 200.0}, {"speed": 10.0}, 8.0),
        ({place(1, TEMPERATURE): 1.0}, {}, 2.0),
        ({place(1, AIR): 4e-9}, {}, 2.0),
        ({place(1, FUEL): 4e-9}, {}, 2.0),
        ({place(1, BURNED): 4e-9}, {}, 2.0),
        ({place(1, AIR): 4e-9}, {"burning": 1}, 0.5),
        ({HOT + ZONE_TEMPERATURE: 4.0}, {"burning": 1}, 2.0),
        ({HOT + ZONE_BURNED: 16e-9}, {"burning": 1}, 2.0),
        ({HOT + WITHIN: 16e-9}, {"burning": 1}, 2.0),
        ({HOT + PROGRESS: 2e-3}, {"burning": 1}, 2.0),
        ({LIFT_AT + LIFT: 8e-6}, {}, 2.0),
        ({SPEED: 0.2}, {"free": 1}, 2.0),
        ({SPEED: 0.01}, {"free": 1, "speed": -1.0}, 2.0),
        ({ANGLE: 2e-4}, {"free": 1}, 2.0),
        ({ANGLE: 2e-4, SPEED: 0.2}, {}, 0.0),
    ],
)
def test_an_error_over_the_allowed_one(missed, setting, error):
    """2e-3 of what errs, where 1e-3 is allowed: 200 Pa of a bar, 1 K of 500, 4 µg of 2 mg or 16 of
    8, 8 µm of 4 mm, 0.2 of 100 rad/s, 0.01 of no less than 5, ten times an angle. Under 40 rad/s an
    open volume's pressure counts for more, at 10 fourfold, tenfold at most.
    """
    assert erring(missed, **setting) == pytest.approx(error)


# The implicit part


def stiff(monkeypatch, kinds=(VESSEL, VESSEL), **other):
    """1 g/s through 1 cm² from 1e5 to 0.9e5 Pa, R T 1e4; all else in ones, tens and halves."""
    monkeypatch.setattr(implicit, "coefficient_slope", lambda drop, band: 10.0 * drop + band)
    heating = lambda here, *given: here.warm * given[3]  # noqa: E731
    monkeypatch.setattr(implicit, "heating_of", heating)
    swelling = lambda here, gas, *given: here.wide * gas * sum(given)  # noqa: E731
    monkeypatch.setattr(implicit, "swelling_of", swelling)
    one = lambda value: np.array([value])  # noqa: E731
    lane = SimpleNamespace(
        way=one(7), up=one(0), down=one(1), sign=one(-1.0), area=one(1e-4), high=one(1e5),
        low=one(0.9e5), flow=one(other.get("flow", 1e-3)),
    )  # fmt: skip
    source = SimpleNamespace(
        free=other.get("free", 1e-3), specific=1e4, air=0.5, fuel=0.3, burned=0.2, enthalpy=20.0
    )
    zones = [
        SimpleNamespace(specific=1e4, warming=1e-3),
        SimpleNamespace(specific=2e4, warming=2e-3, warm=5.0, wide=100.0, by_temperature=3.0),
    ]
    work = SimpleNamespace(
        lane=lane, open=1, stream=[source, SimpleNamespace(free=2e-3)], zone=zones,
        stiff=[SimpleNamespace()], stiff_count=9, volume=[other.get("volume", 1e-3)],
    )  # fmt: skip
    engine = SimpleNamespace(
        step=SimpleNamespace(flow_band=1.0), gas=2.0,
        volumes=[SimpleNamespace(kind=kind) for kind in kinds],
    )  # fmt: skip
    implicit.find_stiff.py_func(engine, work, other.get("step", 1.0))
    return work.stiff_count, work.stiff[0]


def test_how_a_way_answers(monkeypatch):
    """1e-4/√1e4 · (10 · 0.1 + 1) = 2e-6 a pascal, up 1e-3/1e5 more.

    1 kg/s takes 1e4/1e-3 = 1e7 Pa/s, and brings (200 + 3 · 100)/2e-3 = 250 kPa/s.
    """
    count, flow = stiff(monkeypatch)
    assert count == 1
    assert (flow.slope_up, flow.slope_down) == pytest.approx((2.01e-6, -2e-6))
    assert (flow.pressure_up, flow.temperature_up) == pytest.approx((-1e7, -1e4))
    assert (flow.pressure_down, flow.temperature_down) == pytest.approx((2.5e5, 600.0))
    assert (flow.way, flow.up, flow.down, flow.sign) == (7, 0, 1, -1.0)
    assert (flow.air, flow.fuel, flow.burned, flow.enthalpy) == (0.5, 0.3, 0.2, 20.0)


@pytest.mark.parametrize(("step", "count"), [(0.0024, 0), (0.00243, 1)])
def test_a_way_is_stiff_beyond_a_twentieth(monkeypatch, step, count):
    """2.5e5 · 2e-6 + 1e7 · 2.01e-6 = 20.6 a second: 0.05 at 2.427 ms."""
    assert stiff(monkeypatch, step=step)[0] == count


@pytest.mark.parametrize(
    ("kinds", "step"), [((FIXED, VESSEL), 0.1), ((VESSEL, FIXED), 0.05 / 20.1)]
)
def test_surroundings_answer_nothing(monkeypatch, kinds, step):
    """2.5e5 · 2e-6 = 0.5 a second, or 20.1."""
    shorter, longer = (
        stiff(monkeypatch, kinds, step=step * by, volume=1e-4) for by in (0.99, 1.01)
    )
    assert (shorter[0], longer[0]) == (0, 1)
    flow = longer[1]
    if kinds[0] == FIXED:
        assert (flow.pressure_up, flow.temperature_up) == (0.0, 0.0)
        assert flow.pressure_down == pytest.approx(2.5e5)
    else:
        assert (flow.pressure_down, flow.temperature_down) == (0.0, 0.0)
        assert flow.pressure_up == pytest.approx(-1e7)


@pytest.mark.parametrize(("volume", "count"), [(0.1599, 1), (0.1601, 0)])
def test_a_leak_to_the_open_air_is_left_out_by_a_bound(monkeypatch, volume, count):
    """4 · 1e-3 · 2 s · 1e4 = 80 J, and a twentieth of 0.16 m³ · 1e4 Pa."""
    assert stiff(monkeypatch, (VESSEL, FIXED), volume=volume, step=2.0)[0] == count


def test_a_volume_that_burns_is_left_out(monkeypatch):
    assert stiff(monkeypatch, free=0.0)[0] == 0


def flows():
    """Two ways: from 0 to 1, and from 1 to the open air, whose place is behind both."""
    usual = {"fuel": 0.3, "burned": 0.2, "air": 0.5, "enthalpy": 20.0}
    first = SimpleNamespace(
        **usual, up=0, down=1, up_place=0, down_place=1, slope_up=2.0, slope_down=-3.0,
        pressure_up=-0.5, pressure_down=0.25, temperature_up=-4.0, temperature_down=5.0,
        sign=1.0, way=0,
    )  # fmt: skip
    second = SimpleNamespace(
        **usual, up=1, down=2, up_place=1, down_place=2, slope_up=4.0, slope_down=-9.0,
        pressure_up=-0.75, pressure_down=0.0, temperature_up=-6.0, temperature_down=0.0,
        sign=-1.0, way=1,
    )  # fmt: skip
    return [first, second]


def test_a_matrix_of_two_pressures_is_factored(monkeypatch):
    """Half a step: 1 + ½ · ½ · 2 = 1.5 and -½ · ½ · 3 = -0.75; -½ · ¼ · 2 = -0.25, and
    1 + ½ · ¼ · 3 + ½ · ¾ · 4 = 2.875. Their half of the first taken away: 2.75.
    """
    asked = []
    monkeypatch.setattr(implicit, "number_unknowns", lambda *given: asked.append(given))
    work = SimpleNamespace(
        matrix=np.full((3, 3), 9.0), unknowns=2, stiff=flows(), stiff_count=2
    )  # fmt: skip
    implicit.factor.py_func("engine", work, 0.5)
    assert asked == [("engine", work)]
    part = work.matrix
    assert (1 / part[0, 0], part[0, 1]) == pytest.approx((1.5, -0.75))
    assert (part[1, 0], 1 / part[1, 1]) == pytest.approx((-1 / 6, 2.75))
    # 1.5 · 2 - 0.75 · 4 = 0 and -0.25 · 2 + 2.875 · 4 = 11.
    right = np.array([0.0, 11.0])
    implicit.solve.py_func(part, right, 2)
    assert right == pytest.approx([2.0, 4.0])


def test_a_factored_matrix_of_three_is_solved():
    """2 1 1, 4 5 3, 2 7 9: 2 and 1 of the first row, 2 of the second; 2, 3 and 6 on the diagonal.

    With 1, 2 and 3: 7, 23 and 43.
    """
    matrix = np.array([[1 / 2, 1.0, 1.0], [2.0, 1 / 3, 1.0], [1.0, 2.0, 1 / 6]])
    right = np.array([7.0, 23.0, 43.0])
    implicit.solve.py_func(matrix, right, 3)
    assert right == pytest.approx([1.0, 2.0, 3.0])


def test_a_matrix_of_three_pressures_is_factored(monkeypatch):
    """Ways that join 0, 1 and 2 in a ring, each with a slope of 1 up and -1 down, answered by 1
    both ways: 3 on the diagonal, -1 elsewhere. A third of it taken: 8/3 and -4/3, and half of that
    2.
    """
    asked = []
    monkeypatch.setattr(implicit, "number_unknowns", lambda *given: asked.append(given))
    ring = [
        SimpleNamespace(
            up_place=up, down_place=down, slope_up=1.0, slope_down=-1.0, pressure_up=-1.0,
            pressure_down=1.0,
        )
        for up, down in ((0, 1), (1, 2), (2, 0))
    ]  # fmt: skip
    work = SimpleNamespace(matrix=np.full((3, 3), 9.0), unknowns=3, stiff=ring, stiff_count=3)
    implicit.factor.py_func("engine", work, 1.0)
    expected = [[1 / 3, -1.0, -1.0], [-1 / 3, 3 / 8, -4 / 3], [-1 / 3, -1 / 2, 1 / 2]]
    assert work.matrix == pytest.approx(np.array(expected))


def test_unknowns_are_numbered():
    """Of four volumes 1 and 3 are joined, 2 isn't; the open air shares the place behind."""
    volumes = [SimpleNamespace(kind=kind) for kind in (FIXED, VESSEL, VESSEL, VESSEL)]
    engine = SimpleNamespace(
        volume_count=4, volumes=volumes, moving_count=3, moving_volumes=[1, 2, 3]
    )
    ways = [SimpleNamespace(up=3, down=1), SimpleNamespace(up=1, down=0)]
    work = SimpleNamespace(
        place=np.zeros(4, int), unknown=np.zeros(4, int), stiff=ways, stiff_count=2
    )
    implicit.number_unknowns.py_func(engine, work)
    assert work.unknowns == 2
    assert list(work.unknown[:2]) == [1, 3]
    assert [(one.up_place, one.down_place) for one in ways] == [(1, 0), (0, 2)]


def test_a_stage_is_made_implicit(monkeypatch):
    """Earlier 10 and 4 Pa/s, half a second: ½ · (20 - 12) = 4 and ½ · 16 = 8 kg/s more. They are
    -2 Pa/s of 100 for the one, 1 and -6 of 200 for the other.

    A solution of 6 and 2: half of it goes on 10 and 4. ½ · (2 · 13 - 3 · 5) = 5.5 and
    ½ · 4 · 5 = 10 kg/s.
    """
    seen = []

    def solve(matrix, right, size):
        seen.append((matrix, list(right[:size]), size))
        right[:size] = 6.0, 2.0

    monkeypatch.setattr(implicit, "solve", solve)
    monkeypatch.setattr(implicit, "_give", implicit._give.py_func)
    rates = np.zeros((2, place(3, 0)))
    rates[1, place(0, PRESSURE)], rates[1, place(1, PRESSURE)] = 100.0, 200.0
    work = SimpleNamespace(
        right=np.zeros(3), stage=rates, earlier=np.array([10.0, 4.0, 77.0]), unknowns=2,
        unknown=[0, 1], stiff=flows(), stiff_count=2, matrix="matrix", way_sums=np.ones((2, 4)),
    )  # fmt: skip
    implicit.correct.py_func(work, 1, 0.5, 0.5, 0.1)
    assert seen == [("matrix", pytest.approx([98.0, 195.0]), 2)]
    found = rates[1]
    assert found[place(0, PRESSURE)] == pytest.approx(100.0 - 2.75)
    assert found[place(0, TEMPERATURE)] == pytest.approx(-22.0)
    kinds = [found[place(0, kind)] for kind in (AIR, FUEL, BURNED)]
    assert kinds == pytest.approx([-2.75, -1.65, -1.1])
    assert found[place(1, PRESSURE)] == pytest.approx(200.0 + 1.375 - 7.5)
    assert found[place(1, TEMPERATURE)] == pytest.approx(27.5 - 60.0)
    kinds = [found[place(1, kind)] for kind in (AIR, FUEL, BURNED)]
    assert kinds == pytest.approx([-2.25, -1.35, -0.9])
    assert not found[place(2, 0) :].any()
    assert not rates[0].any()
    assert work.way_sums[0] == pytest.approx([1.55, 1.165, 1.11, 12.0])
    assert work.way_sums[1] == pytest.approx([0.0, 0.7, 0.8, -19.0])


# What is due


def test_when_a_burn_begins():
    """0.3 + 0.1, three cycles on; factors repeat after two: 0.02 of the second."""
    factors = np.zeros((2, 2, FACTORS))
    factors[1, 1, PHASE] = 0.02
    engine = SimpleNamespace(cylinders=[None, SimpleNamespace(phase=0.3, burn_start=0.1)])
    assert due.next_burn.py_func(engine, factors, 1, 3) == pytest.approx(0.42 + 3 * CYCLE)
    assert due.next_burn.py_func(engine, factors, 1, 2) == pytest.approx(0.4 + 2 * CYCLE)


@pytest.mark.parametrize(
    ("seconds", "duration", "rate"), [(0.0, 0.25, 160.0), (0.004, 0.25, 250.0), (0.0, 0.0, 0.0)]
)
def test_a_burn_begins(monkeypatch, seconds, duration, rate):
    """0.25 rad twice as long, at 80 rad/s; or in 4 ms. Of 0.9 that burns 0.8, or all."""
    lit = []
    monkeypatch.setattr(due, "ignite", lambda *all_: lit.append(all_))
    factors = np.zeros((2, 2, FACTORS))
    factors[1, 1, DURATION], factors[1, 1, AMOUNT] = 2.0, 0.8
    cylinder = SimpleNamespace(burn_duration=duration, burn_seconds=seconds, burns=0.9)
    engine = SimpleNamespace(cylinders=[None, cylinder])
    event, values = SimpleNamespace(cycle=3), np.zeros(SHAFT_SIZE)
    values[SPEED] = -80.0
    due.begin_burn.py_func(engine, factors, event, values, 1)
    assert event.rate == pytest.approx(rate)
    assert event.amount == pytest.approx(0.72)
    assert (event.burning, event.fired) == (1, 1)
    assert len(lit) == 1
    assert (lit[0][0], lit[0][2]) == (engine, 1)
    factors[1, 1, AMOUNT] = 1.5
    due.begin_burn.py_func(engine, factors, event, values, 1)
    assert event.amount == pytest.approx(0.9)


@pytest.mark.parametrize(
    ("angle", "turn", "due_at"),
    [
        (1.5, 1.0, 2.0),
        (CYCLE + 1.5, 1.0, CYCLE + 2.0),
        (3.5, 1.0, CYCLE + 1.0),
        (1.5, -1.0, 1.0),
        (CYCLE + 0.5, -1.0, 3.0),
        (2.0, 1.0, 2.6),
        (2.0, -1.0, 1.0),
    ],
)
def test_what_a_step_may_not_pass(angle, turn, due_at):
    """Valves at 1, 2 and 3 of each cycle, a burn at 2.6; backwards no burn begins."""
    engine = SimpleNamespace(event_count=3, events=[1.0, 2.0, 3.0], cylinder_count=1)
    events = [SimpleNamespace(next_burn=2.6)]
    found = due.next_event.py_func(engine, events, angle, turn)
    assert found == pytest.approx(due_at)


def test_what_is_just_passed_is_not_due_again():
    """A ten-thousandth of a millionth of a radian after it, the burn at 99 is next."""
    engine = SimpleNamespace(event_count=1, events=[1.0], cylinder_count=1)
    events = [SimpleNamespace(next_burn=99.0)]
    assert due.next_event.py_func(engine, events, 1.0 + 1e-10, 1.0) == pytest.approx(99.0)


def test_all_that_is_due_is_done(monkeypatch):
    """Valves first, then what has burned out, then what is to burn; each cylinder's."""
    asked = []
    for name in ("bounce", "place_valves", "meet_valves", "end_burns", "meet_burn"):
        note = lambda *all_, name=name: asked.append((name, *all_))  # noqa: E731
        monkeypatch.setattr(due, name, note)
    engine = SimpleNamespace(suction_count=1, cylinder_count=2)
    due.meet_events.py_func(engine, "factors", ["a", "b"], "work", "values")
    assert asked == [
        ("bounce", engine, "values"),
        ("place_valves", engine, "work", "values"),
        ("meet_valves", engine, "a", "work", "values", 0),
        ("meet_valves", engine, "b", "work", "values", 1),
        ("end_burns", engine, ["a", "b"], "work", "values"),
        ("meet_burn", engine, "factors", "a", "values", 0),
        ("meet_burn", engine, "factors", "b", "values", 1),
    ]


def test_burns_that_a_shaft_went_back_behind_are_due_again(monkeypatch):
    """Every 10 rad; from the fifth on, at 25 the third is next."""
    monkeypatch.setattr(due, "next_burn", lambda e, by, row, cycle: (e.each + row) * by * cycle)
    engine, events = SimpleNamespace(cylinder_count=1, each=10.0), [SimpleNamespace(cycle=5)]
    due.renew_burns.py_func(engine, 1.0, events, 25.0)
    assert (events[0].cycle, events[0].next_burn) == (3, 30.0)


@pytest.mark.parametrize(("left", "ends"), [(1.001e-4, 1), (0.999e-4, 0)])
def test_a_burn_ends_with_the_last_ten_thousandth(monkeypatch, left, ends):
    """Of 1 g a fifth is kept; of the 0.8 that burns 1e-4 are 0.08 mg."""
    ended = []
    monkeypatch.setattr(due, "three", due.three.py_func)
    monkeypatch.setattr(due, "end_burn", lambda *all_: ended.append(all_))
    values = np.zeros(ZONE + 2 * CYLINDER_SIZE)
    kept = 0.2e-3 + 0.8 * left * 1e-3
    values[place(1, AIR) : place(1, AIR) + 3] = kept / 2, kept / 4, kept / 4
    rest = 1e-3 - kept
    zone = ZONE + CYLINDER_SIZE + ZONE_AIR
    values[zone : zone + 3] = rest / 4, rest / 4, rest / 2
    engine = SimpleNamespace(cylinder_count=2, cylinders_at=ZONE)
    event = SimpleNamespace(burning=1, amount=0.8)
    due.end_burns.py_func(engine, [SimpleNamespace(burning=0), event], "work", values)
    assert len(ended) == 1 - ends
    if ended:
        assert ended[0][:3] == (engine, event, "work")
        assert ended[0][4] == 1


def test_zones_are_joined_at_the_volume_of_now(monkeypatch):
    asked = []
    monkeypatch.setattr(due, "volumes_now", lambda *all_: asked.append(all_))
    monkeypatch.setattr(due, "join_zones", lambda *all_: asked.append(all_))
    event, values = SimpleNamespace(burning=1), np.zeros(SHAFT_SIZE)
    values[ANGLE], values[SPEED] = 0.3, 40.0
    work = SimpleNamespace(volume=[5e-5])
    due.end_burn.py_func("engine", event, work, values, 0)
    assert event.burning == 0
    assert asked[0] == ("engine", work, 0.3, 40.0)
    assert asked[1][0] == "engine"
    assert asked[1][1] is values
    assert asked[1][2:] == (0, 5e-5)


def test_a_vented_cylinder_is_filled_as_it_stands_outside(monkeypatch):
    """2 bar · 1 l over 250 J/(kg K) · 400 K are 2 g; outside 4 kg: half a thousandth of each."""
    asked = []
    monkeypatch.setattr(due, "volumes_now", lambda *all_: asked.append(all_))
    state = lambda *all_: asked.append(all_) or (0, 0, 0, 250.0, 0, 0)  # noqa: E731
    monkeypatch.setattr(due, "mixture_state", state)
    values = np.zeros(place(3, 0))
    values[ANGLE], values[SPEED] = 0.3, 40.0
    values[place(2, 0) : place(3, 0)] = 2e5, 400.0, 2.0, 0.5, 1.5, 0.0
    engine = SimpleNamespace(gas="gas", cylinders=[None, SimpleNamespace(vented=2)])
    work = SimpleNamespace(volume=[None, 1e-3])
    due.vent.py_func(engine, work, values, 1)
    assert asked == [(engine, work, 0.3, 40.0), ("gas", 2.0, 0.5, 1.5, 400.0, 2e5)]
    found = values[place(1, 0) : place(2, 0)]
    assert found == pytest.approx([2e5, 400.0, 1e-3, 0.25e-3, 0.75e-3, 0.0])


def test_a_last_valve_shut_is_noted(monkeypatch):
    """What the cylinder holds then: 1 + 2 + 4 mg, and its room."""
    asked = []
    monkeypatch.setattr(due, "three", due.three.py_func)
    monkeypatch.setattr(due, "volumes_now", lambda *all_: asked.append(all_))
    monkeypatch.setattr(due, "is_closed", lambda *all_: asked.append(all_) or True)
    values = np.zeros(place(2, 0))
    values[ANGLE], values[SPEED] = 0.3, 40.0
    values[place(1, 0) : place(2, 0)] = 2e5, 400.0, 1e-6, 2e-6, 4e-6, 0.0
    event, work = SimpleNamespace(closed=0, fired=1), SimpleNamespace(volume=[0.0, 6e-5])
    due.meet_valves.py_func("engine", event, work, values, 1)
    assert (event.reference_pressure, event.reference_temperature) == (2e5, 400.0)
    assert event.reference_mass == pytest.approx(7e-6)
    assert (event.reference_fuel, event.reference_burned) == (2e-6, 4e-6)
    assert (event.reference_angle, event.reference_volume, event.closed) == (0.3, 6e-5, 1)
    assert (asked[0][0], asked[0][1], asked[0][3]) == ("engine", work, 1)
    assert asked[1] == ("engine", work, 0.3, 40.0)


def test_a_first_valve_open_ends_the_burn_and_vents(monkeypatch):
    asked = []
    for name in ("end_burn", "vent"):
        note = lambda *all_, name=name: asked.append((name, *all_[:-2], all_[-1]))  # noqa: E731
        monkeypatch.setattr(due, name, note)
    monkeypatch.setattr(due, "is_closed", lambda *_: False)
    engine = SimpleNamespace(cylinders=[SimpleNamespace(vented=2)])
    event = SimpleNamespace(closed=1, fired=1, burning=1)
    due.meet_valves.py_func(engine, event, "work", np.zeros(9), 0)
    assert (event.closed, event.fired) == (0, 0)
    assert asked == [("end_burn", engine, event, "work", 0), ("vent", engine, "work", 0)]


@pytest.mark.parametrize(
    ("lift", "is_open", "closed"), [(0.0, [0, 1], True), (1e-4, [0, 1], False), (0, [1, 0], False)]
)
def test_a_cylinder_is_closed_where_its_valves_are_shut(lift, is_open, closed):
    """A suction valve may open at any time: its lift says so; another cylinder's doesn't count."""
    valves = [SimpleNamespace(cylinder=1, suction=-1), SimpleNamespace(cylinder=1, suction=1),
              SimpleNamespace(cylinder=0, suction=-1)]  # fmt: skip
    engine = SimpleNamespace(valve_count=3, valves=valves, suctions_at=3)
    values = np.zeros(3 + 2 * SUCTION_SIZE)
    values[3 + SUCTION_SIZE + LIFT] = lift
    work = SimpleNamespace(valve_open=[*is_open, 1])
    assert due.is_closed.py_func(engine, work, values, 1) is closed


@pytest.mark.parametrize(
    ("event", "burns", "cycle", "left"),
    [
        ({}, 1, 4, 1),
        ({"next_burn": 0.5}, 0, 3, 2),
        ({"next_burn": 0.5, "lit": 1}, 1, 3, 2),
        ({"closed": 0}, 0, 4, 2),
        ({"burning": 1}, 0, 4, 2),
        ({"burns_left": 0}, 0, 4, 0),
    ],
)
def test_a_burn_begins_as_its_angle_comes_or_it_is_lit(monkeypatch, event, burns, cycle, left):
    """At 0.3 one was due, and the next comes 7 rad later each cycle."""
    began = []
    monkeypatch.setattr(due, "begin_burn", lambda *all_: began.append(all_))
    monkeypatch.setattr(due, "next_burn", lambda e, by, row, count: (e.each + row) * by * count)
    engine = SimpleNamespace(cylinders=[SimpleNamespace(fire=1)], each=7.0)
    usual = {"lit": 0, "closed": 1, "burning": 0, "burns_left": 2, "cycle": 3, "next_burn": 0.3}
    happened, values = SimpleNamespace(**{**usual, **event}), np.zeros(SHAFT_SIZE)
    values[ANGLE] = 0.3
    due.meet_burn.py_func(engine, 1.0, happened, values, 0)
    assert (len(began), happened.cycle, happened.burns_left) == (burns, cycle, left)
    if began:
        assert began[0][:3] == (engine, 1.0, happened)
    if cycle == 4:
        assert happened.next_burn == 28.0
