"""What a reading is worth, from shares of a doubt that are given; and how that is told."""

from __future__ import annotations

from dataclasses import dataclass, replace
from types import SimpleNamespace

import numpy as np
import pytest

from firstfire.engine.readings_table import Reading
from firstfire.verdict.doubt import contract, doubt, text, words
from firstfire.verdict.doubt.doubt import BearsOn, Doubts, Worth, _inputs, _worth, doubts, weighed
from firstfire.verdict.doubt.questions import Question, Through
from firstfire.verdict.numbers import THIN

ROD = Reading("rod.big_end_width", "rod's width", "caliper", "Close the jaws on it.", minutes=3.0)


def test_the_odds_count_as_much_as_both_times_together():
    """(0.4 + (0.1 + 0.3) / 2) / 2 = 0.3; of two times their mean; the odds by themselves."""
    assert weighed({"odds": 0.4, "full_throttle": 0.1, "idle": 0.3}) == pytest.approx(0.3)
    assert weighed({"full_throttle": 0.1, "idle": 0.3}) == pytest.approx(0.2)
    assert weighed({"odds": 0.4}) == pytest.approx(0.4)
    assert weighed({}) == 0.0


ANSWERS = {"odds": np.array([1.0, 0.0, 1.0]), "full_throttle": np.array([2.0, 3.0, 5.0])}
PLACES = {
    "rod.big_end_width": np.array([1.0, 2.0, 3.0]),
    "cylinders.2.rod.big_end_width": np.array([4.0, 5.0, 6.0]),
}
LUCK = {f"error of the reading of {name}": at + 10.0 for name, at in PLACES.items()}


class Bells:
    def of(self, name):
        return {**PLACES, **LUCK}[name]


def question(which):
    one = Through("rod.tear", "full", np.array([0.0, 0.0, 3.0]))
    other = Through("pin.bend", "idle", np.array([3.0, 0.0, 0.0]))
    return Question(which, ANSWERS[which], (one, other))


def one_input(path, span=True):
    return SimpleNamespace(path=path, names=(path,), span=f"span of {path}" if span else None)


ALIKE = [one_input("rod.big_end_width"), one_input("cylinders.2.rod.big_end_width")]


@pytest.fixture
def shared(monkeypatch):
    """Each cylinder's input makes 0.2 of the odds and 0.05 of a time; a reading tells half.

    Known to a quarter in the first cylinder, to a half in the second.
    """
    seen = SimpleNamespace(reading=ROD, known=(0.2, 0.05), told=(0.1, 0.04))

    def shares_told(answers, places):
        assert answers.tolist() == [ANSWERS["odds"].tolist(), ANSWERS["full_throttle"].tolist()]
        true = any(places is one for one in PLACES.values())
        return np.array(seen.known if true else seen.told)

    def read_with_error(true, left, luck):
        name = next(name for name, at in PLACES.items() if at is true)
        assert left == (0.25 if name == "rod.big_end_width" else 0.5)
        assert luck is LUCK[f"error of the reading of {name}"]
        return luck.copy()

    def span_left(reading, span, engine):
        assert (reading, engine) == (seen.reading, "engine")
        return {"span of rod.big_end_width": 0.25, "span of cylinders.2.rod.big_end_width": 0.5}[
            span
        ]

    def reading_of(engine, path):
        assert (engine, path) == ("engine", "rod.big_end_width")
        return seen.reading

    for name, gives in {
        "shares_told": shares_told, "read_with_error": read_with_error, "span_left": span_left,
        "reading_of": reading_of,
    }.items():  # fmt: skip
        monkeypatch.setattr(doubt, name, gives)
    return seen


BOTH = [question("odds"), question("full_throttle")]


def test_of_two_cylinders_shares_add_and_so_do_minutes(shared):
    """0.2 + 0.2 and 0.05 + 0.05 known; 0.1 + 0.1 and 0.04 + 0.04 told; twice 3 minutes.

    Most is of the odds: (3 · 3) / 3 through the rod against (3 · 1) / 3, and of the second
    cylinder 6 against 4.
    """
    found = _worth("engine", ALIKE, BOTH, Bells())
    assert found.reading is ROD
    assert found.spans == ("span of rod.big_end_width", "span of cylinders.2.rod.big_end_width")
    assert found.left == 0.5
    assert found.known == pytest.approx({"odds": 0.4, "full_throttle": 0.1})
    assert found.told == pytest.approx({"odds": 0.2, "full_throttle": 0.08})
    assert found.minutes == pytest.approx(6.0)
    assert found.bears_on == BearsOn("rod.tear", "full", "odds")
    assert found.rank == pytest.approx(0.14)
    assert replace(found, reading=replace(ROD, why_not="no")).rank == pytest.approx(0.25)


