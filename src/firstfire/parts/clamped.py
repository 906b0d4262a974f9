"""What one fastener of the head clamps: how stiff it is, and how much of that creep leaves."""

from __future__ import annotations

import math
from collections.abc import Iterator
from typing import NamedTuple

from firstfire.engine.moment import Moment
from firstfire.formulas import bolt
from firstfire.formulas.stiffness import in_series
from firstfire.parts import rows, strength, warmth
from firstfire.parts.section import pulled_share
from firstfire.parts.softness import modulus_left, stress_left
from firstfire.parts.strength import ALONG_BORE

_SEALED_ON_METAL = ("cured_sealant", "o_ring", "none")


class _Piece(NamedTuple):
    """One of the things clamped in a row: its stiffness, N/m, and what creep leaves of it."""

    stiffness: float
    left: float


def clamped(moment: Moment, size: rows.Thread) -> tuple[float, float]:
    """Stiffness of what one fastener clamps, N/m, and the share of it that creep leaves.

    Head, gasket, and below a long fastener the cylinder, one behind the other: each yields by its
    own creep, so that a soft gasket may lose more of the preload than all the rest.
    """
    pieces = [*_head_cones(moment, size), *_gasket(moment), *_column(moment)]
    fresh = in_series(*(piece.stiffness for piece in pieces))
    return fresh, in_series(*(piece.stiffness * piece.left for piece in pieces)) / fresh


def _head_cones(moment: Moment, size: rows.Thread) -> Iterator[_Piece]:
    head, fasteners = moment.parts.head, moment.parts.head.fasteners
    material, warm = moment.engine.materials[head.material], warmth.mean(moment, "head")
    # Lines run round a hole, so that the print is as good as solid there.
    cone = bolt.cone_stiffness(
        strength.stiffness(head, material, warm, ALONG_BORE),
        min(size.clearance_hole, 0.9 * fasteners.washer_diameter),
        fasteners.washer_diameter, head.thickness / 2,
    )  # fmt: skip
    yield from 2 * (_Piece(cone, stress_left(material, moment.resting_hours, warm)),)


def _gasket(moment: Moment) -> Iterator[_Piece]:
    """A sheet between the faces; what cures or sits in a groove lets metal touch metal."""
    seal, count = moment.parts.gasket, moment.parts.head.fasteners.count
    if seal.kind in _SEALED_ON_METAL or seal.thickness <= 0:
        return
    material, warm = moment.engine.materials[seal.material], warmth.joint_face(moment)
    ring = math.pi * (seal.inside_diameter + seal.width) * seal.width / count
    modulus = material["modulus_in_plane"] * modulus_left(material, warm)
    yield _Piece(modulus * ring / seal.thickness, stress_left(material, moment.resting_hours, warm))


def _column(moment: Moment) -> Iterator[_Piece]:
    """Liner and body side by side along the bore, where fasteners reach past them."""
    parts, engine = moment.parts, moment.engine
    liner, body, fasteners = parts.liner, parts.body, parts.head.fasteners
    if not fasteners.long:
        return
    inner = math.pi / 4 * (liner.outside_diameter**2 - parts.cylinder.bore**2)
    outer = math.pi / 4 * (body.outside_diameter**2 - liner.outside_diameter**2)
    outer *= pulled_share(body, (body.outside_diameter - liner.outside_diameter) / 2)
    fresh = crept = 0.0
    for name, made, area in (("liner", liner, inner), ("body", body, outer)):
        material, warm = engine.materials[made.material], warmth.mean(moment, name)
        pulls = area * strength.stiffness(made, material, warm, ALONG_BORE)
        fresh += pulls
        crept += pulls * stress_left(material, moment.resting_hours, warm)
    yield _Piece(fresh / liner.length / fasteners.count, crept / fresh)
