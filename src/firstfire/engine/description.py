"""The whole description: what belongs to each cylinder and what all share."""

from __future__ import annotations

from firstfire.engine.fields import Section
from firstfire.engine.sections.crank import Case, Crank, Flywheel, Layout, Load
from firstfire.engine.sections.cylinder import Body, Cylinder, Gasket, Head, Liner, Plug
from firstfire.engine.sections.fuelling import Carburettor, GasMixer, Injector, Tank
from firstfire.engine.sections.make import Printing
from firstfire.engine.sections.piston import Pin, Piston, Rings, Rod
from firstfire.engine.sections.spark import Spark, Wiring
from firstfire.engine.sections.supply import (
    Doubt,
    Intake,
    Leak,
    Runner,
    Starter,
    Stub,
    Surroundings,
    Use,
)
from firstfire.engine.sections.valves import CamDrive, Valves


class CylinderParts(Section):
    """One cylinder and all that is its own; a file may say each once for all cylinders."""

    cylinder: Cylinder
    liner: Liner
    body: Body
    piston: Piston
    rings: Rings
    pin: Pin
    rod: Rod
    head: Head
    gasket: Gasket
    plug: Plug
    valves: Valves
    runner: Runner
    stub: Stub
    leak: Leak


class SharedParts(Section):
    """What there is once an engine."""

    layout: Layout
    crank: Crank
    case: Case
    flywheel: Flywheel
    cam_drive: CamDrive
    intake: Intake
    injector: Injector
    carburettor: Carburettor
    gas_mixer: GasMixer
    tank: Tank
    spark: Spark
    wiring: Wiring
    starter: Starter
    load: Load
    surroundings: Surroundings
    printing: Printing
    use: Use
    doubt: Doubt


#: Sections in the order of building, for files, forms and ledgers.
ORDER = (
    "layout", "cylinder", "liner", "body", "piston", "rings", "pin", "rod", "crank", "case",
    "flywheel", "head", "gasket", "plug", "valves", "cam_drive", "intake", "runner",
    "injector", "carburettor", "gas_mixer", "tank", "stub", "spark", "wiring", "starter", "load",
    "surroundings", "printing", "use", "leak", "doubt",
)  # fmt: skip
