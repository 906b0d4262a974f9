"""The crank and what turns with it, seen from the side."""

from __future__ import annotations

from firstfire.drawing import conventions as by
from firstfire.drawing.along_joints import journal_joints, pin_joints
from firstfire.drawing.along_sizes import AlongSizes, PinSizes
from firstfire.drawing.barrel import case_flange
from firstfire.drawing.drive_parts import broken, pitch_radius
from firstfire.drawing.head_parts import valve_frame
from firstfire.drawing.making import hatch, made
from firstfire.drawing.model import Disc, Part, Region, Shape, Stroke
from firstfire.drawing.outlines import line, polygon, rectangle
from firstfire.drawing.valve_parts import cam_centre, follower, lobe_points
from firstfire.engine.geometry import firing_angles
from firstfire.engine.resolve import PlainEngine


def wheel_place(plain: PlainEngine, z: AlongSizes) -> tuple[float, float]:
    """Left and right face of the flywheel."""
    right = z.wall_left[1] - by.BESIDE
    first = z.drawn[0]
    reach = 500 * plain.flywheel.diameter if plain.flywheel.thickness > 0 else 0.0
    if plain.load.kind in ("propeller", "fan"):
        reach = max(reach, 500 * plain.load.diameter)
    if reach > z.room.tops[0] - case_flange(first) - 1.0:
        # what reaches beside the cylinder keeps clear of its screws and body
        right = min(right, z.frames[0].origin[0] - z.room.half[0] - by.BESIDE)
    return right - 1e3 * plain.flywheel.thickness, right


def pulley_place(plain: PlainEngine, z: AlongSizes, row: int = 0) -> tuple[float, float]:
    """Left and right end of the wheels of a cam drive; a second drive stands beside the first."""
    wide = 1e3 * plain.cam_drive.width * plain.cam_drive.count + 2.0 * plain.cam_drive.count
    # the drive runs past the heads
    heads = max(
        frame.origin[0] + max(500 * s.parts.head.diameter, z.room.half[c], s.block_half)
        for c, (s, frame) in enumerate(zip(z.drawn, z.frames, strict=True))
    )
    left = max(z.wall_right[1], heads) + by.BESIDE + row * (wide + 2.0)
    return left, left + wide


def drives(z: AlongSizes) -> int:
    """How many cam shafts there are: opposed cylinders have one each."""
    return len({round(frame.turned, 6) for frame in z.frames})


def shaft(plain: PlainEngine, z: AlongSizes) -> Part:
    """Journals and the ends that carry flywheel and wheels; never hatched."""
    radius = 500 * plain.crank.main_journal_diameter
    left = wheel_place(plain, z)[0] - (8.0 if plain.load.kind != "none" else 5.0)
    right = pulley_place(plain, z, drives(z) - 1)[1] + 3.0
    spans = [(left, z.cheeks[0].left), (z.cheeks[-1].right, right)]
    if len(z.cheeks) == 4:
        # between two throws
        spans.append((z.cheeks[1].right, z.cheeks[2].left))
    pieces = [Region((rectangle(a, -radius, b, radius),)) for a, b in spans if b > a + 1e-6]
    nut = Region((rectangle(left - 1.0, -1.35 * radius, left + 4.0, 1.35 * radius),))
    return made(plain, "shaft", None, *pieces, nut)


def crank(plain: PlainEngine, z: AlongSizes) -> list[Part]:
    """Cheeks, their plates, pins, what runs through them, and joints."""
    cheeks = [Region((rectangle(c.left, c.bottom, c.right, c.top),)) for c in z.cheeks]
    pin_radius = 500 * plain.crank.crankpin_diameter
    pins: list[Shape] = []
    rods: list[Shape] = []
    joints: list[Shape] = []
    plates: list[Shape] = []
    for pin in z.pins:
        low, high = pin.level - pin_radius, pin.level + pin_radius
        pins.append(Region((rectangle(pin.left, low, pin.right, high),)))
        rods += _through(plain, pin)
        joints += pin_joints(plain, pin)
        plates += _plates(plain, pin, z)
    joints += journal_joints(plain, z)
    found = [made(plain, "cheek", None, *cheeks)]
    if plates:
        found.append(made(plain, "joint-plate", None, *plates))
    found += [made(plain, "crankpin", None, *pins), made(plain, "joint", None, *joints)]
    if rods:
        found.append(made(plain, "through-rod", None, *rods))
    return found


