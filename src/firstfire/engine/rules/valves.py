"""Rules for valves, cams and their drive."""

from __future__ import annotations

import math

from firstfire.engine.rules.joint import seat_rules
from firstfire.engine.rules.rule import Asked, Rule
from firstfire.engine.rules.stock import to_step, top_speed, up_to_step

_TEXTBOOK = "J. B. Heywood, Internal Combustion Engine Fundamentals, 1988, section 6.3, from memory"
_STEEL = 7850.0


def _suction(ask: Asked, valve: str) -> bool:
    return bool(ask[f"valves.{valve}.worked"] == "suction")


def _mass(valve: str) -> Rule:
    def steel(ask: Asked) -> float:
        """A disc of 0.1 diameters, a stem of 3; retainer and spring third 0.6 as much."""
        head = ask.number(f"valves.{valve}.head_diameter")
        stem = ask.number(f"valves.{valve}.stem_diameter")
        metal = math.pi / 4 * (head**2 * 0.1 * head + stem**2 * 3 * head)
        return _STEEL * metal * (1.0 if _suction(ask, valve) else 1.6)

    return Rule(
        f"valves.{valve}.mass", steel, "steel head and stem, with retainer and spring third"
    )


_CAM = (
    "R. L. Norton, Cam Design and Manufacturing Handbook, 2nd ed.: greatest slowing of a 3-4-5 "
    "rise is 5.77 lift/duration², at 0.93 of the lift"
)
_RAMP = "common practice, no source"
_OPENS = {"inlet": ("opens_before_top", "closes_after_bottom"),
          "exhaust": ("opens_before_bottom", "closes_after_top")}  # fmt: skip


def _held_down(ask: Asked, valve: str) -> float:
    """Spring force that keeps a valve on its cam at its greatest slowing, N, at 1.2 top speed."""
    here = f"valves.{valve}."
    before, after = (ask.number(here + name) for name in _OPENS[valve])
    half = 0.5 * (before + math.pi + after)
    slowing = 5.77 * ask.number(here + "lift") / half**2
    return ask.number(here + "mass") * slowing * (1.2 * top_speed(ask)) ** 2


def _lift(valve: str) -> Rule:
    def quarter(ask: Asked) -> float:
        table = ask[f"valves.{valve}.lift_table"] if ask.said(f"valves.{valve}.lift_table") else ()
        if table:
            return max(float(lift) for _, lift in table)
        share = 0.2 if _suction(ask, valve) else 0.25
        return to_step(share * ask.number(f"valves.{valve}.head_diameter"), 0.1e-3)

    return Rule(
        f"valves.{valve}.lift",
        quarter,
        "at a quarter of its diameter a valve is as open as its throat; a suction valve less; "
        "the most of a lift table where you gave one",
        _TEXTBOOK,
    )


def _valve(valve: str, share: float) -> tuple[Rule, ...]:
    here = f"valves.{valve}."
    return (
        Rule(here + "worked", "cam", "a cam opens it whatever the suction"),
        Rule(here + "made", "bought", "a bought valve seals"),
        Rule(here + "material", "stainless_304", "stands the heat"),
        Rule(
            here + "head_diameter",
            lambda ask: to_step(share * ask.number("cylinder.bore"), 0.5e-3),
            f"{share:g} × bore leaves a bridge between two seats; to half a millimetre",
            _TEXTBOOK,
        ),
        Rule(
            here + "throat_diameter",
            lambda ask: to_step(0.87 * ask.number(here + "head_diameter"), 0.5e-3),
            "0.85 to 0.9 × head diameter, to half a millimetre",
            _TEXTBOOK,
        ),
        Rule(
            here + "stem_diameter",
            lambda ask: max(3e-3, to_step(0.22 * ask.number(here + "head_diameter"), 0.5e-3)),
            "0.2 to 0.25 × head diameter, 3 mm at least, to half a millimetre",
            _TEXTBOOK,
        ),
        Rule(here + "seat_angle", "45 deg", "the usual seat"),
        Rule(here + "seat_material", "steel_mild", "a turned or bought ring"),
        Rule(
            here + "seat_interference",
            lambda ask: 0.0035 * 1.1 * ask.number(here + "head_diameter"),
            "3 to 4 ‰ of the ring in light metal",
        ),
        Rule(here + "guide_material", "brass", "runs dry for a while"),
        Rule(here + "retainer_material", "steel_mild", "turned from bar"),
        Rule(here + "tappet_material", "steel_mild", "a steel finger or button"),
        _lift(valve),
        _mass(valve),
        Rule(
            here + "spring_rate",
            lambda ask: 150.0 if _suction(ask, valve) else up_to_step(
                max(0.6 * _held_down(ask, valve) / ask.number(here + "lift"), 1500.0), 500.0
            ),
            "keeps it on a 3-4-5 cam to 1.2 times its limiter, or full throttle and a quarter; a "
            "suction valve wants a tenth or less",
            _CAM,
        ),
        Rule(
            here + "spring_preload",
            lambda ask: 0.5 if _suction(ask, valve) else up_to_step(
                max(0.45 * _held_down(ask, valve), 20.0), 5.0
            ),
            "the rest of that force, and 20 N against the cylinder's suction; a suction valve "
            "hardly",
            _CAM,
        ),
        Rule(
            here + "lash",
            lambda ask: 0.0 if _suction(ask, valve) else 0.1e-3,
            "0.1 mm cold keeps it from riding open",
        ),
        Rule(here + "flow_coefficient", 1.0, "as the usual curve of coefficient against lift"),
        Rule(
            here + "cam_law",
            lambda ask: "table" if ask.said(here + "lift_table") else "polynomial_345",
            "gentle and easy to print; the table where you gave one",
        ),
        Rule(here + "base_radius", lambda ask: 2.4 * ask.number(here + "lift"),
             "2 to 3 × lift keeps the flank convex on a curved follower"),
        Rule(here + "cam_ramp", "40 deg",
             "over 40° of crank a tenth of a millimetre is taken up without a blow", _RAMP),
        Rule(here + "cam_width", lambda ask: max(6e-3, ask.number(here + "stem_diameter")),
             "6 mm, or as wide as the stem"),
        Rule(here + "cam_material", lambda ask: ask["printing.material"], "printed"),
        Rule(here + "follower", "curved", "a rounded finger prints well and doesn't dig in"),
        Rule(here + "follower_radius", lambda ask: 0.8 * ask.number(here + "base_radius"),
             "a rounded finger of 0.8 base radii: a larger one undercuts the nose"),
        Rule(here + "rocker", "direct", "cam above the valve"),
        Rule(here + "rocker_ratio", 1.0, "direct"),
        Rule(here + "rocker_arm", lambda ask: 2.5 * ask.number(here + "base_radius"),
             "2.5 base radii keep its push square to it"),
    )  # fmt: skip


