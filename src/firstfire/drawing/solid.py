"""Upright bodies as STL, millimetres: closed, each corner met by whole edges."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from firstfire.engine.pieces import Block, Piece, Point, circle

_MM = 1e3
Corner = tuple[float, float, float]
Facet = tuple[Corner, Corner, Corner]


def to_stl(piece: Piece) -> bytes:
    """A piece as binary STL, one unit a millimetre.

    Parameters
    ----------
    piece
        Its blocks stand on the printer's bed beside each other.
    """
    from ezdxf.addons import meshex
    from ezdxf.render import MeshBuilder

    mesh = MeshBuilder()
    for facet in facets(piece):
        mesh.add_face(facet)
    return bytes(meshex.stl_dumpb(mesh))


def facets(piece: Piece) -> Iterator[Facet]:
    """Its triangles, mm, each seen anticlockwise from outside."""
    for block in piece.blocks:
        yield from _block(block)


def _block(block: Block) -> Iterator[Facet]:
    from ezdxf.math.triangulation import mapbox_earcut_2d

    outer = _flat(block.outline)
    holes = [_flat(circle(hole.at, hole.diameter)) for hole in block.holes]
    high = _MM * block.height
    # its triangles go round as the outline does
    for triangle in mapbox_earcut_2d(outer, holes):
        a, b, c = ((float(p.x), float(p.y)) for p in triangle)
        yield (*a, high), (*b, high), (*c, high)
        yield (*a, 0.0), (*c, 0.0), (*b, 0.0)
    yield from _wall(outer, high)
    for hole in holes:
        yield from _wall(hole[::-1], high)


def _flat(points: Sequence[Point]) -> list[Point]:
    return [(_MM * x, _MM * y) for x, y in points]


def _wall(ring: Sequence[Point], high: float) -> Iterator[Facet]:
    """The upright face along a ring, what is solid to the left of its way."""
    for a, b in zip(ring, [*ring[1:], ring[0]], strict=True):
        yield (*a, 0.0), (*b, 0.0), (*b, high)
        yield (*a, 0.0), (*b, high), (*a, high)
