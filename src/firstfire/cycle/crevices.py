"""The narrow gaps of one cylinder that a flame cannot enter, and what they keep from burning."""

from __future__ import annotations

import math
from functools import cache

from firstfire.catalog import Catalog
from firstfire.engine.description import CylinderParts
from firstfire.engine.geometry import swept_volume
from firstfire.engine.resolve import PlainEngine
from firstfire.errors import CatalogError
from firstfire.formulas.unburned import MOST, ring_gap, unburned_share

# Between a plug's shell and its nose, of a plug of 14 mm: J. B. Heywood, Internal Combustion
# Engine Fundamentals, 1988, Table 8.1 (from memory). Others by the cube of their thread.
_PLUG, _PLUG_THREAD, _USUAL_THREAD = 0.25e-6, 14e-3, 10e-3


def crevice_volume(parts: CylinderParts, plug_thread: float) -> float:
    """Top land, first groove behind its ring, gasket's inner edge and plug, m³.

    Parameters
    ----------
    parts
        Of the cylinder.
    plug_thread
        Outside diameter of the plug's thread, m.
    """
    bore, half = parts.cylinder.bore, parts.piston.skirt_clearance / 2
    land = ring_gap(bore - half, parts.piston.top_land, half)
    edge = max(parts.gasket.inside_diameter**2 - bore**2, 0.0)
    gasket = math.pi / 4 * edge * parts.gasket.thickness
    return land + _behind_ring(parts, half) + gasket + _PLUG * (plug_thread / _PLUG_THREAD) ** 3


def _behind_ring(parts: CylinderParts, half: float) -> float:
    """Room in the first groove that its ring leaves: all of it is filled from above."""
    rings, bore = parts.rings, parts.cylinder.bore
    if not rings.count or rings.kind == "none":
        return 0.0
    groove = rings.groove_width * (rings.groove_depth + half)
    ring = (
        math.pi / 4 * rings.section**2
        if rings.kind == "o_ring"
        else rings.section * rings.axial_height
    )
    return ring_gap(bore - rings.groove_depth, 1.0, max(groove - ring, 0.0))


@cache
def _thread(name: str) -> float:
    """Diameter of a shipped thread, m; of a person's own the usual small plug's."""
    try:
        return Catalog().row("thread", name).si("diameter")
    except CatalogError:
        return _USUAL_THREAD


def burning_share(engine: PlainEngine, parts: CylinderParts) -> float:
    """Share of a charge that burns in time, where there is air for it."""
    clearance = swept_volume(parts) / (parts.cylinder.compression_ratio - 1)
    lost = unburned_share(crevice_volume(parts, _thread(parts.plug.thread)), clearance)
    return 1.0 - min(engine.doubt.combustion_loss * lost, MOST)
