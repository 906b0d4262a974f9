"""How each number of a cam is worked out, at the place of the cam where it is worst."""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping

import numpy as np

from firstfire.engine.records import Array
from firstfire.engine.resolve import PlainEngine
from firstfire.formulas import cam_path
from firstfire.loads import cam_forces
from firstfire.loads.cam_profile import Profile, foot, paths, radii
from firstfire.setup.cams.numbers import top_speed
from firstfire.setup.opened.sheet import Sheet

_FORCES = "forces over the cam's profile"


class CamSheets:
    """Workings of one cam's numbers.

    Parameters
    ----------
    plain, made
        The engine and the cam.
    """

    def __init__(self, plain: PlainEngine, made: Profile) -> None:
        self.plain, self.made = plain, made
        self.speed = top_speed(plain)
        self.here = f"valves.{made.which}."

    def of(self, ident: str, sheet: Sheet) -> bool:
        """Write the working of a number; whether there is one."""
        writer = _WRITERS.get(ident)
        if writer is None:
            return False
        writer(self, sheet)
        return True

    def ratio(self, sheet: Sheet) -> str:
        """The rocker's, or 1 without one."""
        if self.made.valve.rocker == "rocker":
            return sheet.path(f"{self.here}rocker_ratio")
        return sheet.put("ratio", "lift of valve over cam's", 1.0, "", "no rocker")

    def motion(self, sheet: Sheet, place: int, *orders: str) -> None:
        """Put in rise and its derivatives at a place."""
        turned = math.degrees(float(self.made.angle[place]))
        side = "after" if turned > 0 else "before"
        by = f"the cam's profile, {abs(turned):.1f}° of the cam {side} its nose"
        told = {"rise": "rise there", "slope": "its slope by cam angle",
                "second": "its second derivative", "third": "its third derivative"}  # fmt: skip
        for order in orders:
            value = float(getattr(self.made, order)[place])
            sheet.put(order, told[order], value, "m", by)

    def turning(self, sheet: Sheet) -> None:
        """Put in the crank's top speed."""
        by = "spark.limit_speed, or the fastest of use.full_throttle_speeds"
        sheet.put("speed", "crank speed", self.speed, "rad/s", by)

    def spring(self, sheet: Sheet, place: int) -> str:
        """Force of the spring at a place."""
        rate, preload = (
            sheet.path(f"{self.here}spring_rate"),
            sheet.path(f"{self.here}spring_preload"),
        )
        lift = float(self.made.valve_lift[place])
        sheet.put("lift", "lift of the valve there", lift, "m", "rise × ratio - lash")
        return sheet.found("spring", "force of the spring", "N", f"{preload} + {rate} * lift")

    def thrown(self, sheet: Sheet, place: int, times: float = 1.0) -> str:
        """Acceleration of the valve at a place, at `times` top speed."""
        self.motion(sheet, place, "second")
        self.turning(sheet)
        faster = f"({times:g} * speed / 2)" if times != 1.0 else "(speed / 2)"
        return sheet.found(
            "acceleration", "acceleration of the valve", "m/s^2",
            f"{self.ratio(sheet)} * second * {faster}**2",
        )  # fmt: skip


def _lift_at_cam(cam: CamSheets, sheet: Sheet) -> None:
    if cam.made.valve.cam_law == "table":
        cam.motion(sheet, int(np.argmax(cam.made.rise)), "rise")
        sheet.found("value", "lift at the cam", "m", "rise")
        return
    lift, lash = sheet.path(f"{cam.here}lift"), sheet.path(f"{cam.here}lash")
    sheet.found("value", "lift at the cam", "m", f"({lift} + {lash}) / {cam.ratio(sheet)}")


def _radius(cam: CamSheets, sheet: Sheet, place: int, sign: str) -> None:
    made = cam.made
    if made.valve.follower == "flat" and made.valve.rocker == "rocker":
        sheet.put("bend", "radius of the edge", float(radii(made)[place]), "m",
                  "h + d²h/dψ² of the foot's lines, as it swings on its arm")  # fmt: skip
        sheet.found("value", "radius of the edge", "m", "bend")
        return
    if made.valve.follower == "flat":
        base = sheet.path(f"{cam.here}base_radius")
        cam.motion(sheet, place, "rise", "second")
        sheet.found("value", "radius of the edge", "m", f"{base} + rise + second")
        return
    rider = sheet.path(f"{cam.here}follower_radius")
    if made.valve.rocker == "rocker":
        sheet.put("bend", "radius of the follower's path",
                  cam_path.path_radius(paths(made)[place]), "m",
                  "|z'|³/Im(z'* z″) of the path on its arm, turned with the cam")  # fmt: skip
    else:
        base = sheet.path(f"{cam.here}base_radius")
        cam.motion(sheet, place, "rise", "slope", "second")
        sheet.found("away", "its centre from the axis", "m", f"{base} + {rider} + rise")
        sheet.found(
            "bend", "radius of the follower's path", "m",
            "(away**2 + slope**2)**1.5 / (away**2 + 2 * slope**2 - away * second)",
        )  # fmt: skip
    sheet.found("value", "radius of the edge", "m", f"{sign}(bend - {rider})")


