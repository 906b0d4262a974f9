"""A leak test on the terminal: the answer first, then what it rests on."""

from __future__ import annotations

import textwrap
from collections.abc import Iterator

from firstfire.bench.leak_test import GaugeTest, LeakFound
from firstfire.bench.learned_leak import Area
from firstfire.verdict.numbers import figures
from firstfire.verdict.words.text.lines import WIDTH

_NAMES = {
    "ring": "rings", "inlet_seat": "inlet seat", "exhaust_seat": "exhaust seat",
    "gasket": "head gasket", "plug": "plug", "wall": "printed wall",
}  # fmt: skip
_DOUBTS = {
    "dead": "volume of hose and adapter", "gauge": "error of the gauge",
    "valve": "spring of the check valve", "heat": "heat to the walls",
    "closing": "angle at which the inlet shuts", "speed": "cranking speed",
}  # fmt: skip
_WORTH_TELLING = 0.05


def leak_text(found: LeakFound, written: str, *, width: int = WIDTH) -> str:
    """The whole answer; `written` says what to do with the layer, below it what to type."""
    lines = _wrapped(_answer(found), width=width)
    lines += ["", *_wrapped(_beside(found), width=width)]
    lines += ["", "Leaks", "-----"]
    lines += [f"  {_NAMES[name]:<14}{area_words(area)}" for name, area in found.areas.items()]
    if found.learned.ring is None:
        lines += _wrapped(
            "One reading tells the sum: it is shared out as the file had it. A second with a few "
            "drops of oil on the rings (--oiled) tells the rings from the rest."
            if isinstance(found.test, GaugeTest)
            else "The test tells the sum: listen at crankcase, intake and exhaust for where.",
            width=width,
        )
    widths = [(n, w) for n, w in found.learned.widths.items() if w > _WORTH_TELLING]
    if widths:
        lines += ["", "What makes the span wide", "------------------------"]
        lines += [f"  {_DOUBTS[name]:<32}{share:.0%}" for name, share in widths]
        if widths[0][0] == "dead":
            lines += _wrapped(
                "Fill hose and adapter up to the check valve with water, measure it and say "
                '--hose "0.8 cm^3": that narrows it most.',
                width=width,
            )
    said, *typed = written.splitlines()
    lines += ["", *_wrapped(said, width=width), *typed, "", "Cautions", "--------"]
    for caution in found.cautions:
        lines += _wrapped(f"{caution.hazard}: {caution.text}", 2, width=width)
    return "\n".join(lines)


def area_words(area: Area) -> str:
    """An area with its span, mm²."""
    middle, low, high = (figures(a * 1e6, 2) for a in (area.middle, area.low, area.high))
    return f"{middle} mm² ({low} to {high})"


def _answer(found: LeakFound) -> str:
    which = "" if found.test.cylinder is None else f"Cylinder {found.test.cylinder}: "
    it = "it" if which else "It"
    return f"{which}{it} leaks {area_words(found.learned.total)}, 5 to 95 %; an estimate."


def _beside(found: LeakFound) -> str:
    assumed = f"The file had {figures(found.assumed * 1e6, 2)} mm² in all."
    if found.tight is None or not isinstance(found.test, GaugeTest):
        return assumed
    tight, shows = found.tight / 1e5, found.test.shows / 1e5
    return f"{assumed} Without a leak the gauge would show {tight:.1f} bar, not {shows:.1f}."


def _wrapped(text: str, indent: int = 0, *, width: int) -> list[str]:
    return list(_lines(text, indent, width=width))


def _lines(text: str, indent: int, *, width: int) -> Iterator[str]:
    space = " " * indent
    yield from textwrap.wrap(text, width, initial_indent=space, subsequent_indent=space)
