"""An engine's fuel on the terminal."""

from __future__ import annotations

import math
from collections.abc import Iterator

from firstfire.engine.quantity import write_quantity
from firstfire.setup.fuel import words
from firstfire.setup.fuel.cold import Times
from firstfire.setup.fuel.facts import FuelFacts
from firstfire.setup.fuel.injector import MOST_DUTY, InjectorFacts
from firstfire.setup.fuel.mixer import MixerFacts
from firstfire.verdict.numbers import THIN, figures, spoken
from firstfire.verdict.words.text.lines import WIDTH, beside, heading, wrapped

_AT = 28
_DRILLED = 0.2e-3
"""Smallest hole that a hand drills, m. Common practice, no source."""


def fuel_text(found: FuelFacts, *, width: int = WIDTH) -> str:
    """All of it as text."""
    lines = wrapped(words.opening(found), width=width)
    for fault in found.faults:
        lines += wrapped(f"- {fault}", 2, hang=4, width=width)
    if found.injector is not None:
        lines += [*heading("Injector"), *_injector(found, found.injector, width)]
    if found.mixer is not None:
        name = "Gas mixer" if found.mixer.gas else "Carburettor"
        lines += [*heading(name), *_mixer(found, found.mixer, width)]
    lines += [*heading("Cold"), *_cold(found, width)]
    lines += [*heading("Air and tank"), *_feed(found, width)]
    lines += heading("Mind")
    for caution in words.sheet_cautions(found):
        lines += wrapped(f"{caution.hazard}: {caution.text}", 2, hang=4, width=width)
    return "\n".join(lines)


def _said(value: float | None, dimension: str, digits: int = 3) -> str:
    return "–" if value is None else write_quantity(value, dimension, digits=digits)


def _injector(found: FuelFacts, facts: InjectorFacts, width: int) -> Iterator[str]:
    plain, cm = found.plain, 60e6 / found.fuel.density
    kind = "one for all cylinders" if facts.shared else f"{facts.count}, one a cylinder"
    if facts.count == 1 and not facts.shared:
        kind = "one"
    lo, hi = facts.least_flow * cm, None if facts.most_flow is None else facts.most_flow * cm
    most = "idle is not judged" if hi is None else f"at most {figures(hi)} to repeat at idle"
    rows = [
        ("Flow held open", f"{figures(facts.flow * cm)}{THIN}cm³/min of {found.fuel.name} at "
         f"{_said(plain.injector.pressure, 'pressure')}; {kind}"),
        ("Flow wanted", f"at least {figures(lo)}{THIN}cm³/min for power (on for "
         f"{100 * MOST_DUTY:.0f} % of the cycle), {most}"),
        ("Regulator", _regulator(found, facts)),
        ("Dead time", f"{1e6 * facts.pulses[-1].dead_time:.0f}{THIN}µs at "
         f"{figures(plain.injector.voltage)}{THIN}V running, "
         f"{1e6 * facts.pulses[0].dead_time:.0f} at {figures(facts.cranking_voltage)} cranked"),
        ("Smallest steady pulse", _smallest(found, facts)),
    ]  # fmt: skip
    for name, text in rows:
        yield from beside(f"  {name}", spoken(text), _AT, width=width)
    yield ""
    yield f"  {'point':<26}{'fuel':>7}{'pulse':>8}{'span':>14}{'duty':>6}  ends, after"
    yield f"  {'':<26}{'mg':>7}{'µs':>8}{'µs':>14}{'%':>6}  own firing top"
    for one in facts.pulses:
        for row, time in enumerate(one.times):
            name = one.point.name if row == 0 else f"  cylinder {row + 1}"
            span = f"{1e6 * one.low:.0f}-{1e6 * one.high:.0f}" if row == 0 else ""
            duty = f"{100 * one.duty:.0f}" if row == 0 else ""
            end = math.degrees(one.own_ends[row])
            mass = figures(1e6 * one.point.at.fuel[row])
            yield f"  {name:<26}{mass:>7}{1e6 * time:>8.0f}{span:>14}{duty:>6}  {end:>4.0f}°"
    yield from wrapped(_NOTE_OPEN if facts.on_open else _NOTE_SHUT, 2, width=width)
    for said in (
        *words.given_words(facts), *words.feeding_words(facts), *words.breathing_words(facts)
    ):  # fmt: skip
        yield from wrapped(said, 2, width=width)