def _wheel_seat(ask: Asked) -> float:
    pitch_diameter = ask.number("cam_drive.teeth_crank") * ask.number("cam_drive.pitch") / math.pi
    room = min(0.6 * pitch_diameter, pitch_diameter - ask.number("cam_drive.pitch") - 3e-3)
    most = math.floor(1e3 * room + 1e-6) * 1e-3
    return max(2e-3, min(most, ask.number("crank.main_journal_diameter")))


RULES = (
    Rule("valves.placed", "overhead", "a compact chamber burns fastest"),
    *_valve("inlet", 0.42),
    *_valve("exhaust", 0.37),
    Rule("valves.inlet.opens_before_top", "10 deg", "mild timing for low speeds", _TEXTBOOK),
    Rule("valves.inlet.closes_after_bottom", "40 deg", "mild timing for low speeds", _TEXTBOOK),
    Rule("valves.exhaust.opens_before_bottom", "45 deg", "mild timing for low speeds", _TEXTBOOK),
    Rule("valves.exhaust.closes_after_top", "10 deg", "mild timing for low speeds", _TEXTBOOK),
    Rule("cam_drive.kind", "belt", "needs no oil and forgives centre distance"),
    Rule("cam_drive.count", lambda ask: 1 if ask.number("cylinder.bore") <= 58e-3 else 2,
         "one drive; above 58 mm of bore two, for the springs' torque"),
    Rule("cam_drive.pitch", "3 mm", "a usual printer belt, the stronger kind"),
    Rule("cam_drive.width", lambda ask: 9e-3 if ask.number("cylinder.bore") <= 46e-3 else 15e-3,
         "9 mm carries a small cam; above 46 mm of bore 15 mm, also sold"),
    Rule("cam_drive.teeth_crank", 18, "no fewer than 16 to 18 teeth of 3 mm",
         "belt makers' least teeth, from memory"),
    Rule("cam_drive.teeth_cam", lambda ask: 2 * int(ask["cam_drive.teeth_crank"]), "two to one",
         "definition of the four-stroke cycle"),
    Rule("cam_drive.centre_distance",
         lambda ask: ask.number("rod.length") + ask.number("cylinder.stroke") / 2
         + ask.number("piston.compression_height") + ask.number("head.thickness") + 15e-3
         + 0.95 * ask.number("cylinder.bore"),
         "cam above ports, springs and followers: nearly a bore over the head, and 15 mm"),
    Rule("cam_drive.tension",
         lambda ask: 3000.0 * ask.number("cam_drive.width"),
         "3 N for each millimetre of width"),
    Rule("cam_drive.wheel_material", lambda ask: ask["printing.material"], "printed"),
    Rule("cam_drive.joint.kind", "pinned", "a pin through the wheel's hub"),
    Rule("cam_drive.joint.diameter", _wheel_seat,
         "0.6 of the wheel's pitch diameter, the journal's at most: the end is turned down to it"),
    Rule("cam_drive.joint.length",
         lambda ask: ask.number("cam_drive.count") * (ask.number("cam_drive.width") + 2e-3),
         "the belts and a flange of a millimetre at each side"),
    *seat_rules("cam_drive.joint", False),
)  # fmt: skip
