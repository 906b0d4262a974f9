"""An engine with round sizes, whose parts can be worked out with a calculator. Nothing of heat.

PETG (0.2 W/(m K), 1270 kg/m³, 1250 J/(kg K)) wherever it is printed, six lines of 0.45 mm at each
face, 0.4 of infill in the piston and none missing elsewhere; a liner of aluminium.
"""

from functools import cache

from tests.loads.small_engines import engine_of

PETG = (0.2, 1270.0, 1250.0)
ALUMINIUM = (167.0, 2700.0, 896.0)
SIZES = {
    "cylinder__bore": 40e-3, "cylinder__stroke": 40e-3, "cylinder__deck": 1e-3,
    "piston__crown_thickness": 6e-3, "piston__length": 40e-3, "piston__top_land": 5e-3,
    "piston__compression_height": 22e-3, "piston__skirt_clearance": 0.2e-3,
    "piston__land_clearance": 0.4e-3, "piston__skirt_thickness": 3e-3, "piston__boss_width": 20e-3,
    "piston__infill": 0.4, "pin__diameter": 12e-3, "pin__inside_diameter": 6e-3,
    "pin__length": 36e-3, "rings__groove_depth": 2e-3, "rings__groove_width": 3e-3,
    "rings__section": 2.5e-3, "rings__axial_height": 1.5e-3,
    "liner__outside_diameter": 44e-3, "liner__length": 80e-3, "body__outside_diameter": 60e-3,
    "body__infill": 1.0, "case__infill": 1.0, "head__thickness": 20e-3, "head__diameter": 80e-3,
    "gasket__thickness": 1e-3, "gasket__inside_diameter": 42e-3, "gasket__width": 4e-3,
    "valves__inlet__head_diameter": 20e-3, "valves__exhaust__head_diameter": 16e-3,
    "valves__exhaust__throat_diameter": 14e-3, "case__volume": 216e-6, "case__wall": 5e-3,
    "crank__crankpin_diameter": 12e-3, "crank__crankpin_length": 20e-3,
    "crank__cheek_width": 30e-3, "crank__cheek_thickness": 10e-3, "crank__joint__length": 7e-3,
    "crank__joint__plate_thickness": 2e-3, "rod__big_end_width": 16e-3,
    "rod__small_end_width": 14e-3, "rod__eye_wall": 4e-3,
}  # fmt: skip


@cache
def round_engine(layout: str = "single", **values: object):
    """It, with other values by path, two underscores for the dot, in SI."""
    return engine_of(layout, **(SIZES | values))


def links(network) -> dict[tuple[str, str], list]:
    """A network's links by what they join."""
    found: dict[tuple[str, str], list] = {}
    for link in network.links:
        found.setdefault((link.from_name, link.to_lump), []).append(link)
    return found


def through(network, one: str, other: str) -> float:
    """Conductance of the only link between two, W/K."""
    (link,) = links(network)[one, other]
    return link.conductance


def lump(network, name: str):
    """A lump by its name."""
    return next(one for one in network.lumps if one.name == name)


def lies_at(stack, cell: int, depth: float) -> bool:
    """Whether a cell of a wall holds a depth, m, or the next one's edge does."""
    return abs(float(stack.depth[cell]) - depth) <= 0.51 * float(stack.size[cell])