def _nose(cam: CamSheets, sheet: Sheet) -> None:
    bends = radii(cam.made)
    if cam.made.valve.follower != "flat":
        convex = np.array([cam_path.path_radius(one) for one in paths(cam.made)]) > 0.0
        bends = np.where(convex, bends, math.inf)
    _radius(cam, sheet, int(np.argmin(bends)), "")


def _hollow(cam: CamSheets, sheet: Sheet) -> None:
    bends = radii(cam.made)
    deep = np.where(bends < -cam.made.valve.follower_radius, bends, -math.inf)
    _radius(cam, sheet, int(np.argmax(deep)), "-")


def _foot(cam: CamSheets, sheet: Sheet) -> None:
    if cam.made.valve.rocker == "rocker":
        aside = foot(cam.made)
        sheet.put("aside", "farthest touch along the foot", float(aside[np.abs(aside).argmax()]),
                  "m", "envelope of the foot's lines, as it swings on its arm")  # fmt: skip
        sheet.found("value", "width of the foot", "m", "2 * abs(aside)")
        return
    cam.motion(sheet, int(np.argmax(np.abs(cam.made.slope))), "slope")
    sheet.found("value", "width of the foot", "m", "2 * abs(slope)")


def _push(cam: CamSheets, sheet: Sheet) -> None:
    steep = _slant(cam, sheet, int(np.argmax(cam_forces.push_angles(cam.made))))
    sheet.found("value", "angle of the push", "rad", f"atan({steep})")


def _slant(cam: CamSheets, sheet: Sheet, place: int) -> str:
    """Tangent of the pressure angle at a place."""
    base, rider = (sheet.path(f"{cam.here}{one}") for one in ("base_radius", "follower_radius"))
    cam.motion(sheet, place, "rise", "slope")
    said = "slant of the push"
    if cam.made.valve.rocker != "rocker":
        return sheet.found("steep", said, "", f"abs(slope) / ({base} + {rider} + rise)")
    arm = sheet.path(f"{cam.here}rocker_arm")
    swung = sheet.found("swung", "swing of the arm in radians", "", f"rise / {arm}")
    sheet.found("out", "follower outwards of the axis", "m",
                f"{base} + {rider} + {arm} * sin({swung})")  # fmt: skip
    sheet.found("aside", "and to its side", "m", f"{arm} * (cos({swung}) - 1)")
    sheet.found("along", "along the way it is led", "m",
                f"out * cos({swung}) - aside * sin({swung})")  # fmt: skip
    sheet.found("across", "across it", "m",
                f"out * sin({swung}) + aside * cos({swung}) - slope")  # fmt: skip
    return sheet.found("steep", said, "", "abs(across) / along")


def _accelerates(cam: CamSheets, sheet: Sheet) -> None:
    place = int(np.argmax(cam_forces.acceleration(cam.made, cam.speed)))
    sheet.found("value", "largest acceleration", "m/s^2", cam.thrown(sheet, place))


def _slows(cam: CamSheets, sheet: Sheet) -> None:
    place = int(np.argmin(cam_forces.acceleration(cam.made, cam.speed)))
    sheet.found("value", "largest deceleration", "m/s^2", f"-{cam.thrown(sheet, place)}")


def _jerks(cam: CamSheets, sheet: Sheet) -> None:
    third = np.where(cam.made.valve_lift > 0.0, np.abs(cam.made.third), 0.0)
    cam.motion(sheet, int(np.argmax(third)), "third")
    cam.turning(sheet)
    sheet.found("value", "jerk", "m/s^3", f"{cam.ratio(sheet)} * abs(third) * (speed / 2)**3")


def _ramp(cam: CamSheets, sheet: Sheet) -> None:
    low = cam.made.rise < cam.made.valve.lash / cam.made.ratio
    steep = np.where(low, np.abs(cam.made.slope), 0.0)
    cam.motion(sheet, int(np.argmax(steep)), "slope")
    cam.turning(sheet)
    sheet.found("value", "speed of the touch", "m/s",
                f"{cam.ratio(sheet)} * abs(slope) * speed / 2")  # fmt: skip


def _force(cam: CamSheets, sheet: Sheet) -> None:
    slow, fast = (cam_forces.cam_force(cam.made, speed) for speed in (0.0, cam.speed))
    place = int(np.argmax(np.maximum(slow, fast)))
    _force_at(cam, sheet, place, moving=bool(fast[place] > slow[place]), name="value")


