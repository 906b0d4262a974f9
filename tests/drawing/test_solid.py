"""Solids: closed by their edges, of the right volume and size, and read back by the library."""

from __future__ import annotations

import math
from collections import Counter

import pytest
from ezdxf.addons import meshex

from firstfire.drawing.solid import facets, to_stl
from firstfire.drawing.templates.pieces import piece_template
from firstfire.engine.pieces import Block, Hole, Piece, circle, oblong


def piece(*blocks: Block) -> Piece:
    return Piece("thing", "A thing", blocks, ("A note.",))


PLATE = Block(
    oblong(0.0, 0.0, 60e-3, 20e-3, 3e-3), 8e-3,
    (Hole((15e-3, 10e-3), 12e-3, "12"), Hole((40e-3, 10e-3), 11.9e-3, "11.9")), "plate",
)  # fmt: skip
PIN = Block(circle((80e-3, 10e-3), 12e-3), 14e-3, (), "pin")


def open_edges(made: Piece) -> int:
    """Edges that aren't met once each way."""
    edges = Counter(
        (a, b) for one in facets(made) for a, b in zip(one, (*one[1:], one[0]), strict=True)
    )
    return sum(1 for (a, b), many in edges.items() if many != 1 or edges[(b, a)] != 1)


def volume(made: Piece) -> float:
    """By the divergence theorem, mm³; negative where faces look inwards."""
    total = 0.0
    for (ax, ay, az), (bx, by, bz), (cx, cy, cz) in facets(made):
        total += ax * (by * cz - bz * cy) + ay * (bz * cx - bx * cz) + az * (bx * cy - by * cx)
    return total / 6


def test_a_plate_with_holes_is_closed_and_looks_outwards() -> None:
    assert open_edges(piece(PLATE)) == 0
    whole = 60 * 20 - 0.5 * 3 * 3 - math.pi / 4 * (12**2 + 11.9**2)
    # holes are inscribed polygons of 180 sides: 0.02 % of their area less
    assert volume(piece(PLATE)) == pytest.approx(8 * whole, rel=2e-4)


def test_blocks_beside_each_other_are_each_closed() -> None:
    both = piece(PLATE, PIN)
    assert open_edges(both) == 0
    assert volume(both) == pytest.approx(volume(piece(PLATE)) + volume(piece(PIN)), rel=1e-9)
    assert volume(piece(PIN)) == pytest.approx(14 * math.pi / 4 * 12**2, rel=3e-4)


def test_an_outline_the_wrong_way_round_is_seen() -> None:
    turned = Block(PLATE.outline[::-1], PLATE.height)
    assert open_edges(piece(turned)) > 0


def test_the_library_reads_it_back_to_size() -> None:
    mesh = meshex.stl_loadb(to_stl(piece(PLATE, PIN)))
    xs, ys, zs = zip(*((v.x, v.y, v.z) for v in mesh.vertices), strict=True)
    assert (min(xs), max(xs)) == pytest.approx((0.0, 86.0), abs=2e-3)
    assert (min(ys), max(ys)) == pytest.approx((0.0, 20.0), abs=1e-4)
    assert (min(zs), max(zs)) == pytest.approx((0.0, 14.0), abs=1e-4)
    top = [math.hypot(v.x - 15, v.y - 10) for v in mesh.vertices if abs(v.z - 8) < 1e-3]
    assert min(top) == pytest.approx(6.0, abs=1e-4)
    mesh_check = mesh.diagnose()
    assert mesh_check.euler_characteristic == 2 * 2 - 2 * 2  # two bodies, two holes through


def test_it_is_drawn_at_true_size() -> None:
    drawn = piece_template("wren", piece(PLATE, PIN))
    assert drawn.box.left == pytest.approx(0.0, abs=1e-6)
    assert drawn.box.right == pytest.approx(86.0, abs=0.01)
    words = [s.text for p in drawn.parts if p.layer == "words" for s in p.shapes]
    assert words == ["12", "11.9", "plate", "pin"]