def _through(plain: PlainEngine, pin: PinSizes) -> list[Shape]:
    half = 500 * plain.crank.through_rod_diameter
    thick = 1e3 * plain.crank.cheek_thickness
    if half <= 0:
        return []
    return [
        Stroke(line((pin.left - thick, pin.level + y), (pin.right + thick, pin.level + y)),
               "hidden")
        for y in (-half, half)
    ]  # fmt: skip


def _plates(plain: PlainEngine, pin: PinSizes, z: AlongSizes) -> list[Shape]:
    """Let into the cheek's face beside the pin."""
    joint = plain.crank.joint
    thick = 1e3 * joint.plate_thickness
    if not joint.plate or thick <= 0:
        return []
    shapes: list[Shape] = []
    half = 500 * plain.crank.cheek_width - 2.0
    low, high = sorted((0.0, pin.level))
    for edge, side in ((pin.left, -1.0), (pin.right, 1.0)):
        left, right = sorted((edge, edge + side * thick))
        middle = (left + right) / 2
        cheek = min(z.cheeks, key=lambda c: abs((c.left + c.right) / 2 - middle))
        box = rectangle(left, max(low - half, cheek.bottom), right, min(high + half, cheek.top))
        shapes.append(Region((box,), "metal"))
    return shapes


def bearings(plain: PlainEngine, z: AlongSizes) -> list[Part]:
    """Rings and balls in section, and the ring of the case they sit in."""
    crank = plain.crank
    inner, outer = 500 * crank.main_bearing_bore, 500 * crank.main_bearing_outside
    half, gap = 500 * crank.main_bearing_width, outer - inner
    middle, ball = (inner + outer) / 2, by.BALL * 0.5 * gap
    ring = 0.27 * gap
    shapes: list[Shape] = []
    seats: list[Shape] = []
    fill = hatch(plain.materials[plain.case.material])
    for place in z.bearings:
        left, right = place - half, place + half
        for side in (-1.0, 1.0):
            box = sorted((side * inner, side * outer))
            shapes.append(Region((rectangle(left, box[0], right, box[1]),), "paper", "outline"))
            for a, b in ((inner, inner + ring), (outer - ring, outer)):
                low, high = sorted((side * a, side * b))
                shapes.append(Region((rectangle(left, low, right, high),), "metal", "thin"))
            shapes.append(Disc((place, side * middle), ball, "paper", "outline"))
            low, high = sorted((side * outer, side * (outer + by.SEAT_RING)))
            seats.append(Region((rectangle(left, low, right, high),), fill, "thin"))
    return [
        made(plain, "bearing-seat", None, *seats), made(plain, "main-bearing", None, *shapes)
    ]  # fmt: skip


def wheel(plain: PlainEngine, z: AlongSizes) -> list[Part]:
    """Flywheel in section; propeller from its edge, its blades broken off."""
    found = []
    left, right = wheel_place(plain, z)
    if plain.flywheel.thickness > 0:
        rim, bore = 500 * plain.flywheel.diameter, 500 * plain.flywheel.bore
        halves = (rectangle(left, bore, right, rim), rectangle(left, -rim, right, -bore))
        fill = hatch(plain.materials[plain.flywheel.material], left=True)
        found.append(made(plain, "flywheel", None, Region(halves, fill)))
    if plain.load.kind in ("propeller", "fan"):
        found.append(made(plain, "load", None, *_blades(plain, left)))
    return found


def _blades(plain: PlainEngine, right: float) -> list[Shape]:
    long = 500 * plain.load.diameter * by.BLADE_SHOWN
    hub, thick = 0.16 * long + 5.0, 6.0
    left = right - thick - 1.0
    shapes: list[Shape] = [Region((rectangle(left, -hub, right - 1.0, hub),))]
    middle = (left + right - 1.0) / 2
    for side in (-1.0, 1.0):
        end = side * (long + hub)
        blade = polygon((middle - 2.6, side * hub), (middle + 2.6, side * hub),
                        (middle + 1.6, end), (middle - 1.6, end))  # fmt: skip
        shapes += [Region((blade,)), broken((middle - 2.4, end), (middle + 2.4, end))]
    return shapes


