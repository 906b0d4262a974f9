"""What readings of a cam drive say, on the terminal."""

from __future__ import annotations

from firstfire.setup.misset import words
from firstfire.setup.misset.facts import MissetFacts
from firstfire.setup.misset.faults import drive_of, seen
from firstfire.setup.timing.places import degrees, where
from firstfire.verdict.words.text.lines import WIDTH, heading, wrapped

_SHOWN = 4


def misset_text(found: MissetFacts, *, width: int = WIDTH) -> str:
    """The answer, how each reading fits it, what to do, and what else it could be."""
    lines = wrapped(words.verdict(found), width=width)
    if found.found is not None:
        lines += ["", *_readings(found)]
        lines += heading("What to do")
        for number, said in enumerate(words.cures(found.plain, found.found), 1):
            lines += wrapped(f"{number}. {said}", 2, width=width, hang=5)
        risk = words.risks(found.plain, found.found.fault)
        lines += wrapped(risk, 2, width=width) if risk else []
    edges = list(words.edge_words(found))
    if edges:
        lines += heading("Sensor, breaker and spark")
        for said in edges:
            lines += wrapped(said, 2, width=width, hang=4)
    if found.others:
        lines += heading("What would read the same")
        for one in found.others[:_SHOWN]:
            lines += wrapped(f"- {words.fault_words(one.fault)}", 2, width=width, hang=4)
    for more in (words.next_words(found), words.top_words(found)):
        lines += ["", *wrapped(more, width=width)] if more else []
    return "\n".join([*lines, "", *wrapped(words.BY_HAND, width=width)])


def _readings(found: MissetFacts) -> list[str]:
    """Each reading, where it is drawn, and how far it lies from where the fault has it."""
    many = len(found.plain.cylinders) > 1
    lines = [f"  {'event':<26}{'read':<19}{'drawn':<19}{'then off by':>12}"]
    drive = drive_of(found.plain)
    assert found.found is not None
    for one, off in zip(found.readings, found.found.off, strict=True):
        name = f"{one.cylinder} {one.name}" if many else one.name
        fault = type(found.found.fault)()
        drawn = seen(drive, fault, one.cylinder, one.drawn)
        spots = [_short(where(angle), named=one.period > 7.0) for angle in (one.own, drawn)]
        lines.append(f"  {name:<26}{spots[0]:<19}{spots[1]:<19}{degrees(off):>12}")
    return lines


def _short(words_: str, *, named: bool) -> str:
    """Without saying which top where that wasn't read."""
    return words_ if named else words_.replace("firing top", "top").replace("overlap top", "top")
