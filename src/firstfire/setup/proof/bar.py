"""A bar printed standing, clamped level and bent by a hanging weight until a layer parts."""

from __future__ import annotations

from collections.abc import Iterator

from firstfire.engine.engine import Engine
from firstfire.engine.materials import Material
from firstfire.engine.moment import Moment
from firstfire.engine.pieces import Block, Piece, oblong
from firstfire.engine.resolve import PlainEngine
from firstfire.formulas.coupon import bent_over_pulled, cantilever_stress, weibull_shape
from firstfire.parts import strength
from firstfire.parts.softness import is_metal
from firstfire.setup.proof.coupon import Coupon, Expected, named, proportional
from firstfire.setup.proof.known import span_of
from firstfire.setup.proof.readings import GRAVITY
from firstfire.setup.proof.values import value_at
from firstfire.setup.standing import FRESH, standing
from firstfire.setup.words import bare_mm

WIDTH, DEPTH, ARM, HIGH = 10e-3, 6e-3, 60e-3, 90e-3
"""Of the bar, m: section, from the vice's edge to the weight, and as it stands on the bed."""
BARS = 5
TITLE = "Standing bar"
_SCATTER = 0.16
"""Coefficient of variation across layers where a row has none."""
_SHAPE_OFF = 0.15
"""What the share of bent over pulled may be off by, 5-95 %: its Weibull shape by a factor of 1.5
either way (estimate)."""
_TOOLS = 0.05
_PARTS = ("printing", "body", "head", "piston", "crank", "rod", "case", "liner")


def printed_materials(plain: PlainEngine) -> tuple[str, ...]:
    """Plastics that this engine's parts are printed in, the one of most parts first."""
    one = plain.cylinders[0]
    made = (one.body, one.head, one.piston, plain.crank, one.rod, plain.case, one.liner)
    keys = [plain.printing.material, *(m.material for m in made if m.made == "printed")]
    return tuple(dict.fromkeys(key for key in keys if _known(plain, key)))


def _known(plain: PlainEngine, key: str) -> bool:
    material = plain.materials.get(key)
    return (
        material is not None
        and not is_metal(material)
        and material.get("strength_across") is not None
    )


def bent_at(plain: PlainEngine, key: str) -> float:
    """Weight that breaks the bar, N, by the strength that the parts are judged with."""
    return bent_when(standing(plain, hours=FRESH), key)


def bent_when(moment: Moment, key: str) -> float:
    """The same of a moment; recorded where that is."""
    material = moment.engine.materials[key]
    pulled = strength.of_material(
        moment, material, warm=1.0, printed=True, across=True, load="once"
    ).value
    more = bent_over_pulled(weibull_shape(_variation(material)))
    bent = pulled * moment.given("bent_over_pulled", more)
    return bent / moment.given("stress_for_each_newton", cantilever_stress(1.0, ARM, WIDTH, DEPTH))


def _variation(material: Material) -> float:
    return material.get("scatter_across") or _SCATTER


def bars(engine: Engine, plain: PlainEngine) -> Iterator[Coupon]:
    """One bar for each plastic that parts are printed in."""
    for key in printed_materials(plain):
        yield _bar(engine, plain, key)


def _bar(engine: Engine, plain: PlainEngine, key: str) -> Coupon:
    path, breaks = f"materials.{key}.strength_across", bent_at(plain, key)
    low, high = span_of(engine, path)
    name, now = named(engine, key), value_at(engine, path)
    return Coupon(
        id=f"bar {key}",
        title=f"{TITLE} of {name}",
        kind="force",
        path=path,
        now=now,
        expected=Expected(breaks, breaks * low, breaks * high),
        piece=_piece(key, name),
        steps=(
            f"Print {BARS} standing on their small end, solid, as slowly cooled as your parts.",
            f"Clamp one level in a vice, its {bare_mm(DEPTH)} mm side upright, {bare_mm(ARM)} mm "
            "from the vice's edge to a loop of string; edges of the jaws rounded with tape.",
            "Hang a bucket in the loop, fill in a tenth of what is expected every ten seconds "
            "until it breaks; keep feet away and catch the bucket on a cushion. Weigh bucket, "
            "string and all.",
        ),
        reads=(
            f'Say each: --reading "bar {key}={breaks / GRAVITY:.2g} kg". It bends: a pulled bar '
            "breaks at less, since more of it feels the stress (weakest link); that is reckoned "
            "in. A bar that broke inside the jaws tells nothing."
        ),
        bears_on=("what is pulled from layer to layer: body, crank's cheeks, lands, inserts",),
        learned=proportional(now, breaks),
        scatter=1.645 * _variation(plain.materials[key]),
        tells=(_SHAPE_OFF**2 + _TOOLS**2) ** 0.5,
    )


def _piece(key: str, name: str) -> Piece:
    apart = WIDTH + 8e-3
    return Piece(
        f"coupon-bar-{key.replace('_', '-')}", f"Standing bars of {name}",
        tuple(
            Block(oblong(apart * n, 0.0, apart * n + WIDTH, DEPTH), HIGH, (),
                  f"{bare_mm(WIDTH)} × {bare_mm(DEPTH)}")
            for n in range(BARS)
        ),
        (
            f"{BARS} bars {bare_mm(HIGH)} mm high, as they stand on the bed; solid. Clamp "
            f"{bare_mm(HIGH - ARM - 5e-3)} mm of each in the vice and hang the weight "
            f"{bare_mm(ARM)} mm from its edge.",
        ),
    )  # fmt: skip
