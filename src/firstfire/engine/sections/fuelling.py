"""What meters the fuel and what brings it there: injector, carburettor, gas mixer, tank."""

from __future__ import annotations

from typing import Literal

from firstfire.engine.fields import (
    Length,
    Pressure,
    Section,
    Time,
    Voltage,
    Volume,
    VolumeFlow,
    said,
)


class Injector(Section):
    """A port injector, its pressure and what switches it."""

    feeds: Literal["each", "all"] = said("one for each cylinder, or one for all on a shared pipe")
    flow: VolumeFlow = said(
        "petrol that one passes while it is held open", low="5 cm^3/min", high="3000 cm^3/min",
        example="60 cm^3/min",
    )  # fmt: skip
    flow_at: Pressure = said(
        "pressure over it at which that flow was told", low="0.2 bar", high="10 bar",
        example="3 bar",
    )  # fmt: skip
    pressure: Pressure = said(
        "of the fuel over what its regulator is held against", low="0.2 bar", high="10 bar",
        example="3 bar",
    )  # fmt: skip
    regulator: Literal["intake", "open_air"] = said(
        "what the regulator is held against: the intake behind the throttle, or the open air"
    )
    dead_times: tuple[tuple[Voltage, Time], ...] = said(
        'pairs of voltage and of the time it takes to open more than to shut, '
        '[["12 V", "1.2 ms"], ...]',
        columns=(("4 V", "60 V"), ("0 ms", "10 ms")),
    )  # fmt: skip
    smallest: Time = said(
        "shortest time that it flows and still repeats, beyond its dead time", low="0.05 ms",
        high="10 ms", example="0.6 ms",
    )  # fmt: skip
    voltage: Voltage = said("at it while the engine runs", low="4 V", high="60 V", example="12.6 V")
    distance: Length = said(
        "from its tip to the inlet valve", low="2 mm", high="1 m", example="40 mm"
    )
    ends: Literal["before_inlet_opens", "while_inlet_open"] = said(
        "when the last of its fuel reaches the valve"
    )


class Carburettor(Section):
    """A carburettor's bores."""

    venturi_diameter: Length = said("narrowest bore of its air way", low="1 mm", high="60 mm")
    main_jet: Length | None = said(
        "bore of the main jet", low="0.05 mm", high="5 mm", optional=True, example="0.5 mm"
    )
    idle_jet: Length | None = said(
        "bore of the idle jet", low="0.05 mm", high="5 mm", optional=True, example="0.3 mm"
    )
    lift: Length = said(
        "of its nozzle over the fuel in its bowl", low="0 mm", high="60 mm", example="10 mm"
    )


class GasMixer(Section):
    """A mixer for a gas behind a zero governor."""

    venturi_diameter: Length = said("narrowest bore of its air way", low="1 mm", high="60 mm")
    orifice: Length | None = said(
        "bore that the gas comes through", low="0.1 mm", high="30 mm", optional=True,
        example="3 mm",
    )  # fmt: skip
    held_back: Pressure = said(
        "depression that its governor wants before it gives gas", low="0 Pa", high="5000 Pa",
        example="20 Pa",
    )  # fmt: skip


class Tank(Section):
    """Where the fuel is, and the way from there."""

    feed: Literal["gravity", "pump", "bottle"] = said("what drives the fuel to where it is metered")
    volume: Volume = said("fuel in it when full", low="1 cm^3", high="50 l", example="250 cm^3")
    head: Length = said(
        "of its outlet over where it is metered; below it less than 0", low="-2 m", high="5 m",
        example="150 mm",
    )  # fmt: skip
    hose_bore: Length = said("of the fuel hose", low="0.5 mm", high="20 mm", example="4 mm")
    hose_length: Length = said("of the fuel hose", low="10 mm", high="10 m", example="400 mm")
    valve: bool = said("whether a fuel valve shuts it at the tank")
    pump_flow: VolumeFlow | None = said(
        "that the pump gives at the pressure of the fuel", low="1 cm^3/min", high="5 l/min",
        optional=True, example="500 cm^3/min",
    )  # fmt: skip