_NOTE_SHUT = (
    "It ends so that the last fuel is on the shut inlet valve when that opens. Span: 5-95 %, by "
    "flow ±5 % and dead time ±10 % (common practice, no source)."
)
_NOTE_OPEN = (
    "It ends so that the last fuel is at the open inlet valve by bottom centre. Span: 5-95 %, by "
    "flow ±5 % and dead time ±10 % (common practice, no source)."
)


def _regulator(found: FuelFacts, facts: InjectorFacts) -> str:
    told = found.plain.injector
    against = "the intake" if told.regulator == "intake" else "the open air"
    words_ = f"{_said(told.pressure, 'pressure')} over {against}"
    if facts.idle is not None and told.regulator != "intake":
        words_ += f", {_said(facts.idle.over, 'pressure')} over the injector at idle"
    if facts.pressures is None:
        return f"{words_}; no pressure suits both power and idle"
    low, high = (_said(one, "pressure") for one in facts.pressures)
    return f"{words_}; {low} to {high} would do"


def _smallest(found: FuelFacts, facts: InjectorFacts) -> str:
    least = found.plain.injector.smallest
    words_ = f"{1e6 * least:.0f}{THIN}µs of flow"
    if facts.idle is None:
        return f"{words_}; idle not judged: {found.points.why_no_idle}"
    return f"{words_}; idle wants {1e6 * facts.idle.open_time:.0f}"


def _mixer(found: FuelFacts, facts: MixerFacts, width: int) -> Iterator[str]:
    jet = "Orifice" if facts.gas else "Main jet"
    said = found.plain.gas_mixer.orifice if facts.gas else found.plain.carburettor.main_jet
    has = "" if said is None else f"; it has {_said(said, 'length')}"
    wide = "" if math.isinf(facts.widest) else f" to {_said(facts.widest, 'length')}"
    area = math.pi / 4 * facts.venturi**2
    rows = [
        ("Venturi", f"{_said(facts.venturi, 'length')} ({_said(area, 'area')}); from "
         f"{_said(facts.narrowest, 'length')}{wide} would do"),
        (jet, f"{_said(facts.wanted, 'length')}{has}"
         + (f" ({_said(facts.jet_low, 'length')} to {_said(facts.jet_high, 'length')})"
            if facts.jet_low else "")),
    ]  # fmt: skip
    if not facts.gas:
        own = found.plain.carburettor.idle_jet
        has = "" if own is None else f"; it has {_said(own, 'length')}"
        tiny = facts.idle_wanted is not None and facts.idle_wanted < _DRILLED
        by = "; no drill is so small: a larger one behind a needle screw" if tiny else ""
        rows.append(("Idle jet", f"{_said(facts.idle_wanted, 'length')}{has}{by}"))
    for name, text in rows:
        yield from beside(f"  {name}", spoken(text), _AT, width=width)
    yield ""
    yield f"  {'point':<28}{'air':>7}{'throat':>8}{'draws':>8}{'jet':>8}{'mixture':>9}"
    yield f"  {'':<28}{'g/s':>7}{'m/s':>8}{'times':>8}{'mm':>8}"
    for one in facts.drawings:
        air = figures(1e3 * one.point.at.air_flow)
        bore = "–" if one.wanted is None else f"{1e3 * one.wanted:.2f}"
        pull = "–" if math.isinf(one.pull) else figures(one.pull, 2)
        mix = "–" if one.mixture is None else f"{one.mixture:.2f}"
        yield f"  {one.point.name:<28}{air:>7}{one.speed:>8.0f}{pull:>8}{bore:>8}{mix:>9}"
    yield from wrapped(_NOTE_MIXER, 2, width=width)
    for text in words.mixer_words(found, facts):
        yield from wrapped(text, 2, width=width)


