"""``firstfire cam``: the cams of an engine, a wanted one, or the best that can be made."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path

from firstfire.cli.asking import asked_engine, asked_speeds, set_values
from firstfire.cli.terminal import columns
from firstfire.engine.engine import Engine
from firstfire.engine.quantity import NotAQuantity, read_quantity
from firstfire.engine.read import read_text, with_values
from firstfire.engine.resolve import resolve
from firstfire.engine.write import set_in_text
from firstfire.errors import CannotWrite, EngineFileError, FirstfireError, OutsideValidity, Problem
from firstfire.files import write_bytes, write_text
from firstfire.loads.cam_profile import Which
from firstfire.setup.cams.cam import Cams, cams
from firstfire.setup.cams.events import Wanted, as_it_is
from firstfire.setup.cams.text import FAMILIES, cams_text
from firstfire.setup.cams.wanted import values

ENDS = (".svg", ".dxf", ".pdf", ".toml")


@dataclass(frozen=True)
class CamAsked:
    """What was typed.

    Attributes
    ----------
    file, tried, layers
        As `asked_engine` takes them.
    valve
        Whose cam is wanted or written; None where nothing says.
    opens, closes, centre, lift, at_lift, law
        Of the wanted cam, as typed.
    lash
        As measured.
    choose, at
        Whether the best is looked for, and the speeds.
    out, overwrite
        Files to write, and whether they may be replaced.
    as_json, full
        How it is shown.
    """

    file: Path
    tried: Sequence[str]
    layers: Sequence[Path]
    valve: str | None
    opens: str | None
    closes: str | None
    centre: str | None
    lift: str | None
    at_lift: str | None
    law: str | None
    lash: str | None
    choose: bool
    at: Sequence[str]
    out: Sequence[Path]
    overwrite: bool
    as_json: bool
    full: bool

    @property
    def wants(self) -> bool:
        """Whether events, lift or law of a cam are given."""
        return any((self.opens, self.closes, self.centre, self.lift, self.at_lift, self.law))


def cam_told(asked: CamAsked, stop: Callable[[], bool]) -> str:
    """The cams that were asked for, as text or JSON; files are written where they are asked for.

    Raises
    ------
    FirstfireError
        With every problem of the file and of what was typed, or why a cam can't be.
    """
    _refuse(asked)
    engine = asked_engine(asked.file, asked.tried, asked.layers)
    lash = _measured(asked)
    put: Mapping[str, object] = {}
    wanted, said = None, ""
    if asked.choose:
        put, said = _chosen(engine, asked, stop)
    elif asked.wants:
        wanted = _wanted(engine, asked)
        put = _put(wanted)
    found = cams(with_values(engine, put) if put else engine, lash=lash, wanted=wanted, values=put)
    if any(one.faults for one in found.cams) and (asked.wants or asked.out):
        raise FirstfireError(_refusal(found))
    written = [_write(found, path, asked) for path in asked.out]
    if asked.as_json:
        from firstfire.setup.cams.contract import cams_json

        return cams_json(found)
    text = cams_text(found, full=asked.full, width=columns())
    return "\n".join(filter(None, (said, text, *written)))


def _refuse(asked: CamAsked) -> None:
    faults = []
    if asked.valve not in (None, "inlet", "exhaust"):
        faults.append(f'--valve is "{asked.valve}": write inlet or exhaust.')
    if asked.choose and asked.wants:
        faults.append("--choose looks for the events itself. Leave out --opens, --lift and so on.")
    if asked.wants and asked.valve is None:
        faults.append("Whose cam is wanted? Say --valve inlet or --valve exhaust.")
    if asked.at and not asked.choose:
        faults.append("--speed goes with --choose: the speeds at which it shall fill best.")
    if asked.law is not None and asked.law not in FAMILIES:
        faults.append(f'--law is "{asked.law}". Families are: {", ".join(FAMILIES)}.')
    for path in asked.out:
        if path.suffix.lower() not in ENDS:
            faults.append(
                f"{path} ends in none of {', '.join(ENDS)}: an outline or an engine file."
            )
        elif path.exists() and not asked.overwrite:
            faults.append(f"{path} is there already. Say --overwrite to replace it.")
    if faults:
        raise FirstfireError("\n".join(faults))


def _measured(asked: CamAsked) -> float | None:
    return None if asked.lash is None else _quantities({"--lash": (asked.lash, "length")})["--lash"]


def _quantities(typed: Mapping[str, tuple[str, str]]) -> dict[str, float]:
    """What was typed in SI.

    Raises
    ------
    EngineFileError
        For each that is no such quantity.
    """
    found, problems = {}, []
    for option, (text, dimension) in typed.items():
        try:
            found[option] = read_quantity(text, dimension)
        except NotAQuantity as why:
            problems.append(Problem(option, why.fault, why.cure))
    if problems:
        raise EngineFileError("what was typed", problems)
    return found


def _wanted(engine: Engine, asked: CamAsked) -> Wanted:
    which: Which = "exhaust" if asked.valve == "exhaust" else "inlet"
    plain = resolve(engine)
    if getattr(plain.cylinders[0].valves, which).worked != "cam":
        raise FirstfireError(f'valves.{which}.worked is "suction": no cam opens it.')
    law = None if asked.law is None else FAMILIES[asked.law]
    have = as_it_is(plain, which, law)
    typed = {
        name: (text, dimension)
        for name, text, dimension in (
            ("--opens", asked.opens, "angle"), ("--closes", asked.closes, "angle"),
            ("--centre", asked.centre, "angle"), ("--lift", asked.lift, "length"),
            ("--at-lift", asked.at_lift, "length"),
        )
        if text is not None
    }  # fmt: skip
    said = _quantities(typed)
    return Wanted(
        have.which, said.get("--opens", have.opens), said.get("--closes", have.closes),
        said.get("--at-lift", 0.0), said.get("--lift", have.lift), have.law, said.get("--centre"),
    )  # fmt: skip


def _put(wanted: Wanted) -> dict[str, object]:
    try:
        return values(wanted)
    except OutsideValidity as why:
        raise FirstfireError(str(why)) from None


def _refusal(found: Cams) -> str:
    """Why a cam can't be, and the nearest that can."""
    lines = []
    for one in found.cams:
        lines += [f"The {one.which} cam can't be: {fault}" for fault in one.faults]
        if one.nearest is not None:
            said = "; ".join(
                f"{path}={value}" for path, value in one.nearest.values.items()
                if not isinstance(value, list)
            )  # fmt: skip
            lines.append(f"The nearest that can be made: {one.nearest.words} ({said}).")
        elif one.faults:
            lines.append("None near it can be made: ask for less lift, or open it longer.")
    return "\n".join(lines)


