"""How each number of the proof is worked out: pressure, twist, and what a test piece reads."""

from __future__ import annotations

from collections.abc import Callable, Iterator

from firstfire.engine.engine import Engine
from firstfire.engine.moment import Moment
from firstfire.engine.resolve import PlainEngine
from firstfire.parts.softness import stress_left
from firstfire.setup.number import Number
from firstfire.setup.opened.by_law import ByLaw, by_law, recorded
from firstfire.setup.opened.sheet import Sheet
from firstfire.setup.proof.bar import bent_when
from firstfire.setup.proof.bench_tests import BenchTests, bench_tests
from firstfire.setup.proof.coupon import Coupon
from firstfire.setup.proof.insert import pulled_when
from firstfire.setup.proof.joint import twisted_when
from firstfire.setup.proof.proof import BAR, OVER, Proof
from firstfire.setup.proof.puck import stiff
from firstfire.setup.proof.readings import GRAVITY
from firstfire.setup.standing import FRESH, NIGHT, standing

Told = tuple[Number, Sheet | ByLaw]
_TWICE = "common practice for a first proof, no source"
_BENT = "Shigley's Mechanical Engineering Design, 9th ed., Eq. 3-24; weakest link of W. Weibull"
_PARTS = "the law that judges the engine's own part; `firstfire explain FILE` names its book"
_FIRE = "a strong first combustion, 1 in 20, run"


def proof_sheets(engine: Engine) -> dict[str, Told]:
    """Every number of the proof and of each test piece by its id, with its working."""
    found = bench_tests(engine)
    told: dict[str, Told] = {}
    if found.proof is not None:
        told |= dict(_proved(engine, found.plain, found.proof))
    for coupon in found.coupons:
        told[coupon.id.replace(" ", "-")] = _piece(found, coupon)
    return told


def _proved(engine: Engine, plain: PlainEngine, found: Proof) -> Iterator[tuple[str, Told]]:
    del plain
    for one in found.cylinders:
        sheet = _over(engine, "strong", "strong peak over the air", one.strong, "Pa")
        sheet.found("value", "on the gauge", "Pa", "over * strong")
        number = Number(
            "pressure", f"cylinder {one.number}: pressure to prove it with", one.pressure, "Pa",
            one.opens_at, "" if one.opens_at is None else "at most",
            f"{OVER:g} × the peak of a strong first combustion"
            + (f"; the limit is where {one.what}" if one.opens_at is not None else ""), _TWICE,
        )  # fmt: skip
        yield f"cylinder-{one.number}.pressure", (number, sheet)
    joint = found.joint
    sheet = _over(engine, "twist", f"twist of the {joint.what}", joint.twist, "N*m")
    sheet.found("value", "torque to prove it with", "N*m", "over * twist")
    number = Number(
        "joint_torque", f"{joint.what}: torque to prove it with", joint.torque, "N*m", joint.holds,
        "" if joint.holds is None else "at most",
        f"{OVER:g} × the twist of a strong first combustion; the limit is what it holds cold",
        _TWICE,
    )  # fmt: skip
    yield "joint.torque", (number, sheet)
    sheet = _over(engine, "twist", f"twist of the {joint.what}", joint.twist, "N*m")
    sheet.put("bar", "length of the bar", BAR, "m", "common practice", "assumed")
    sheet.put("gravity", "gravity", GRAVITY, "m/s^2", "standard", "assumed")
    sheet.found("value", "on the scale", "kg", "over * twist / (bar * gravity)")
    yield "joint.scale", (
        Number("joint_scale", "reading of the luggage scale at the end of the bar",
               joint.kilograms, "kg", why="that torque over the bar's length", source=_TWICE),
        sheet,
    )  # fmt: skip


def _over(engine: Engine, name: str, words: str, value: float, unit: str) -> Sheet:
    sheet = Sheet(engine.values(1))
    sheet.put("over", "what is proved over what is met", OVER, "", "common practice", "assumed")
    sheet.put(name, words, value, unit, _FIRE)
    return sheet


def _piece(found: BenchTests, coupon: Coupon) -> Told:
    unit = "N" if coupon.kind == "force" else "N*m"
    kind = coupon.id.split()[0]
    number = Number(
        coupon.id, f"{coupon.title}: what it is expected to read", coupon.expected.value, unit,
        why=f"worked out of {coupon.path}, which its reading teaches",
        source=_BENT if kind == "bar" else _PARTS,
    )  # fmt: skip
    if kind == "puck":
        return number, _puck(found)
    hours, law = _LAWS[kind]
    moment = recorded(standing(found.plain, hours=hours))
    return by_law(moment, number, law(moment, coupon.id.partition(" ")[2]))


_LAWS: dict[str, tuple[float, Callable[[Moment, str], float]]] = {
    "bar": (FRESH, bent_when),
    "insert": (FRESH, lambda moment, _: pulled_when(moment)),
    "joint": (NIGHT, lambda moment, _: twisted_when(moment)),
}


def _puck(found: BenchTests) -> Sheet:
    plain, sheet = found.plain, Sheet(found.engine.values(1))
    head = plain.cylinders[0].head
    bolt, parts = stiff(plain)
    air = plain.surroundings.air_temperature
    kept = stress_left(plain.materials[head.material], NIGHT, air)
    sheet.put("bolt", "stiffness of the bolt", bolt, "N/m", "its stress area over its grip")
    sheet.put("puck", "stiffness of the puck", parts, "N/m", "its face over its height")
    sheet.put("kept", "stress that a night's creep leaves at fixed strain", kept, "",
              "the row's creep in 1000 h")  # fmt: skip
    torque = sheet.path("head.fasteners.torque")
    sheet.found("crept", "stiffness of both once it has crept", "N/m",
                "1 / (1 / bolt + 1 / (puck * kept))")  # fmt: skip
    sheet.found("value", "moves on at", "N*m", f"{torque} * crept * (1 / bolt + 1 / puck)")
    return sheet
