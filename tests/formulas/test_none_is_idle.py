"""No law lies idle: each is reached from what the program runs, or an open issue will use it."""

from __future__ import annotations

import ast
from pathlib import Path

SOURCE = Path(__file__).parents[2] / "src" / "firstfire"
FORMULAS = SOURCE / "formulas"
NUMBERS = ("mathematics", "recorded")
"""Arithmetic itself."""

WAITING = {
    "Will it start, keep itself going, or kick back?": """
        flame_shape.enflamed_volume flame_shape.front_area flame_shape.greatest_radius
        flywheel.geared_inertia flywheel.inertia_for_swing
        fuel_mix.vapour_fraction
        laminar_speed.laminar_speed_range spin_down.Drag spin_down.angle_to_slow
        spin_down.fit_drag spin_down.speed_after spin_down.time_to_slow
        turbulent_flame.inlet_gas_speed turbulent_flame.keck_length turbulent_flame.keck_rates
        turbulent_flame.keck_speed
    """,
    "Setting up, first half: cams, valves and timing": """
        cam_curvature.require_no_undercut contact.point_approach contact.point_contact
        contact.point_yield_pressure
        contact_shear.point_shear firing.opposed_twin
        spring.bergstrasser_factor spring.force_at_stress
    """,
    "Setting up, second half: spark, fuel, fits and torques": """
        fits.tolerance_unit fuel_mix.Fuel
        fuel_mix.blend fuel_mix.charge_density fuel_mix.equivalence_ratio
        fuel_mix.lower_heating_value
        spark_gap.ignition_energy spark_gap.townsend_voltage
    """,
}
"""Laws that an open issue will use, by its title. Only to be taken from."""
MOST_WAITING = 35

Law = tuple[str, str]


def imported(tree: ast.Module) -> tuple[dict[str, str], dict[str, Law]]:
    """Modules of formulas, and laws, by the name that a file calls them."""
    modules: dict[str, str] = {}
    laws: dict[str, Law] = {}
    for node in ast.walk(tree):
        if isinstance(node, ast.ImportFrom) and (node.module or "").startswith(
            "firstfire.formulas"
        ):
            module = str(node.module).removeprefix("firstfire.formulas").lstrip(".")
            for one in node.names:
                if module:
                    laws[one.asname or one.name] = (module, one.name)
                else:
                    modules[one.asname or one.name] = one.name
    return modules, laws


def asked_for(node: ast.AST, modules: dict[str, str], laws: dict[str, Law], own: str) -> set[Law]:
    """Laws that a piece of code names; `own` is the module of formulas it stands in, or ""."""
    found = set[Law]()
    for one in ast.walk(node):
        if isinstance(one, ast.Attribute) and isinstance(one.value, ast.Name):
            if one.value.id in modules:
                found.add((modules[one.value.id], one.attr))
        elif isinstance(one, ast.Name):
            found.add(laws.get(one.id, (own, one.id)))
        elif isinstance(one, ast.Call) and ast.unparse(one.func) == "getattr":
            held = ast.unparse(one.args[0])
            if held in modules:  # one of a module's laws, by a name from the engine file
                found |= {law for law in written() if law[0] == modules[held]}
    return found


def written() -> dict[Law, ast.stmt]:
    """Everything at the top of a module of formulas, by module and name."""
    found: dict[Law, ast.stmt] = {}
    for path in FORMULAS.glob("*.py"):
        for node in ast.parse(path.read_text(encoding="utf-8")).body:
            for name in names_of(node):
                found[(path.stem, name)] = node
    return found


def names_of(node: ast.stmt) -> list[str]:
    if isinstance(node, ast.FunctionDef | ast.ClassDef):
        return [node.name]
    targets = node.targets if isinstance(node, ast.Assign) else []
    targets += [node.target] if isinstance(node, ast.AnnAssign) else []
    return [one.id for one in targets if isinstance(one, ast.Name)]


def idle() -> set[str]:
    """Public laws that nothing outside of the room reaches, straight or through another."""
    known = written()
    calls: dict[Law, set[Law]] = {}
    for path in FORMULAS.glob("*.py"):
        modules, laws = imported(ast.parse(path.read_text(encoding="utf-8")))
        for law, node in known.items():
            if law[0] == path.stem:
                calls[law] = asked_for(node, modules, laws, path.stem)
    open_ones = set[Law]()
    for path in SOURCE.rglob("*.py"):
        if path.parent != FORMULAS:
            tree = ast.parse(path.read_text(encoding="utf-8"))
            open_ones |= asked_for(tree, *imported(tree), "")
    reached = set[Law]()
    while open_ones:
        law = open_ones.pop()
        if law in known and law not in reached:
            reached.add(law)
            open_ones |= calls[law]
    return {
        ".".join(law)
        for law, node in known.items()
        if law not in reached
        and isinstance(node, ast.FunctionDef | ast.ClassDef)
        and not law[1].startswith("_")
        and law[0] not in NUMBERS
    }


def test_what_nothing_reaches_waits_for_an_open_issue() -> None:
    waiting = {law for laws in WAITING.values() for law in laws.split()}
    assert idle() == waiting


def test_the_list_only_grows_shorter() -> None:
    assert sum(len(laws.split()) for laws in WAITING.values()) <= MOST_WAITING