_NOTE_MIXER = (
    "Throat: speed while most air flows. Draws: that air over what just draws fuel; below 1 none. "
    "Jet: the bore that is right there. Mixture: fuel over just enough with the jets above. A "
    "jet's span is 10 % of its area: drill under size and open it."
)


def _cold(found: FuelFacts, width: int) -> Iterator[str]:
    cold = found.cold
    rows = []
    if cold.start:
        rows.append(("First charge, times fuel", _times(cold.start)))
    if cold.warm_up:
        rows.append(("Warm-up at idle, times", _times(cold.warm_up)))
    air = ", ".join(f"{_celsius(one.temperature)} {one.times:.3f}" for one in cold.density)
    rows.append(("Air's density, times", f"{air} °C; {100 * cold.per_kilopascal:+.2f} % a kPa"))
    for name, text in rows:
        yield from beside(f"  {name}", spoken(text), _AT, width=width)
    for said in words.priming_words(found):
        yield from wrapped(said, 2, width=width)


def _times(found: tuple[Times, ...]) -> str:
    return (
        ", ".join(
            f"{_celsius(one.temperature)} "
            + ("over 4" if one.times is None else f"{one.times:.2f}")
            for one in found
        )
        + " °C"
    )


def _celsius(kelvin: float) -> str:
    return f"{kelvin - 273.15:.0f}:"


def _feed(found: FuelFacts, width: int) -> Iterator[str]:
    feed, plain = found.feed, found.plain
    kind = plain.intake.air_cleaner
    cleaner = f"at least {_said(feed.cleaner_area, 'area')} of face"
    cleaner += f" ({kind})" if kind != "none" else " of foam; it has none: fit one"
    rows = [
        ("Throttle", f"{_said(feed.throttle, 'length')}, air at "
         f"{feed.throttle_speed:.0f}{THIN}m/s in it; {_said(feed.throttle_narrow, 'length')} "
         f"to {_said(feed.throttle_wide, 'length')} would do"),
        ("Air cleaner", cleaner),
        ("Most fuel", f"{_said(feed.most, 'volume_flow')}" + (
            "" if feed.idle is None else f", {_said(feed.idle, 'volume_flow')} at idle")),
    ]  # fmt: skip
    if feed.tank_full is not None:
        idle = "" if feed.tank_idle is None else f", {feed.tank_idle / 60:.0f} at idle"
        rows.append(("A full tank", f"{_said(plain.tank.volume, 'volume')}: "
                     f"{feed.tank_full / 60:.0f}{THIN}min at full power{idle}"))  # fmt: skip
    if feed.hose_loss is not None:
        bore = "–" if feed.hose_bore is None else _said(feed.hose_bore, "length", 2)
        rows.append(("Hose", f"{_said(plain.tank.hose_bore, 'length')}, costs "
                     f"{feed.hose_loss:.0f}{THIN}Pa; {bore} at least"))  # fmt: skip
    if feed.head_wanted is not None:
        rows.append(("Head", f"{_said(plain.tank.head, 'length')}; "
                     f"{math.ceil(1e3 * feed.head_wanted)}{THIN}mm at least. No pump"))  # fmt: skip
    if feed.pump_flow is not None and feed.pump_pressure is not None:
        rows.append(("Pump", f"{_said(feed.pump_flow, 'volume_flow')} at "
                     f"{_said(feed.pump_pressure, 'pressure')} at least; takes some "
                     f"{figures(feed.pump_power, 2)}{THIN}W, {figures(feed.pump_current, 2)}"
                     f"{THIN}A"))  # fmt: skip
    if feed.chill is not None:
        rows.append(("Bottle", f"must take up {figures(feed.chill, 2)}{THIN}W of heat at full "
                     "power, or it freezes and starves"))  # fmt: skip
    for name, text in rows:
        yield from beside(f"  {name}", spoken(text), _AT, width=width)
    yield from wrapped(words.valve_words(found), 2, width=width)