def _force_at(cam: CamSheets, sheet: Sheet, place: int, *, moving: bool, name: str) -> str:
    terms = [cam.spring(sheet, place)]
    if moving:
        mass, away = sheet.path(f"{cam.here}mass"), cam.thrown(sheet, place)
        terms.append(sheet.found("thrown", "force that throws it", "N", f"{mass} * {away}"))
    if _pressed(cam.made, place):
        head = sheet.path(f"{cam.here}head_diameter")
        sheet.put("gas", "gas it opens against", cam_forces.GAS_AT_OPENING, "Pa",
                  "full throttle, common practice", "assumed")  # fmt: skip
        terms.append(sheet.found("pressed", "push of that gas", "N", f"gas * pi / 4 * {head}**2"))
    asked = f"{cam.ratio(sheet)} * ({' + '.join(terms)})"
    if cam.made.valve.follower != "flat":
        asked += f" * sqrt(1 + {_slant(cam, sheet, place)}**2)"
    return sheet.found(name, "force on what rides on the cam", "N", asked)


def _pressed(made: Profile, place: int) -> bool:
    """Whether the gas that an exhaust valve opens against is in the force there."""
    alone = cam_forces.valve_force(made, 0.0)[place]
    spring = made.valve.spring_preload + made.valve.spring_rate * made.valve_lift[place]
    return bool(alone > spring * 1.000001)


def _contact(cam: CamSheets, sheet: Sheet) -> None:
    made, plain = cam.made, cam.plain
    worst = cam_forces.worst_contact(plain, made, cam.speed)
    slow, fast = (cam_forces.cam_force(made, speed) for speed in (0.0, cam.speed))
    place = _place_of(worst, made, np.maximum(slow, fast))
    moving = bool(fast[place] > slow[place])
    force = _force_at(cam, sheet, place, moving=moving, name="force")
    for key, who in ((made.valve.cam_material, "cam"), (made.valve.tappet_material, "rider")):
        row = plain.materials[key]
        sheet.put(f"{who}_modulus", f"modulus of the {who}", row["modulus_in_plane"], "Pa",
                  row.name, "catalog")  # fmt: skip
        sheet.put(f"{who}_poisson", f"Poisson's ratio of the {who}", row["poisson"], "", row.name,
                  "catalog")  # fmt: skip
    modulus = sheet.found(
        "modulus", "modulus of the contact", "Pa",
        "1 / ((1 - cam_poisson**2) / cam_modulus + (1 - rider_poisson**2) / rider_modulus)",
    )  # fmt: skip
    edge = sheet.put("edge", "radius of the cam's edge there", float(radii(made)[place]), "m",
                     "the cam's profile")  # fmt: skip
    rider = (
        "0" if made.valve.follower == "flat" else f"1 / {sheet.path(f'{cam.here}follower_radius')}"
    )
    radius = sheet.found("radius", "radius of the pair", "m", f"1 / (1 / {edge} + {rider})")
    width = sheet.path(f"{cam.here}cam_width")
    sheet.found("value", "peak pressure", "Pa",
                f"sqrt({force} * {modulus} / (pi * {width} * {radius}))")  # fmt: skip


def _place_of(worst: cam_forces.Contacts, made: Profile, force: Array) -> int:
    """The place of the cam where the worst contact was found."""
    off = np.abs(force - worst.force) + np.abs(made.valve_lift - worst.lift) / 1e-3
    return int(np.argmin(off))


def _spare(cam: CamSheets, sheet: Sheet) -> None:
    fast = cam_forces.SURE * cam.speed
    slowing = cam_forces.acceleration(cam.made, fast) < 0.0
    left = np.where(slowing & (cam.made.valve_lift > 0.0), cam_forces.valve_force(cam.made, fast),
                    math.inf)  # fmt: skip
    place = int(np.argmin(left))
    spring, mass = cam.spring(sheet, place), sheet.path(f"{cam.here}mass")
    away = cam.thrown(sheet, place, cam_forces.SURE)
    sheet.found("value", "force the spring has left", "N", f"{spring} + {mass} * {away}")


def _floats(cam: CamSheets, sheet: Sheet) -> None:
    made = cam.made
    away = cam_forces.acceleration(made, 1.0)
    held = made.valve.spring_preload + made.valve.spring_rate * made.valve_lift
    speeds = np.full_like(away, math.inf)
    kept = (away < 0.0) & (made.valve_lift > 0.0)
    speeds[kept] = np.sqrt(held[kept] / -away[kept])
    place = int(np.argmin(speeds))
    spring, mass = cam.spring(sheet, place), sheet.path(f"{cam.here}mass")
    cam.motion(sheet, place, "second")
    sheet.found("value", "crank speed at which it floats", "rad/s",
                f"2 * sqrt({spring} / ({mass} * {cam.ratio(sheet)} * abs(second)))")  # fmt: skip


_WRITERS: Mapping[str, Callable[[CamSheets, Sheet], None]] = {
    "lift_at_cam": _lift_at_cam, "nose_radius": _nose, "hollow_radius": _hollow,
    "foot_width": _foot, "pressure_angle": _push, "acceleration": _accelerates,
    "deceleration": _slows, "jerk": _jerks, "ramp_speed": _ramp, "force": _force,
    "contact": _contact, "spare_force": _spare, "float_speed": _floats,
}  # fmt: skip
