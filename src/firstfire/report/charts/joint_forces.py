"""Forces at the joints of a cylinder's mechanism, and twist in its crank, over two turns."""

from __future__ import annotations

import numpy as np

from firstfire.engine.resolve import PlainEngine
from firstfire.report.charts.key import key
from firstfire.report.charts.plot import Axis, Chart, plot
from firstfire.report.charts.torque import ACROSS as SHAFT
from firstfire.report.charts.turned import ACROSS
from firstfire.runs.bout import Bout
from firstfire.runs.moments import joints_at, loads_at
from firstfire.verdict.numbers import THIN, figures

_KINDS = ("strong", "thin dashed", "thin", "thin")
_ALIKE = 0.01
"""Share of the largest force within which bearings are drawn as one."""
_ENTRIES = (("strong", "in the rod"), ("thin dashed", "on the crankpin"), ("thin", "on the wall"))


def joint_forces_chart(bout: Bout, plain: PlainEngine, cylinder: int) -> Chart:
    """Force in the rod, on the crankpin and on the cylinder's wall; the mean cycle's."""
    felt = loads_at(bout, plain, [peaks.mean for peaks in bout.point.peaks]).cylinders[cylinder]
    forces = [np.asarray(force) / 1e3 for force in (felt.rod, felt.crankpin, felt.side)]
    low, high = min(float(f.min()) for f in forces), max(float(f.max()) for f in forces)
    room = 0.06 * (high - low)
    paper = plot(ACROSS, Axis(low - room, high + room, "kN", "kN"), left=44)
    paper = paper.level(0.0, "axis")
    angle = np.degrees(felt.angle)
    for (kind, name), force in zip(_ENTRIES, forces, strict=True):
        paper = paper.curve(angle, force, kind, name)
    paper = key(paper, _ENTRIES)
    rod = forces[0]
    said = f"The rod is pressed with {figures(float(rod.max()))}{THIN}kN at most"
    pulled = -float(rod.min())
    said += f" and pulled with {figures(pulled)}{THIN}kN." if pulled > 0.0 else ", never pulled."
    said += " Of the mean cycle; a strong one gives more."
    title = "Forces at its joints"
    if len(plain.cylinders) > 1:
        title += f", cylinder {cylinder + 1}"
    name = f"joint-forces-{cylinder + 1}"
    return Chart(name, title, said, paper.svg(name, title, said))


def mains_chart(bout: Bout, plain: PlainEngine) -> Chart:
    """Force of the crank on each main bearing over the shaft's angle; the mean cycle's."""
    found = joints_at(bout, plain)
    forces = [np.abs(force) / 1e3 for force in found.mains]
    alike = all(np.allclose(force, forces[0], atol=_ALIKE * forces[0].max()) for force in forces)
    names = (
        ["on each main bearing"]
        if alike
        else [name.partition("bearing ")[2] or name for name in found.names]
    )
    high = max(float(force.max()) for force in forces)
    paper = plot(SHAFT, Axis(0.0, 1.06 * high, "kN", "kN"), left=44)
    drawn = list(zip(_KINDS, names, forces, strict=False))
    for kind, name, force in drawn:
        paper = paper.curve(np.degrees(found.angle), force, kind, name)
    paper = key(paper, tuple((kind, name) for kind, name, _ in drawn))
    worst = max(range(len(forces)), key=lambda at: float(forces[at].max()))
    which = "Each main bearing" if alike else found.names[worst].capitalize()
    said = f"{which} is pressed with {figures(high)}{THIN}kN at most, by the mean cycle."
    title = "Forces on its main bearings"
    return Chart("mains", title, said, paper.svg("mains", title, said))


def twist_chart(bout: Bout, plain: PlainEngine) -> Chart | None:
    """Twist of each joint of the crank by the mean cycle; None of a crank in one piece."""
    felt = loads_at(bout, plain, [peaks.mean for peaks in bout.point.peaks])
    twists = {name: np.asarray(twist) for name, twist in felt.joint_twists.items()}
    if not twists:
        return None
    worst = max(twists, key=lambda name: float(np.max(np.abs(twists[name]))))
    everything = np.concatenate([*twists.values(), [0.0]])
    low, high = float(everything.min()), float(everything.max())
    room = 0.06 * (high - low)
    paper = plot(SHAFT, Axis(low - room, high + room, "N·m", "N·m"), left=44)
    paper = paper.level(0.0, "axis")
    angle = np.degrees(felt.shaft_angle)
    for name, twist in twists.items():
        kind = "strong" if name == worst else "thin dashed"
        paper = paper.curve(angle, twist, kind, f"joint {name}")
    if len(twists) > 1:
        paper = key(paper, (("strong", f"joint {worst}"), ("thin dashed", "the others")))
    most = float(np.max(np.abs(twists[worst])))
    said = f"Joint {worst} has to hold most: {figures(most)}{THIN}N·m by the mean cycle."
    title = "Twist in the crank's joints"
    return Chart("twist", title, said, paper.svg("twist", title, said))
