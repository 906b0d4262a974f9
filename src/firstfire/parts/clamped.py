"""What one fastener of the head clamps: how stiff it is, and how much of that creep leaves."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from firstfire.engine.moment import Moment
from firstfire.formulas import bolt
from firstfire.formulas import mathematics as math
from firstfire.formulas.recorded import found
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
    pieces = [_head(moment, size), *_gasket(moment), *_column(moment)]
    fresh = in_series(*(piece.stiffness for piece in pieces))
    fresh = found("parts_stiffness", fresh, "N/m", "stiffness of all that one fastener clamps")
    left = in_series(*(piece.stiffness * piece.left for piece in pieces)) / fresh
    return fresh, found("stress_left_by_creep", left, "", "share of it that creep leaves")


def how_many(moment: Moment) -> float:
    """Number of the head's fasteners."""
    return moment.given("head.fasteners.count", moment.parts.head.fasteners.count)


def washer_hole(moment: Moment, size: rows.Thread) -> float:
    """Hole in the face under a washer, m; a washer that is no wider still has a rim."""
    hole = math.least(size.clearance_hole, 0.9 * moment.parts.head.fasteners.washer_diameter)
    return found("washer_hole", hole, "m", "hole in the face under a washer")


def _head(moment: Moment, size: rows.Thread) -> _Piece:
    """Two cones, each through half of the head's thickness, from the washer and from below."""
    head, material = moment.parts.head, moment.engine.materials[moment.parts.head.material]
    warm = warmth.mean(moment, "head")
    # Lines run round a hole, so that the print is as good as solid there.
    cone = bolt.cone_stiffness(
        moment.given("head_modulus", strength.stiffness(head, material, warm, ALONG_BORE)),
        washer_hole(moment, size), head.fasteners.washer_diameter, head.thickness / 2,
    )  # fmt: skip
    cone = found("cone_stiffness", cone, "N/m", "stiffness of a cone through half of the head")
    left = stress_left(material, moment.resting_hours, warm)
    return _Piece(
        found("head_stiffness", cone / 2, "N/m", "stiffness of the head under a washer"),
        moment.given("head_creep_leaves", left),
    )


def _gasket(moment: Moment) -> Iterator[_Piece]:
    """A sheet between the faces; what cures or sits in a groove lets metal touch metal."""
    seal = moment.parts.gasket
    if seal.kind in _SEALED_ON_METAL or seal.thickness <= 0:
        return
    material, warm = moment.engine.materials[seal.material], warmth.joint_face(moment)
    ring = math.pi * (seal.inside_diameter + seal.width) * seal.width / how_many(moment)
    ring = found("gasket_face", ring, "m^2", "gasket's face for each fastener")
    modulus = material["modulus_in_plane"] * modulus_left(material, warm)
    sheet = moment.given("gasket_modulus", modulus) * ring / seal.thickness
    left = stress_left(material, moment.resting_hours, warm)
    yield _Piece(
        found("gasket_stiffness", sheet, "N/m", "stiffness of that face"),
        moment.given("gasket_creep_leaves", left),
    )


def _column(moment: Moment) -> Iterator[_Piece]:
    """Liner and body side by side along the bore, where fasteners reach past them."""
    liner = moment.parts.liner
    if not moment.parts.head.fasteners.long:
        return
    inner, outer = _walls(moment)
    fresh = inner.stiffness + outer.stiffness
    crept = inner.stiffness * inner.left + outer.stiffness * outer.left
    column = fresh / liner.length / how_many(moment)
    yield _Piece(
        found("column_stiffness", column, "N/m", "stiffness of the cylinder for each fastener"),
        found("column_creep_leaves", crept / fresh, "", "share of the cylinder that creep leaves"),
    )


def _walls(moment: Moment) -> tuple[_Piece, _Piece]:
    """Liner and body along the bore, each a metre long."""
    liner, body = moment.parts.liner, moment.parts.body
    inner = math.pi / 4 * (liner.outside_diameter**2 - moment.parts.cylinder.bore**2)
    outer = math.pi / 4 * (body.outside_diameter**2 - liner.outside_diameter**2)
    bears = pulled_share(body, (body.outside_diameter - liner.outside_diameter) / 2)
    outer *= moment.given("body_section_leaves", bears)
    return _wall(moment, "liner", inner), _wall(moment, "body", outer)


def _wall(moment: Moment, name: str, area: float) -> _Piece:
    made = getattr(moment.parts, name)
    material, warm = moment.engine.materials[made.material], warmth.mean(moment, name)
    modulus = strength.stiffness(made, material, warm, ALONG_BORE)
    pulls = area * moment.given(f"{name}_modulus", modulus)
    left = stress_left(material, moment.resting_hours, warm)
    return _Piece(
        found(f"{name}_along", pulls, "N", f"section of the {name} times its stiffness"),
        moment.given(f"{name}_creep_leaves", left),
    )
