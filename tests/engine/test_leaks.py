"""Leak by what the rings are, as a default; measured and set values in its place."""

import pytest

from firstfire.engine.read import with_values
from firstfire.engine.resolve import resolve
from firstfire.engine.unknowns import unknowns
from firstfire.errors import EngineFileError


def ring(engine):
    return 1e6 * resolve(engine).cylinders[0].leak.ring


def span(engine):
    found = next(u for u in unknowns(engine) if u.path == "leak.ring")
    return 1e6 * found.low, 1e6 * found.high, found.distribution


def with_rings(say, **more):
    return with_values(say(), {f"rings.{k}": v for k, v in more.items()})


def test_an_oring_in_squeeze_seals_better_than_split_rings(say):
    oring, ptfe = with_rings(say, kind="o_ring"), with_rings(say, kind="ptfe")
    iron = with_values(with_rings(say, kind="metal"), {"piston.material": "aluminium_6061_t6"})
    assert ring(oring) < ring(iron) < ring(ptfe)


def test_its_span_holds_a_tight_ring_and_a_nicked_one(say):
    """Tight, under 0.003 mm²; nicked, as much as the gap of iron rings and more."""
    low, high, shape = span(with_rings(say, kind="o_ring"))
    assert shape == "loguniform"
    assert low < 0.003
    assert high > 0.1


@pytest.mark.parametrize("finish", ["sanded", "as_cut", "as_printed"])
def test_a_rough_bore_leaks_more(say, finish):
    smooth = say("[liner]\nbore_finish = 'smooth'\n")
    assert ring(with_values(smooth, {"liner.bore_finish": finish})) > ring(smooth)


def test_less_squeeze_leaks_more(say):
    by_squeeze = [ring(with_rings(say, squeeze=s)) for s in (0.15, 0.10, 0.05, 0.02)]
    assert by_squeeze == sorted(by_squeeze)
    assert by_squeeze[-1] > 10 * by_squeeze[0]


def test_a_deeper_groove_than_drawn_leaks_more(say):
    drawn = say("[rings]\ngroove_depth = '2.2 mm'\n")
    cut = say(
        "[rings]\ngroove_depth = '2.2 mm'\n"
        "[as_built.rings]\ngroove_depth = { value = '2.45 mm', with = 'caliper' }\n"
    )
    assert ring(cut) > ring(drawn)


def test_set_and_measured_values_take_its_place(say):
    tried = with_values(say(), {"leak.ring": "0.07 mm^2"})
    assert ring(tried) == pytest.approx(0.07)
    built = say("[as_built.leak]\nring = { value = '0.05 mm^2', kind = 'measured' }\n")
    assert ring(built) == pytest.approx(0.05)
    low, high, shape = span(built)
    assert shape == "normal"
    assert high - low < 0.05


def test_a_span_that_is_said_is_kept(say):
    engine = say("[leak]\nring = { value = '0.1 mm^2', low = '0.05 mm^2', high = '0.2 mm^2' }\n")
    low, high, shape = span(engine)
    assert (low, high, shape) == (pytest.approx(0.05), pytest.approx(0.2), "lognormal")


def test_a_span_down_to_nothing_is_even_in_itself(say):
    engine = say("[leak]\nring = { value = '0.1 mm^2', low = '0.001 mm^2', high = '0.15 mm^2' }\n")
    assert span(engine) == (pytest.approx(0.05), pytest.approx(0.15), "normal")


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("[leak]\nring = { value = '0.1 mm^2', low = '0.2 mm^2', high = '0.3 mm^2' }\n", "between"),
        ("[leak]\nring = { value = '0.1 mm^2', low = '0.05 mm^2' }\n", "one end"),
        (
            "[pin]\ndiameter = { value = '9 mm', low = '8 mm', high = '10 mm' }\n",
            "what is uncertain alone",
        ),
    ],
)
def test_a_span_that_makes_no_sense_is_refused(say, text, said):
    with pytest.raises(EngineFileError, match=said):
        say(text)