def _chosen(
    engine: Engine, asked: CamAsked, stop: Callable[[], bool]
) -> tuple[Mapping[str, object], str]:
    """Values of the best cams, and of spring and mass where suction opens the inlet; in words."""
    from firstfire.cli.progress import Working
    from firstfire.setup.cams.choose import choose
    from firstfire.setup.cams.choose_words import chosen_words
    from firstfire.setup.cams.suction_inlet import chosen

    put: dict[str, object] = {}
    with Working() as working:
        if resolve(engine).cylinders[0].valves.inlet.worked == "suction":
            put |= chosen(engine, stop, working)[0]
            engine = with_values(engine, put) if put else engine
        found = choose(engine, asked_speeds(asked.at), stop=stop, on_progress=working)
    return {**put, **found.values}, chosen_words(found, columns())


def _write(found: Cams, path: Path, asked: CamAsked) -> str:
    if path.suffix.lower() == ".toml":
        put = {**set_values(asked.tried), **found.values}
        if not put:
            raise CannotWrite(f"{path}: there is no new cam to write. Ask for one, or --choose.")
        why = dict.fromkeys(found.values, "cam")
        text = set_in_text(read_text(asked.file), put, why)
        write_text(path, text, overwrite=asked.overwrite)
        return f"{path}: the engine file with this cam in it."
    which = asked.valve or found.cams[0].which
    made = next((one.made for one in found.cams if one.which == which), None)
    if made is None:
        raise FirstfireError(f"{path}: no cam opens the {which} valve.")
    from firstfire.cli.draw import written
    from firstfire.drawing.cam_outline import cam_outline

    drawing = cam_outline(found.plain.name, made)
    write_bytes(path, written(drawing, path.suffix.lower(), "A4"), overwrite=asked.overwrite)
    return f"{path}: {drawing.title}. Measure a print of it before you trust it."
