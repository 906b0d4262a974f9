"""Work shared out among processes: the same answers in the same order, faults and stops told."""

from __future__ import annotations

import signal
import threading

import pytest

from firstfire.errors import OutsideValidity, Stopped
from firstfire.runs.hands import shared_out


@pytest.mark.parametrize("hands", [1, 2, 3])
def test_answers_come_in_order_whoever_gave_them(hands):
    assert shared_out(lambda n: n**3, 10, hands=hands) == [n**3 for n in range(10)]


def test_no_work_is_no_answer():
    assert shared_out(lambda n: n, 0) == []


@pytest.mark.parametrize("hands", [1, 2])
def test_the_first_fault_is_raised(hands):
    def work(number):
        if number > 1:
            raise OutsideValidity(f"number {number} can't be done")
        return number

    with pytest.raises(OutsideValidity, match="number 2"):
        shared_out(work, 6, hands=hands)


def test_a_large_answer_comes_whole():
    found = shared_out(lambda n: bytes(1_000_000 + n), 4, hands=2)
    assert [len(one) for one in found] == [1_000_000 + n for n in range(4)]


def _endless(_):
    while True:
        signal.pause()


@pytest.mark.parametrize("hands", [1, 2])
def test_it_stops_when_asked_and_leaves_nobody_working(hands):
    # beside a thread that a test before left, all is done here, and what is endless never ends
    assert threading.active_count() == 1, threading.enumerate()
    asked = []

    def stop():
        asked.append(1)
        return len(asked) > 2

    with pytest.raises(Stopped):
        shared_out(_endless if hands > 1 else lambda _: None, 200, hands=hands, stop=stop)


@pytest.mark.parametrize("hands", [1, 2])
def test_what_was_done_is_kept_where_it_is_stopped(hands):
    done, kept = [], {}
    with pytest.raises(Stopped):
        shared_out(
            lambda n: n * n if n < 6 or hands == 1 else _endless(n), 40, hands=hands, kept=kept,
            stop=lambda: bool(done) and done[-1] >= 6 / 40, on_progress=done.append,
        )  # fmt: skip
    assert kept == {n: n * n for n in range(6)}


def test_progress_rises_to_the_whole():
    told = []
    shared_out(lambda n: n, 8, hands=2, on_progress=told.append)
    assert told == sorted(told)
    assert told[-1] == 1.0
