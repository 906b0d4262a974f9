"""What doesn't work with an injector, each with the nearest that does."""

from __future__ import annotations

from collections.abc import Iterator

from firstfire.engine.quantity import write_quantity
from firstfire.engine.resolve import PlainEngine
from firstfire.errors import OutsideValidity, Problem
from firstfire.formulas import injector as law
from firstfire.setup.fuel.injector import InjectorFacts, cranking_voltage, held_open
from firstfire.setup.fuel.liquid import Liquid

_INSIDE = 1.05


def injector_faults(plain: PlainEngine, fuel: Liquid, facts: InjectorFacts) -> Iterator[Problem]:
    """What doesn't work with this injector, each with the nearest that does."""
    small, large = facts.flow < facts.least_flow, False
    if facts.most_flow is not None:
        large = facts.flow > facts.most_flow
        if facts.least_flow > facts.most_flow and (small or large):
            yield _neither(plain, fuel, facts)
            return
    said = write_quantity(plain.injector.flow, "volume_flow", digits=3)
    if small:
        hard = facts.hardest
        yield Problem(
            "injector.flow",
            f'is "{said}": too small, it would be on for {100 * hard.duty:.0f} % of the cycle at '
            f"{hard.point.name}",
            f"The nearest that works is {_told(plain, fuel, facts.least_flow * _INSIDE)}"
            f"{_or_pressure(facts)}.",
        )
    if large and facts.idle is not None and facts.most_flow is not None:
        yield Problem(
            "injector.flow",
            f'is "{said}": too large at idle, fuel would flow for '
            f"{1e3 * facts.idle.open_time:.2f} ms and it repeats from "
            f"{1e3 * plain.injector.smallest:.2f} ms on",
            f"The nearest that works is {_told(plain, fuel, facts.most_flow / _INSIDE)}"
            f"{_or_pressure(facts)}.",
        )
    for one in facts.pulses:
        if one.feeding is not None and one.feeding.overlap:
            yield Problem(
                "injector.feeds",
                f'is "all": at {one.point.name} a pulse is not over when the next must begin',
                'Fit one for each cylinder: injector.feeds = "each".',
            )
            break


def _told(plain: PlainEngine, fuel: Liquid, flow: float) -> str:
    """A flow, kg/s at the regulator's pressure, as a shop tells it."""
    told = plain.injector
    one = held_open(plain, fuel, told.pressure) / told.flow
    return f'"{write_quantity(flow / one, "volume_flow", digits=3)}"'


def _or_pressure(facts: InjectorFacts) -> str:
    """The regulator's nearest pressure that does it too; "" where none does."""
    if facts.pressures is None:
        return ""
    low, high = facts.pressures
    at = low * 1.02 if facts.flow < facts.least_flow else high / 1.02
    if not low <= at <= high:
        return ""
    return f', or injector.pressure = "{write_quantity(at, "pressure", digits=3)}" with this one'


def _neither(plain: PlainEngine, fuel: Liquid, facts: InjectorFacts) -> Problem:
    most = facts.most_flow or 0.0
    said = write_quantity(plain.injector.flow, "volume_flow", digits=3)
    cure = (
        'Fit one for each cylinder (injector.feeds = "each")' if facts.shared
        and len(plain.cylinders) > 1
        else "Fit one that repeats shorter pulses (injector.smallest), or idle faster"
    )  # fmt: skip
    return Problem(
        "injector.flow",
        f'is "{said}": full power wants {_told(plain, fuel, facts.least_flow)} at least and idle '
        f"{_told(plain, fuel, most)} at most, which no one injector is",
        f"{cure}; of the two, power's is the nearest.",
    )


def voltage_fault(plain: PlainEngine) -> Iterator[Problem]:
    """A voltage for which no dead time is told."""
    cranked = cranking_voltage(plain)
    for volts, path in ((plain.injector.voltage, "injector.voltage"),
                        (cranked, "injector.dead_times")):  # fmt: skip
        try:
            law.dead_time(volts, plain.injector.dead_times)
        except OutsideValidity:
            rows = plain.injector.dead_times
            yield Problem(
                path,
                f"doesn't reach the {volts:.3g} V that it gets "
                f"{'running' if path == 'injector.voltage' else 'while it is cranked'}: dead "
                f"times are told from {rows[0][0]:.3g} to {rows[-1][0]:.3g} V",
                "Measure its dead time there, or feed it from a battery of its own.",
            )


def over_faults(plain: PlainEngine) -> Iterator[Problem]:
    """A pressure too far from what the flow was told at."""
    told = plain.injector
    if not 0.25 * told.flow_at <= told.pressure <= 4.0 * told.flow_at:
        nearest = min(max(told.pressure, 0.25 * told.flow_at), 4.0 * told.flow_at)
        yield Problem(
            "injector.pressure",
            f'is "{write_quantity(told.pressure, "pressure", digits=3)}", too far from the '
            f"{write_quantity(told.flow_at, 'pressure', digits=3)} that its flow was told at",
            f'The nearest that can be reckoned is "{write_quantity(nearest, "pressure", digits=3)}'
            '".',
        )
