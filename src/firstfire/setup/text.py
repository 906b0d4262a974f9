"""The parts list on the terminal: 80 columns, what to print, buy, make, and take to the store."""

from __future__ import annotations

import textwrap
from collections.abc import Iterator

from firstfire.setup import laid
from firstfire.setup.item import GROUPS, Check, Item, Job
from firstfire.setup.laid import Span
from firstfire.setup.parts_list import PartsList
from firstfire.setup.printed import Printed
from firstfire.setup.words import many
from firstfire.verdict.numbers import THIN, figures, shown
from firstfire.verdict.text.show import heading, wrapped

_WIDE = 80


def parts_text(found: PartsList) -> str:
    """The whole list as text."""
    lines = wrapped(_opening(found))
    lines += [*heading("To print"), *_printed(found)]
    lines += [*heading("To buy, and what to measure when it comes"), *_bought(found)]
    lines += [*heading("To make by hand"), *_made(found)]
    lines += [*heading("Yours to choose: the file gives no size"), *_open(found)]
    lines += [*heading("To take to the store"), *_store(found)]
    lines += [*heading("How mass and hours were had"), *_estimated(found)]
    return "\n".join(lines)


def hours(time: Span) -> str:
    """A print's time with its span.

    Examples
    --------
    >>> hours(Span(3600.0, 1800.0, 6000.0)).replace(THIN, " ")
    '1 h (0.5–1.7)'
    """
    low, high = figures(time.low / 3600, 2), figures(time.high / 3600, 2)
    return f"{figures(time.value / 3600, 2)}{THIN}h ({low}–{high})"


def _opening(found: PartsList) -> str:
    count = sum(part.count for part in found.printed)
    bought = sum(item.count for item in found.bought)
    return (
        f"{found.engine.name}: {many(count, 'printed part')}, {shown(found.printed_mass, 'g')} of "
        f"plastic, about {hours(found.print_time)} on the printer; {bought} bought pieces; "
        f"{many(sum(job.count for job in found.made), 'job')} by hand. Masses and hours are "
        "estimates."
    )


def _hung(first: str, hang: int = 6) -> list[str]:
    return textwrap.wrap(
        first, _WIDE, initial_indent="  ", subsequent_indent=" " * hang, break_on_hyphens=False
    )


def _under(text: str, indent: int = 6) -> list[str]:
    space = " " * indent
    return textwrap.wrap(
        text, _WIDE, initial_indent=space, subsequent_indent=space + "  ", break_on_hyphens=False
    )


def _printed(found: PartsList) -> Iterator[str]:
    for part in found.printed:
        name = f"  {part.count} × {part.part}"
        yield f"{name:<42}{shown(part.count * part.mass, 'g'):>9}  {hours(_times(part))}"
        yield from _under(_laid(part))
        if part.assumed:
            yield from _under(f"{part.assumed[:1].upper()}{part.assumed[1:]}.")
    if not found.printed:
        yield "  Nothing: no part of this engine is printed."
    for name, mass, long in _by_material(found):
        yield ""
        yield from _hung(f"{name}: {shown(mass, 'g')}{long}")


def _times(part: Printed) -> Span:
    return Span(*(part.count * t for t in part.time))


def _laid(part: Printed) -> str:
    if part.resin:
        how = f"{part.material_name}, comes out solid"
    else:
        filled = "solid" if part.infill >= 1 else f"{part.infill:.0%} infill"
        how = (
            f"{part.material_name}, {part.walls} walls of {shown(part.line_width, 'mm')}, {filled}"
        )
    return f"{how}; {part.lies}: {part.weak}."


def _by_material(found: PartsList) -> Iterator[tuple[str, float, str]]:
    """Each material with its sum, and how much filament that is."""
    names = dict.fromkeys(part.material_name for part in found.printed)
    for name in names:
        these = [part for part in found.printed if part.material_name == name]
        mass = sum(part.count * part.mass for part in these)
        volume = sum(part.count * part.plastic for part in these)
        more = shown(mass * (1 + laid.ALLOWANCE), "g", 2)
        if these[0].resin:
            yield name, mass, f", {figures(volume * 1e6)}{THIN}ml; have {more} at hand"
        else:
            long = figures(laid.filament_length(volume))
            yield name, mass, f", {long}{THIN}m of 1.75 mm filament; have {more} at hand"


def _bought(found: PartsList) -> Iterator[str]:
    for group in GROUPS:
        items = [item for item in found.bought if item.group == group]
        if not items:
            continue
        yield from ("" if group != _first_group(found) else None,) if False else ()
        yield f"  {group}"
        for item in items:
            yield from _item(item, found)
        yield ""


def _first_group(found: PartsList) -> str:
    return found.bought[0].group


