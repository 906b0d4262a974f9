"""Report, terminal and JSON say the same to the printed digit: each is read and compared."""

import json
import re

import pytest
from tests.report.reading import SVG, by_id, elements, strict, with_class, words

from firstfire.verdict.explain.opening import explanation
from firstfire.verdict.numbers import figures, shown

_THIN = "\u202f"


@pytest.fixture(scope="module")
def tree(each):
    return strict(each[1])


@pytest.fixture(scope="module")
def terminal(each):
    return str(each[0])


@pytest.fixture(scope="module")
def told(each):
    return json.loads(each[0].to_json())


def joined(text):
    """Words without the line breaks of 80 columns."""
    return " ".join(text.split())


def test_the_sentence(each, tree, terminal, told):
    answer = with_class(tree, "answer")[0]
    paragraphs = list(elements(answer, "p"))[:2]
    said = " ".join(words(p) for p in paragraphs)
    assert joined(said) == joined(told["verdict"]["sentence"])
    assert joined(said) in joined(terminal)


def test_the_card(tree, terminal):
    card = with_class(tree, "card")[0]
    rows = list(zip(elements(card, "dt"), elements(card, "dd"), strict=True))
    assert len(rows) >= 6
    for name, value in rows:
        assert f"{words(name)} {joined(words(value))}" in joined(terminal)


def ledger_rows(tree):
    for summary in elements(tree, "summary"):
        name = with_class(summary, "name")
        if name:
            factor = words(with_class(summary, "factor")[0])
            at = words(with_class(summary, "at")[0])
            yield words(name[0]), at, factor, words(with_class(summary, "word")[0])


def test_factors_on_the_terminal(tree, terminal):
    rows = list(ledger_rows(tree))
    assert len(rows) > 16
    lines = re.findall(r"^  (\w[\w ]*?) +[#=-]{10} (\S+ \(\S+\)) +\w+ +(.+)$", terminal, re.M)
    assert len(lines) == 16
    for (name, _, factor, word), (term_word, term_factor, term_name) in zip(
        rows, lines, strict=False
    ):
        assert factor == term_factor
        assert word == term_word
        assert name.startswith(term_name.rstrip("…"))


def test_factors_in_json(tree, told):
    by_name = {}
    for m in told["margins"]:
        if m["judged"] and not m["reported"] and m["unit"] != "K":
            by_name.setdefault((f"{m['part']} {m['failure']}", m["point"]), []).append(m)
    for name, at, factor, word in ledger_rows(tree):
        plain = re.sub(r" of cylinder \d", "", name)
        candidates = by_name[plain, at]
        said = [_span(m) for m in candidates]
        assert (factor, word) in [(s, m["word"]) for s, m in zip(said, candidates, strict=True)]


def _span(m):
    # Where nothing is asked of a part its factor is without end: null, as JSON has no such number.
    if m["factor"] is None or m["factor"] > 1000:
        return "far more than needed"
    two = [
        "99+" if v is None or v > 99 else figures(v, 2)
        for v in (m["factor"], m["factor_low"], m["factor_high"])
    ]
    return f"{two[0]} ({two[1]}–{two[2]})"


def test_factors_when_opened(each, tree):
    result, _ = each
    lines = [d for d in elements(tree, "details") if d.get("data-part") is not None]
    whys = {words(with_class(d, "name")[0]): with_class(d, "sentence") for d in lines}
    whole = [explanation(result, m) for m in result.margins if m.factor is not None]
    opened = {f"{one.sentence} {one.clock}".strip() for one in whole}
    assert whys
    for said in whys.values():
        assert words(said[0]) in opened


@pytest.mark.parametrize(
    ("id", "heading"),
    [("run-times", "How long full throttle may be held"), ("idle-times", "How long it may idle")],
)
def test_run_times(tree, terminal, told, id, heading):
    there = {e.get("id") for e in tree.iter()}
    assert (id in there) == (heading in terminal)
    if id == "idle-times" and id not in there:
        return  # an engine that doesn't idle has no such times, on neither
    table = by_id(tree, id)
    rows = [[words(c) for c in row if c.tag.endswith("td")] for row in elements(table, "tr")][1:]
    block = terminal.partition(heading)[2].partition("\n\n")[0]
    lines = re.findall(r"^ {2,}(\S+ (?:s|min))  (\S.*?(?:s|min)) +(\d+ rpm) +(\S.*)$", block, re.M)
    assert len(rows) >= len(lines) > 0
    for row, line in zip(rows, lines, strict=False):
        assert joined(row[0]) == joined(line[0])
        assert joined(row[1]) == joined(line[1])
        assert row[2] == line[2].strip()
    for row in rows:
        assert any(
            row[3].removeprefix("skin: ").startswith(r["part"])
            and r["seconds"] is not None
            and _lasting(r["seconds"]) == joined(row[0])
            for r in told["run_time"]
        )


def _lasting(seconds):
    number = seconds / 60 if seconds >= 90 else seconds
    return joined(f"{figures(number, 2)} {'min' if seconds >= 90 else 's'}")


def _ends(low, high, unit=1.0):
    if low is None:
        return ""
    ends = [figures(end / unit, 2) for end in (low, high)]
    return f" ({(' to ' if low < 0 else '–').join(ends)})"


def test_power_torque_and_peaks(tree, terminal, told):
    rows = {
        r.get("data-point"): [words(c) for c in r]
        for r in elements(tree, "tr")
        if r.get("data-point")
    }
    assert set(rows) == {p["name"] for p in told["operating_points"]}
    for point in told["operating_points"]:
        row = rows[point["name"]]
        watts = point["brake_power_w"]
        power = (
            f"{figures(watts / 1e3)}{_THIN}kW" if abs(watts) >= 1e3 else f"{figures(watts)}{_THIN}W"
        )
        unit = 1e3 if abs(watts) >= 1e3 else 1.0
        span = _ends(point["brake_power_low_w"], point["brake_power_high_w"], unit)
        assert row[1] == power + span
        span = _ends(point["brake_torque_low_nm"], point["brake_torque_high_nm"])
        assert row[2] == shown(point["brake_torque_nm"], "N*m") + span
        assert f"{row[0]:<20}{row[1]}" in terminal
        worst = max(point["cylinders"], key=lambda c: c["peak_pressure_rare_pa"])
        assert row[5] == figures(worst["peak_pressure_pa"] / 1e5)
        if point["spark_deg"] is not None:
            assert row[6] == figures(worst["peak_pressure_strong_pa"] / 1e5)
            assert row[7] == figures(worst["peak_pressure_rare_pa"] / 1e5)
            peaks = f"{row[5]} ({row[6]}, {row[7]})"
            assert re.search(re.escape(row[0]) + r".*" + re.escape(peaks), terminal)


def test_charts_say_what_the_tables_say(tree, told):
    best = max(
        (p for p in told["operating_points"] if p["event"] == "full_throttle"),
        key=lambda p: p["brake_power_w"],
    )
    for number, cylinder in enumerate(best["cylinders"], start=1):
        named = f"pressure-{number}-t pressure-{number}-d"
        chart = next(e for e in tree.iter(SVG + "svg") if e.get("aria-labelledby") == named)
        drawn = " ".join(words(t) for t in chart.iter(SVG + "text"))
        for key in ("peak_pressure_pa", "peak_pressure_strong_pa", "peak_pressure_rare_pa"):
            assert figures(cylinder[key] / 1e5) in drawn
