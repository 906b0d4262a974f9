"""What is read at the bench is the commands' own overlay; what is no reading is refused."""

import math
from dataclasses import replace

import pytest
from tests.pages.served import ROOT

import firstfire as ff
from firstfire.engine.read import with_layer_text
from firstfire.engine.resolve import resolve
from firstfire.pages.answers.measured import laid
from firstfire.pages.answers.messages import Measured
from firstfire.pages.desk.sheet import Sheet
from firstfire.pages.show.asking import asked
from firstfire.setup.fits.fits import fits

WREN, HERON = ROOT / "engines" / "wren.toml", ROOT / "engines" / "heron.toml"


def read(kind, file=WREN, over=(), **said):
    """What comes of a form; `_` in a field's name stands for its space."""
    about = replace(asked(Sheet(file.read_text()), file, 1), laid=tuple(over))
    fields = {name.replace("_", " "): value for name, value in said.items()}
    return laid(Measured(about, kind, fields, "a tab")).data


def over(text, file=WREN):
    return with_layer_text(text, "test", ff.read(file))


def test_a_printers_habit_is_what_fits_says_of_the_same_readings():
    found = read("printer", hole_1="12", hole_1_read="11,82", shaft_1="0.5 in",
                 shaft_1_read="12.75 mm", hole_2="10", hole_2_read=" ")  # fmt: skip
    assert found["text"] == fits(ff.read(WREN), ["hole 12=11.82 mm", "shaft 12.7=12.75 mm"]).layer
    assert (found["of"], found["tab"]) == ("printer", "a tab")
    assert found["words"] == (
        "Printer: holes -0.18 mm (1 read), shafts or outsides +0.05 mm (1 read)"
    )


def test_a_hole_that_comes_out_narrow_is_drawn_wider():
    found = read("printer", hole_1="10", hole_1_read="9.8", hole_2="12", hole_2_read="11.8")
    before, after = fits(ff.read(WREN)), fits(over(found["text"]))
    errors = [one.plain.printing.hole_error for one in (before, after)]
    drawn = [{s.id: s.drawn.hole for s in one.seats} for one in (before, after)]
    moved = [drawn[1][name] - drawn[0][name] for name in drawn[0] if drawn[0][name] is not None]
    assert errors[1] == pytest.approx(-0.2e-3)
    assert moved
    assert max(moved) == pytest.approx(errors[0] - errors[1])


def test_a_bore_is_the_mean_of_its_readings_as_built():
    found = read("bore", cylinder="1", top_along="39.98", top_across="40.02", bottom_along="40.06")
    plain = resolve(over(found["text"]))
    assert plain.cylinders[0].cylinder.bore == pytest.approx(40.02e-3)
    assert found["of"] == "bore 1"
    assert "40.02 mm, mean of 3; widest less narrowest 0.08 mm" in found["words"]


def test_a_twins_second_bore_is_its_own():
    bore = resolve(ff.read(HERON)).cylinders[0].cylinder.bore
    found = read("bore", HERON, cylinder="2", top_along=f"{1e3 * bore + 0.05:.3f}")
    rows = resolve(over(found["text"], HERON)).cylinders
    assert rows[0].cylinder.bore == pytest.approx(bore)
    assert rows[1].cylinder.bore == pytest.approx(bore + 0.05e-3)


def test_a_gauge_that_reads_less_teaches_a_larger_leak():
    areas = []
    for shows in ("6.2", "4.5 bar"):
        found = read("gauge", shows=shows, rpm="360")
        leak = resolve(over(found["text"])).cylinders[0].leak
        areas.append(math.fsum((leak.ring, leak.inlet_seat, leak.exhaust_seat, leak.gasket)))
    assert areas[1] > areas[0] > 0
    assert found["words"] == "Gauge: 4.5 bar at 360 rpm"


def test_a_test_piece_teaches_what_the_command_does():
    found = read("coupon", piece="bar petg", read_1="4.1", read_2="4.6 kg")
    wanted = ff.bench_tests(ff.read(WREN), ["bar petg=4.1 kg", "bar petg=4.6 kg"]).layer
    assert found["text"] == wanted
    assert found["of"] == "coupon bar petg"


@pytest.mark.parametrize(
    ("kind", "said", "words"),
    [
        ("printer", {"hole_1": "12"}, "Nothing was read yet"),
        ("printer", {"hole_1": "12", "hole_1_read": "wide"}, "hole 12"),
        ("printer", {"hole_1": "12", "hole_1_read": "9"}, "No printer is a millimetre off"),
        ("bore", {"top_along": "50"}, "the file's bore is 40.00 mm"),
        ("bore", {"cylinder": "2", "top_along": "40"}, "one cylinder"),
        ("gauge", {"shows": "", "rpm": "fast"}, "What the gauge shows is missing"),
        ("gauge", {"shows": "6.2", "rpm": "36000"}, "cranking speed is beyond what makes sense"),
        ("coupon", {"piece": "bar gold", "read_1": "4"}, "names no test piece"),
        ("coupon", {"piece": "bar petg"}, "Nothing was read yet"),
    ],
)
def test_what_is_no_reading_is_said_in_words(kind, said, words):
    found = read(kind, **said)
    assert "text" not in found
    assert words in " ".join(found["wrong"])
    assert "--" not in " ".join(found["wrong"])


def test_all_that_is_wrong_with_a_form_is_said_at_once():
    assert len(read("gauge", shows="much", rpm="fast")["wrong"]) == 2


def test_what_lies_over_already_counts():
    first = read("printer", hole_1="12", hole_1_read="11.8")["text"]
    assert "text" in read("bore", over=[first], top_along="40.02")
    assert "wrong" in read("bore", over=["schema = 1"], top_along="40.02")
