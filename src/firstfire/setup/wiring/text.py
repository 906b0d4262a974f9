"""The wiring of an engine on the terminal."""

from __future__ import annotations

import math
from collections.abc import Iterator

from firstfire.engine.wires import DROP, Path, Wire, Wiring, caution
from firstfire.verdict.numbers import THIN, figures
from firstfire.verdict.words.text.lines import WIDTH, heading, wrapped


def wiring_text(name: str, wiring: Wiring, *, width: int = WIDTH) -> str:
    """All of it as text."""
    lines = [*wrapped(opening(name, wiring), width=width), *heading("Paths, from plus to minus")]
    for path in wiring.paths:
        lines += wrapped(_path(path), 2, width=width, hang=4)
    lines += [*heading("Wires"), *_wires(wiring)]
    return "\n".join([*lines, "", *wrapped(caution(wiring), width=width)])


def opening(name: str, wiring: Wiring) -> str:
    """The sum of it in a sentence."""
    thin = [wire.id for wire in wiring.wires if _lacks(wire)]
    if thin:
        return (
            f"{name}: no wire up to 50 mm² is thick enough for {', '.join(thin)}. Set the battery "
            "nearer (wiring.length), or share the current among more of them."
        )
    if wiring.fuse is None:
        return f"{name}: {figures(wiring.current, 2)}{THIN}A ask for two fused circuits, not one."
    return (
        f"{name}: {figures(wiring.current, 2)}{THIN}A behind one fuse of {wiring.fuse:g}{THIN}A; "
        f"no path loses more than {100 * DROP:.0f}{THIN}% of {wiring.voltage:g}{THIN}V."
    )


def _lacks(wire: Wire) -> bool:
    return wire.section is None and wire.kind == "plain"


def _path(path: Path) -> str:
    feed = {"main": "G1, F1, S1", "relay": "G1, F1, S1, K1 contact", "battery": "G1"}[path.fed_by]
    each = ", ".join(f"{one.id} {one.name}" for one in path.elements)
    beside = "".join(f"; {one.id} {one.name} at {owner}" for owner, one in path.beside)
    plugs = f"; feeds {' and '.join(plug.name for plug in path.plugs)}" if path.plugs else ""
    return f"{path.name}: {feed}, {each}{beside}{plugs}; {figures(path.current, 2)}{THIN}A."


def _wires(wiring: Wiring) -> Iterator[str]:
    yield f"  {'':<5}{'from':<16}{'to':<18}{'A':>7}{'m':>6}{'mm²':>12}{'V lost':>9}"
    for wire in wiring.wires:
        amps = "–" if wire.current == 0.0 else figures(wire.current, 3)
        lost = "–" if math.isnan(wire.drop) or wire.drop == 0.0 else f"{wire.drop:.2f}"
        yield (
            f"  {wire.id:<5}{wire.start:<16}{wire.end:<18}{amps:>7}{wire.length:>6g}"
            f"{section_words(wire):>12}{lost:>9}"
        )


def section_words(wire: Wire) -> str:
    """A wire's section as one orders it."""
    if wire.kind == "high voltage":
        return "HV lead"
    if wire.section is None:
        return "over 50"
    return f"{wire.section:g}{' screen' if wire.kind == 'screened' else ''}"