def test_a_reading_tells_no_more_than_knowing_and_a_running_engine_nothing_of_its_odds(shared):
    shared.told = (0.3, 0.3)
    shared.reading = replace(ROD, stage="running")
    found = _worth("engine", ALIKE, BOTH, Bells())
    assert found.told == pytest.approx({"odds": 0.0, "full_throttle": 0.1})
    shared.known = (0.004, 0.0049)
    assert _worth("engine", ALIKE, BOTH, Bells()).bears_on is None


def test_what_has_no_span_is_not_read(shared):
    found = _worth("engine", [one_input("rod.big_end_width", span=False)], BOTH, Bells())
    assert (found.left, found.spans) == (1.0, ())
    assert found.told == {"odds": 0.0, "full_throttle": 0.0}


def worth(share, reading=ROD, **more):
    parts = {
        "reading": reading, "spans": (), "left": 0.5, "known": {"odds": share},
        "told": {"odds": share}, "minutes": 3.0, "bears_on": None, **more,
    }  # fmt: skip
    return Worth(**parts)


def test_most_worth_is_first(monkeypatch):
    """Of 0.1, 0.3 and 0.2, the last beyond reach."""
    sure = Question("odds", np.array([1.0, 1.0, 1.0]), ())
    bells, stop = Bells(), object()
    shares = {"a": worth(0.1), "b": worth(0.3), "c": worth(0.2, replace(ROD, why_not="no"))}
    result = SimpleNamespace(engine="engine", verdict=SimpleNamespace(odds=0.6), margins=["one"])

    def asked(of, halt):
        assert (of, halt) == (result, stop)
        return SimpleNamespace(questions=[sure, BOTH[1]], bells=bells)

    def of(engine, alike, in_doubt, drawn):
        assert (engine, in_doubt, drawn) == ("engine", [BOTH[1]], bells)
        return shares[alike]

    monkeypatch.setattr(doubt, "asked", asked)
    monkeypatch.setattr(doubt, "_worth", of)
    monkeypatch.setattr(doubt, "_inputs", lambda of: "abc" if of is result else "")
    monkeypatch.setattr(doubt, "in_the_odds", lambda margins: margins)
    found = doubts(result, stop)
    assert (found.engine, found.odds, found.judged) == ("engine", 0.6, True)
    assert (found.doubtful, found.sure) == (("full_throttle",), ("odds",))
    assert found.readings == (shares["b"], shares["a"])
    assert found.beyond == (shares["c"],)


def test_inputs_of_several_cylinders_are_one_and_scatter_is_each_pieces(monkeypatch):
    unknowns = [
        SimpleNamespace(path=path)
        for path in ("rod.length", "cylinders.2.rod.length", "doubt.strength_scatter")
    ]
    cycle = SimpleNamespace(cylinders="figures")
    bout = SimpleNamespace(point=SimpleNamespace(fired=SimpleNamespace(cycle=cycle)))
    event = SimpleNamespace(bouts=[bout], spreads=[SimpleNamespace(names=(doubt.SPEED,))])
    result = SimpleNamespace(
        engine="engine", events=[event], plain=SimpleNamespace(cylinders=[1, 2])
    )
    monkeypatch.setattr(
        doubt, "Trials", lambda of: SimpleNamespace(of_a_check=unknowns if of == "engine" else [])
    )
    monkeypatch.setattr(doubt, "pieces", lambda count: ("rod", "rod#2")[:count])
    monkeypatch.setattr(
        doubt, "uneven", lambda plain, of: plain is result.plain and of == "figures"
    )
    rods, scatter, speed, turn = _inputs(result)
    assert [(one.path, one.names, one.span) for one in rods] == [
        (one.path, (one.path,), one) for one in unknowns[:2]
    ]
    (lucky,) = scatter
    assert lucky.names == ("doubt.strength_scatter of rod", "doubt.strength_scatter of rod#2")
    assert ([one.path for one in speed], speed[0].names) == ([doubt.SPEED], (doubt.SPEED,))
    assert (turn[0].path, turn[0].names) == (doubt.TURN, ())


# How it is told.
@dataclass(frozen=True)
class Row:
    name: str
    unit: str = ""


class Catalog:
    """One tool, and a plastic whose strength is in MPa."""

    def row(self, kind, key):
        rows = {
            ("instrument", "caliper"): Row("Caliper of 150 mm, inside jaws"),
            ("material", "pla"): {"strength": Row("", "MPa")},
        }
        return rows[kind, key]


MAKE = SimpleNamespace(name="Wren", cylinders=2, catalog=Catalog())


def spanned(path, low, high):
    return SimpleNamespace(
        path=path, low=low, high=high, distribution="normal", centre=(low + high) / 2,
        origin="file", source="own",
    )  # fmt: skip