def _item(item: Item, found: PartsList) -> Iterator[str]:
    size = f": {item.size}" if item.size else ""
    rule = f" [{item.standard}]" if item.standard else ""
    yield from _under(f"{item.count} × {item.what}{size}; {item.use}.{rule}", 4)
    for check in item.checks:
        yield from _under(f"measure {check_words(check, found)}", 8)
    if item.note:
        yield from _under(item.note, 8)


def check_words(check: Check, found: PartsList) -> str:
    """What to measure, with what, and which reading is right."""
    tool = found.engine.catalog.row("instrument", check.tool)
    name = tool.name[:1].lower() + tool.name[1:]
    head = f"{check.of} with {_article(name)}{name}, {check.how}"
    if check.wanted is None:
        return f"{head}: {check.why}."
    return (
        f"{head}: {limits(check)}. {check.why[:1].upper()}{check.why[1:]}.{_coarse(check, found)}"
    )


def _article(name: str) -> str:
    return "an " if name[:1] in "aeiou" else "a "


def limits(check: Check) -> str:
    """The reading wanted and its limits, no finer than a hundredth where that tells all."""
    low, high = check.low, check.high
    narrow = low is not None and high is not None and check.unit == "mm" and high - low < 0.05e-3
    digits = 5 if narrow else 4
    said = shown(check.wanted, check.unit, digits)
    if low is not None and high is not None:
        return f"{said} ({_bare(low, check, digits)} to {_bare(high, check, digits)})"
    if low is not None:
        return f"{said} ({_bare(low, check, digits)} at least)"
    return said


def _bare(value: float, check: Check, digits: int) -> str:
    return shown(value, check.unit, digits).split(THIN)[0]


def _coarse(check: Check, found: PartsList) -> str:
    """A warning where the tool can't see the limits."""
    error = found.engine.catalog.row("instrument", check.tool).get("error")
    if error is None or check.low is None or check.high is None or check.unit != "mm":
        return ""
    if error.si <= (check.high - check.low) / 2:
        return ""
    return f" It reads {shown(error.si, 'mm')} off: it tells a wrong part, not the fit."


def _made(found: PartsList) -> Iterator[str]:
    for job in found.made:
        yield from _job(job)


def _job(job: Job) -> Iterator[str]:
    times = "" if job.count == 1 else f" ({job.count} times)"
    yield from _under(f"{job.do} {job.what}{times}: {job.size}{_within(job)}.", 2)
    yield from _under(f"{job.tool}; {job.why}.", 6)


def _within(job: Job) -> str:
    if job.target is None or job.low is None or job.high is None or " – " in job.size:
        return ""
    below, above = job.target - job.low, job.high - job.target
    if abs(below - above) < 1e-9:
        return f", ± {shown(above, 'mm', 2)}"
    return f", +{figures(above * 1e3, 2)} −{figures(below * 1e3, 2)}{THIN}mm"


def _open(found: PartsList) -> Iterator[str]:
    for thing in found.open:
        yield from _hung(f"{thing.what}: {thing.why}.")


def _store(found: PartsList) -> Iterator[str]:
    for item in found.bought:
        size = f", {item.size}" if item.size else ""
        yield from _hung(f"[ ] {item.count} × {item.what}{size}", 8)
    tools = [found.engine.catalog.row("instrument", tool).name for tool in found.tools]
    yield ""
    yield from _hung(f"And to measure with: {', '.join(t[:1].lower() + t[1:] for t in tools)}.", 2)


def _estimated(found: PartsList) -> Iterator[str]:
    flow, rise = laid.FLOW, laid.RISE
    yield from _hung(
        "Volume: of simple bodies with the file's own sizes, without lugs, flanges, fins and "
        f"fillets; allow {laid.ALLOWANCE:.0%} for them, for skirts and for supports (common "
        "practice, no source). Plastic: lines on both faces of the thickest wall, infill between. "
        "Mass: that by the material's density.",
        2,
    )
    if any(part.resin for part in found.printed):
        rates = [f"{figures(r * 3.6e6, 2)}" for r in rise]
        yield from _hung(
            f"Hours: a resin printer builds {rates[0]} mm of height an hour ({rates[1]} to "
            f"{rates[2]}), whatever stands beside each other (common practice, no source). Parts "
            "that share a plate cost only the tallest's hours.",
            2,
        )
    if any(not part.resin for part in found.printed):
        rates = [f"{figures(f * 1e9, 2)}" for f in flow]
        yield from _hung(
            f"Hours: a common printer lays down {rates[0]} mm³ a second ({rates[1]} to {rates[2]}),"
            " travel and slow outer lines counted (common practice, no source).",
            2,
        )
