"""The parts list on the terminal: what to print, buy, make, and take to the store."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from firstfire.setup import laid
from firstfire.setup.all_parts import AllParts
from firstfire.setup.have import Fitting
from firstfire.setup.laid import Span
from firstfire.setup.printed import Printed
from firstfire.setup.text_have import have_lines
from firstfire.setup.text_items import bought_lines, hung, made_lines, store_lines
from firstfire.setup.words import many, percent
from firstfire.verdict.numbers import THIN, figures, shown
from firstfire.verdict.words.text.lines import WIDTH, heading, wrapped


def parts_text(found: AllParts, fitted: Sequence[Fitting] = (), *, width: int = WIDTH) -> str:
    """The whole list as text, what one has at hand first."""
    lines = wrapped(opening(found), width=width)
    if fitted:
        lines += [*heading("What you have"), *have_lines(fitted, width=width)]
    lines += [*heading("To print"), *_printed(found, width=width)]
    lines += [
        *heading("To buy, and what to measure when it comes"),
        *bought_lines(found, width=width),
    ]
    lines += [*heading("To make by hand"), *made_lines(found, width=width)]
    lines += heading("Yours to choose: the file gives no size")
    for thing in found.open:
        lines += hung(f"{thing.what}: {thing.why}.", 2, 4, width=width)
    lines += [*heading("To take to the store"), *store_lines(found, width=width)]
    if found.cautions:
        lines += heading("Mind")
        for caution in found.cautions:
            lines += hung(f"{caution.hazard}: {caution.text}", 2, 4, width=width)
    lines += heading("How mass and hours were had")
    for sentence in estimates(found):
        lines += hung(sentence, 2, 2, width=width)
    return "\n".join(lines)


def opening(found: AllParts) -> str:
    """The sum of it in a sentence."""
    count = sum(part.count for part in found.printed)
    bought = sum(item.count for item in found.bought)
    if not count:
        printed = "nothing is printed"
    else:
        printed = (
            f"{many(count, 'printed part')}, {shown(found.printed_mass, 'g')} of plastic, about "
            f"{hours(found.print_time)} on the printer"
        )
    jobs = many(sum(job.count for job in found.made), "job")
    return (
        f"{found.engine.name}: {printed}; {bought} bought pieces; {jobs} by hand. Masses and "
        "hours are estimates."
    )


def hours(time: Span) -> str:
    """A print's time with its span.

    Examples
    --------
    >>> hours(Span(3600.0, 1800.0, 6000.0)).replace(THIN, " ")
    '1 h (0.5–1.7)'
    >>> hours(Span(600.0, 300.0, 1000.0)).replace(THIN, " ")
    '10 min (5–17)'
    """
    scale, unit = (3600.0, "h") if time.value >= 3600 else (60.0, "min")
    value, low, high = (figures(t / scale, 2) for t in time)
    return f"{value}{THIN}{unit} ({low}–{high})"


def _printed(found: AllParts, *, width: int) -> Iterator[str]:
    if not found.printed:
        yield "  Nothing: no part of this engine is printed."
    for alike in dict.fromkeys(map(laid_so, found.printed)):
        yield from hung(alike, 2, 4, width=width)
        for part in found.printed:
            if laid_so(part) == alike:
                yield from _part(part, width=width)
        yield ""
    for name, mass, long in _by_material(found):
        yield from hung(f"{name}: {shown(mass, 'g')}{long}", 2, 4, width=width)


def _part(part: Printed, *, width: int) -> Iterator[str]:
    name = f"    {part.count} × {part.part}"
    time = Span(*(part.count * t for t in part.time))
    told = f"{shown(part.count * part.mass, 'g'):>9}   {hours(time)}"
    room = min(42, width - len(told))
    if len(name) < room:
        yield f"{name:<{room}}{told}"
    else:
        yield from (name, f"        {told.strip()}")
    yield from hung(f"{part.lies}; {part.weak}", 8, 8, width=width)


def laid_so(part: Printed) -> str:
    """Of what and how: the line that parts printed alike stand under."""
    assumed = " (the file says nothing of these: assumed)" if part.assumed else ""
    if part.resin:
        return f"{part.material_name}, which comes out solid{assumed}"
    filled = "solid" if part.infill >= 1 else f"{percent(part.infill)} infill"
    return (
        f"{part.material_name}: {part.walls} walls of {shown(part.line_width, 'mm')}, {filled}, "
        f"layers of {shown(part.layer_height, 'mm')}{assumed}"
    )


def _by_material(found: AllParts) -> Iterator[tuple[str, float, str]]:
    """Each material with its sum, and how much filament that is."""
    for name in dict.fromkeys(part.material_name for part in found.printed):
        these = [part for part in found.printed if part.material_name == name]
        mass = sum(part.count * part.mass for part in these)
        volume = sum(part.count * part.plastic for part in these)
        more = shown(mass * (1 + laid.ALLOWANCE), "g", 2)
        amount = (
            f"{figures(volume * 1e6)}{THIN}ml"
            if these[0].resin
            else f"{figures(laid.filament_length(volume))}{THIN}m of 1.75{THIN}mm filament"
        )
        yield name, mass, f", {amount}; have {more} at hand"


def estimates(found: AllParts) -> Iterator[str]:
    """How masses and hours were formed, in sentences."""
    yield (
        "Volume: of simple bodies with the file's own sizes, without lugs, flanges, fins and "
        f"fillets; allow {percent(laid.ALLOWANCE)} for them, for skirts and for supports (common "
        "practice, no source). Plastic: lines on both faces of the thickest wall, infill between. "
        "Mass: that times the material's density."
    )
    if any(part.resin for part in found.printed):
        value, low, high = (figures(r * 3.6e6, 2) for r in laid.RISE)
        yield (
            f"Hours: a resin printer builds {value} mm of height an hour ({low} to {high}), "
            "whatever stands beside each other (common practice, no source). Parts that share a "
            "plate cost only the tallest's hours."
        )
    if any(not part.resin for part in found.printed):
        value, low, high = (figures(f * 1e9, 2) for f in laid.FLOW)
        yield (
            f"Hours: a common printer lays down {value} mm³ a second ({low} to {high}), travel "
            "and slow outer lines counted (common practice, no source)."
        )