WIDTH = spanned("rod.big_end_width", 0.019, 0.021)


def all_doubts(*worths, **more):
    parts = {
        "engine": MAKE, "odds": 0.6, "doubtful": ("odds",), "sure": ("idle",), "readings": worths,
        "beyond": (), **more,
    }  # fmt: skip
    return Doubts(**parts)


def test_a_tool_is_named_without_its_size():
    tool = SimpleNamespace(row=lambda *_: Row("Caliper, inside jaws of 150 mm"))
    inside = SimpleNamespace(catalog=tool)
    assert words.instrument_words(inside, worth(0.1)) == "caliper (inside jaws)"
    assert words.instrument_words(MAKE, worth(0.1)) == "caliper"


def test_a_span_is_told_from_low_to_high_in_the_unit_of_its_path():
    assert words.span_words(MAKE, WIDTH) == f"19 to 21{THIN}mm"
    strength = spanned("materials.pla.strength", 30e6, 60e6)
    assert words.span_words(MAKE, strength) == f"30 to 60{THIN}MPa"
    assert words.span_words(MAKE, spanned("doubt.wall_heat", 0.5, 2.0)) == "0.5 to 2 times"


@pytest.mark.parametrize(
    ("left", "told"), [(0.5, "half"), (0.41, "half"), (0.4, "4 tenths"), (0.02, "1 tenth"),
                       (0.91, "all"), (0.9, "9 tenths")]
)  # fmt: skip
def test_what_a_reading_leaves_is_told_in_tenths(left, told):
    assert words.left_words(worth(0.1, left=left)) == f"a reading leaves {told} of it"


def test_the_sentence_names_the_tool_and_what_it_decides():
    assert words.sentence(all_doubts(worth(0.51, minutes=6.0))) == (
        "Wren: measure the rod's width first: a caliper, 6 minutes. It decides 51 of 100 of the "
        "doubt about whether anything gives way up to the first second of full throttle."
    )


def test_what_readings_decide_together_is_their_sum():
    """0.25 and 0.5 of the odds; nothing of the idle is known of either."""
    found = words.together([worth(0.25), worth(0.5)], ["odds", "idle"])
    assert found == {"odds": 0.75, "idle": 0.0}


def test_shares_stand_behind_words_that_leave_room_for_them():
    """Three columns of six and the margins are 24 of 60: words of 36, two from the left.

    They are 14, 27 and 32 letters long; a number of two letters stands behind four more spaces.
    """
    kept = worth(0.1, replace(ROD, why_not="it is inside a wall", spins=True))
    bears = BearsOn("rod.tear", "full", "odds")
    found = all_doubts(
        worth(0.51, spans=(WIDTH,), bears_on=bears), worth(0.2, spans=(WIDTH,)), beyond=(kept,)
    )
    told = text.doubt_text(found, width=60).splitlines()
    head = next(line for line in told if line.endswith("  odds  full  idle"))
    dashes = "     –" * 2
    at = told.index("  1. rod's width" + " " * (36 - 14 + 4) + "51" + dashes)
    assert told[at + 1] == "     caliper, 3 minutes, with the part in hand"
    assert " ".join(told[at + 2 : at + 4]).startswith(
        f"     rod.big_end_width: 19 to 21{THIN}mm now; a reading"
    )
    assert any(line.startswith("     bears on: ") and line.endswith("(full)") for line in told)
    assert "     Close the jaws on it." in told
    assert "  All 2 of them, at the least" + " " * (36 - 27 + 4) + "71" + dashes in told
    assert "  rod's width: it is inside a wall" + " " * (36 - 32 + 4) + "10" + dashes in told
    assert (len(head), max(map(len, told)) <= 60) == (2 + 36 + 18, True)
    assert "Not in doubt: how long it idles." in " ".join(told)


def test_a_reading_in_its_contract():
    bears = BearsOn("rod.tear#2", "full", "odds")
    one = worth(0.51, spans=(WIDTH,), bears_on=bears)
    (told,) = contract.told(all_doubts(one)).readings
    assert (told.instrument.key, told.instrument.words) == ("caliper", "caliper")
    (span,) = told.spans
    assert (span.low, span.high, span.shown) == (0.019, 0.021, f"19 to 21{THIN}mm")
    assert (told.minutes, told.decides.odds, told.span_left) == (3.0, 0.51, 0.5)
    assert told.bears_on.words == words.bears_words(bears, 2)
    assert " of cylinder 2 " in told.bears_on.words
    kept = worth(0.1, replace(ROD, why_not="no"))
    (beyond,) = contract.told(all_doubts(beyond=(kept,))).beyond
    assert (beyond.instrument, beyond.minutes, beyond.bears_on) == (None, None, None)