def cam_drive(plain: PlainEngine, z: AlongSizes) -> list[Part]:
    """Wheels on crank and cam shaft and what runs over them, from the edge."""
    small = pitch_radius(plain, plain.cam_drive.teeth_crank)
    large = pitch_radius(plain, plain.cam_drive.teeth_cam)
    wheels: list[Shape] = []
    belts: list[Shape] = []
    rows = sorted({round(frame.turned, 6) for frame in z.frames})
    for row, turned in enumerate(rows):
        up = -1.0 if turned else 1.0
        level = up * next(
            s.cam_level for s, f in zip(z.drawn, z.frames, strict=True)
            if round(f.turned, 6) == turned
        )  # fmt: skip
        left, right = pulley_place(plain, z, row)
        wheels.append(Region((rectangle(left, -small, right, small),)))
        wheels.append(Region((rectangle(left, level - large, right, level + large),)))
        belts += _belts(plain, left, level, small, large)
    return [made(plain, "cam-pulleys", None, *wheels), made(plain, "cam-drive", None, *belts)]


def _belts(
    plain: PlainEngine, left: float, level: float, small: float, large: float
) -> list[Shape]:
    """Each belt or chain as a strip with its teeth or links; gears as their faces."""
    drive = plain.cam_drive
    wide = 1e3 * drive.width
    up = 1.0 if level > 0 else -1.0
    shapes: list[Shape] = []
    for number in range(drive.count):
        start = left + 1.0 + number * (wide + 2.0)
        if drive.kind == "gear":
            low, high = sorted((up * small, level - up * large))
            shapes.append(Region((rectangle(start, low, start + wide, high),), "none", "phantom"))
            continue
        thick = max(0.8e3 * drive.pitch, 1.5)
        low, high = sorted((-up * (small + 0.7 * thick), level + up * (large + 0.7 * thick)))
        shapes.append(Region((rectangle(start, low, start + wide, high),), "paper", "thin"))
        pitch = 1e3 * drive.pitch
        for tooth in range(1, int((high - low) / pitch)):
            y = low + tooth * pitch
            shapes.append(Stroke(line((start, y), (start + wide, y)), "dimension"))
    return shapes


def cam_shaft(plain: PlainEngine, z: AlongSizes, crank_angle: float) -> list[Part]:
    """Cams from their edge on the shaft that carries them to the wheel, and its brackets."""
    shapes: list[Shape] = []
    rows = sorted({round(frame.turned, 6) for frame in z.frames})
    for s, frame in zip(z.drawn, z.frames, strict=True):
        worked = [(row, v) for row, v in enumerate(s.valves) if v.valve.worked == "cam"]
        if not worked:
            continue
        turned = bool(frame.turned)
        end = pulley_place(plain, z, rows.index(round(frame.turned, 6)))[1] + 2.0
        radius = max(by.CAM_SHAFT * 1e3 * v.valve.base_radius for _, v in worked)
        far = (frame.origin[0] - end) if turned else (end - frame.origin[0])
        first, last = -s.block_half, far
        if turned:
            first, last = far, s.block_half
        level = s.cam_level
        shaft_ = rectangle(min(first, last), level - radius, max(first, last), level + radius)
        own = [
            *_brackets(s.block_half, s.block, level, radius),
            Region((shaft_,)),
        ]
        for row, v in worked:
            own += [valve_frame(v).shape(shape) for shape in follower(s, v)]
            angle = crank_angle - firing_angles(plain)[s.number - 1]
            points = lobe_points(s, v, row, angle)
            centre = cam_centre(s, v)
            levels = [level + (y - centre) for _, y in points]
            half = max(0.4 * v.head, 2.5)
            own.append(Region((rectangle(v.x - half, min(levels), v.x + half, max(levels)),)))
        shapes += [frame.shape(shape) for shape in own]
    return [made(plain, "cam", None, *shapes)] if shapes else []


def _brackets(half: float, block: float, level: float, radius: float) -> list[Shape]:
    """A post with a cap at each side of the head."""
    shapes: list[Shape] = []
    for side in (-1.0, 1.0):
        left, right = sorted((side * (half - 5.0), side * half))
        shapes.append(Region((rectangle(left, block, right, level + radius + 2.5),)))
    return shapes
