"""Wall temperatures to run the gas with while nothing has worked them out."""

from __future__ import annotations

from firstfire.engine.description import CylinderParts
from firstfire.engine.records import Walls
from firstfire.engine.resolve import PlainEngine

# Metal: a small air-cooled engine at full load, crown 200-250, head and valves 160-350, liner
# 120-180 °C; plastic is held at what lets it live for a while. Common practice, no source.
_METAL = {"crown": 480.0, "head": 440.0, "liner": 410.0}
_PLASTIC = {"crown": 430.0, "head": 410.0, "liner": 370.0}
_VALVES = 560.0


def cold(engine: PlainEngine) -> tuple[Walls, ...]:
    """Every wall at the temperature of the air."""
    air = engine.surroundings.air_temperature
    return (Walls(air, air, air, air),) * len(engine.cylinders)


def assumed_warm(engine: PlainEngine) -> tuple[Walls, ...]:
    """Walls of a running engine, by what faces the fire: assumed, not computed."""
    return tuple(_warm(engine, parts) for parts in engine.cylinders)


def _warm(engine: PlainEngine, parts: CylinderParts) -> Walls:
    piston, head = parts.piston, parts.head
    faces = {
        "crown": piston.shield.material if piston.shield.thickness > 0 else piston.material,
        "head": head.chamber_plate if head.chamber_plate_thickness > 0 else head.material,
        "liner": parts.liner.material,
    }
    found = {
        wall: (_METAL if _is_metal(engine, name) else _PLASTIC)[wall]
        for wall, name in faces.items()
    }
    return Walls(found["crown"], found["head"], _VALVES, found["liner"])


def _is_metal(engine: PlainEngine, name: str | None) -> bool:
    return name is not None and engine.materials[name].metal
