"""The command ``firstfire``. Each command hands over to the rooms and shows what comes back."""

from __future__ import annotations

import errno
import io
import os
import sys
from pathlib import Path
from typing import Annotated, Any, NoReturn

import typer
from typer.core import TyperGroup

from firstfire.cli.as_typed import as_typed
from firstfire.cli.cam_commands import cam
from firstfire.cli.checking import ENGINES
from firstfire.cli.fits_commands import coupon, fits
from firstfire.cli.fuel_commands import fuel, tables
from firstfire.cli.leak_commands import leak
from firstfire.cli.open_commands import open_pages
from firstfire.cli.options import FileArgument, JsonOption, LayerOption, LifeOption, SetOption
from firstfire.cli.spark_commands import spark, wiring
from firstfire.cli.start_commands import list_faults, start
from firstfire.cli.stopped import (
    BY_HAND,
    showing_what_is_finished,
    stoppable,
    stopped_as_by_hand,
)
from firstfire.cli.terminal import hung
from firstfire.cli.timing_commands import setup, timing
from firstfire.errors import FirstfireError

_HELP = """Says before printing what a small home-printed four-stroke engine will do,
which part fails first and how long it may run. Everything it says is an estimate."""

_ORDER = (
    "open", "new", "check", "start", "improve", "explain", "compare", "parts", "draw", "cam",
    "timing", "spark", "wiring", "fuel", "tables", "fits", "setup", "coupon", "leak", "catalog",
    "faults", "schema",
)  # fmt: skip
"""Commands in the order in which a person needs them."""


class _InOrder(TyperGroup):
    """The commands, listed in the order of work."""

    def list_commands(self, ctx: Any) -> list[str]:
        """Names of all commands; what has no place in that order comes last."""
        known = super().list_commands(ctx)
        return sorted(known, key=lambda name: _ORDER.index(name) if name in _ORDER else len(_ORDER))

    def get_command(self, ctx: Any, cmd_name: str) -> Any:
        """A command by its name."""
        found = super().get_command(ctx, cmd_name)
        if found is not None:
            as_typed(found.get_params(ctx))
        return found

    def get_params(self, ctx: Any) -> Any:
        """What goes before a command."""
        found = super().get_params(ctx)
        as_typed(found)
        return found


app = typer.Typer(
    cls=_InOrder,
    help=_HELP,
    invoke_without_command=True,
    add_completion=False,
    pretty_exceptions_enable=False,
    rich_markup_mode=None,
)


def _version(wanted: bool) -> None:
    if wanted:
        from firstfire.version import VERSION

        typer.echo(f"firstfire {VERSION}")
        raise typer.Exit


@app.callback()
def _main(
    context: typer.Context,
    version: Annotated[  # noqa: ARG001 - its own callback answers it
        bool, typer.Option("--version", callback=_version, is_eager=True, help="say which version")
    ] = False,
) -> None:
    if context.invoked_subcommand is not None:
        return
    if not (sys.stdin.isatty() and sys.stdout.isatty()):
        typer.echo(context.get_help())  # nobody is there to look at a page
        raise typer.Exit(2)
    open_pages()


@app.command()
def check(
    file: FileArgument,
    full: Annotated[bool, typer.Option("--full", help="all of it, and not one screen")] = False,
    watched: Annotated[
        bool, typer.Option("--watch", help="check again whenever the file is saved")
    ] = False,
    as_json: JsonOption = False,
    tried: SetOption = None,
    layers: LayerOption = None,
    life: LifeOption = None,
    at: Annotated[
        list[str] | None, typer.Option("--at", metavar="SPEED", help='e.g. "2500 rpm", repeatable')
    ] = None,
    traces: Annotated[
        Path | None, typer.Option(metavar="FILE", help="write every curve, as .csv or .parquet")
    ] = None,
    report: Annotated[
        Path | None, typer.Option(metavar="OUT.html", help="write a page for phone and paper")
    ] = None,
    open_it: Annotated[
        bool, typer.Option("--open", help="show the report in your browser")
    ] = False,
    overwrite: Annotated[
        bool, typer.Option("--overwrite", help="replace the traces' or the report's file")
    ] = False,
    strict: Annotated[bool, typer.Option("--strict", help="exit 1 where something fails")] = False,
    engines: Annotated[
        int,
        typer.Option(min=16, max=2000, metavar="N", help="follow N like it: surer spans, longer"),
    ] = ENGINES,
) -> None:
    """Say what the engine in FILE will do and what ends it."""
    from firstfire.cli.checking import Wanted, checked, refuse_watching

    wanted = Wanted(
        file, tuple(tried or ()), tuple(layers or ()), life, tuple(at or ()), engines,
        traces, report, open_it, overwrite, as_json, full,
    )  # fmt: skip
    if watched:
        from firstfire.cli.watch import watch

        refuse_watching(wanted, strict=strict)
        wanted.refuse_files()
        with stoppable() as stop:
            watch(wanted, stop)
        return
    run = checked(wanted)
    wanted.refuse_files()
    with stoppable() as stop:
        with showing_what_is_finished(as_json=as_json, shown=wanted.shown):
            result = run(stop)
        wanted.write_files(result)
        typer.echo(wanted.shown(result))
    from firstfire.verdict.facts.starting import too_weak

    if strict and (result.verdict.word == "fails" or too_weak(result)):
        raise typer.Exit(1)


app.command("open")(open_pages)
app.command()(start)
app.command("faults")(list_faults)
app.command()(cam)
app.command()(timing)
app.command()(spark)
app.command()(wiring)
app.command()(fuel)
app.command()(tables)
app.command()(fits)
app.command()(coupon)
app.command()(leak)
app.command()(setup)


@app.command()
def improve(
    file: FileArgument,
    out: Annotated[
        Path | None, typer.Option("-o", metavar="BETTER.toml", help="write the better file")
    ] = None,
    odds: Annotated[str, typer.Option(metavar="ODDS", help="how sure it shall hold")] = "19 in 20",
    keep: Annotated[
        list[str] | None,
        typer.Option(metavar="PATHS", help="leave as they are, e.g. bore,stroke,crank"),
    ] = None,
    have: Annotated[
        list[str] | None,
        typer.Option(metavar="ROWS", help="of these kinds only what you have, e.g. petg,6201"),
    ] = None,
    life: LifeOption = None,
    tried: SetOption = None,
    layers: LayerOption = None,
    as_json: Annotated[
        bool, typer.Option("--json", help="for machines: SI, firstfire.improvement/1")
    ] = False,
    overwrite: Annotated[bool, typer.Option("--overwrite", help="replace BETTER.toml")] = False,
) -> None:
    """Find the least work that makes it hold; write the better file."""
    from firstfire.cli.asking import asked_life
    from firstfire.cli.improve import improved

    with stoppable() as stop:
        typer.echo(
            improved(
                file,
                out,
                odds,
                keep or [],
                have or [],
                asked_life(life),
                tried or [],
                layers or [],
                as_json=as_json,
                overwrite=overwrite,
                stop=stop,
            )
        )


@app.command()
def explain(
    file: FileArgument,
    ident: Annotated[
        str | None,
        typer.Argument(metavar="ID", help="a judgement, or a piece of its id"),
    ] = None,
    tried: SetOption = None,
    layers: LayerOption = None,
    event: Annotated[str | None, typer.Option(help="only there, e.g. first_fire")] = None,
    doubt: Annotated[bool, typer.Option("--doubt", help="say what to measure first")] = False,
    as_json: Annotated[
        bool, typer.Option("--json", help="for machines: SI, firstfire.explanation/1 or doubt/1")
    ] = False,
) -> None:
    """Open a judgement to its arithmetic, or say what to measure first.

    Without an ID all judgements are listed. With --doubt it says which reading would decide most.
    """
    from firstfire.cli.explain import explain_engine, measure_first

    asked = tried or [], layers or []
    with stoppable() as stop:
        if doubt:
            event_asked = f"--event {event}" if event else ""
            beside = [word for word in (f'"{ident}"' if ident else "", event_asked) if word]
            typer.echo(measure_first(file, *asked, beside, as_json=as_json, stop=stop))
        else:
            typer.echo(explain_engine(file, ident, *asked, event, as_json=as_json, stop=stop))


@app.command()
def new(
    file: Annotated[
        Path, typer.Argument(metavar="FILE", help="the file to write", show_default=False)
    ],
    name: Annotated[str | None, typer.Option(help="what the engine is called")] = None,
    layout: Annotated[
        str | None, typer.Option(help="single, parallel_twin, v_twin or opposed_twin")
    ] = None,
    bore: Annotated[str | None, typer.Option(help='e.g. "44 mm"')] = None,
    stroke: Annotated[str | None, typer.Option(help='e.g. "40 mm"')] = None,
    material: Annotated[str | None, typer.Option(help="what most parts are printed in")] = None,
    fuel: Annotated[
        str | None, typer.Option(help="petrol, ethanol ...: `firstfire catalog fuel`")
    ] = None,
    starter: Annotated[
        str | None, typer.Option(help="cordless drill, rope ...: `firstfire catalog starter`")
    ] = None,
    power: Annotated[
        str | None, typer.Option(help='instead of bore and stroke: a wish, e.g. "0.5 kW"')
    ] = None,
    speed: Annotated[str, typer.Option(help="speed for that power")] = "4000 rpm",
    also: SetOption = None,
    source: Annotated[
        Path | None, typer.Option("--from", metavar="FILE", help="start from this engine file")
    ] = None,
    full: Annotated[
        bool, typer.Option("--full", help="write every default with its reason")
    ] = False,
    overwrite: Annotated[
        bool, typer.Option("--overwrite", help="replace FILE if it is there")
    ] = False,
) -> None:
    """Write an engine file from a few answers, asked for or given.

    At a terminal it asks what is not given: ? shows what there is, < goes back. A first check in
    three lines follows; Ctrl-C skips it. A wish (--power) is kept in the file, and each check says
    how near it comes.
    """
    from firstfire.cli.begin import Answers, at_a_terminal, begin
    from firstfire.cli.terminal import columns
    from firstfire.verdict.words.text.lines import wrapped

    answers = Answers(name, layout, bore, stroke, material, fuel, starter, power, speed, also or [])
    for said in begin(file, answers, source, full=full, overwrite=overwrite):
        for line in wrapped(said, width=columns()):
            typer.echo(line)
    if source is None and at_a_terminal():
        from firstfire.cli.begin_brief import brief_check

        brief_check(file)


@app.command()
def catalog(
    kind: Annotated[
        str | None, typer.Argument(metavar="KIND", help="material, bearing, oring, thread ...")
    ] = None,
    name: Annotated[str | None, typer.Argument(metavar="NAME", help="a row's name")] = None,
    as_json: Annotated[bool, typer.Option("--json", help="for machines")] = False,
    beside: Annotated[
        Path | None, typer.Option(help="an engine file; its catalog.toml is read too")
    ] = None,
) -> None:
    """Show what is known of materials, bearings, fuels and all else.

    Alone it lists the kinds of rows, with a KIND its rows, with a NAME too all about one.
    """
    from firstfire.cli.catalog import catalog_text

    typer.echo(catalog_text(kind, name, beside, as_json=as_json))


@app.command()
def compare(
    files: Annotated[
        list[Path],
        typer.Argument(
            metavar="FILES", help="engine files; the first is what others are held against"
        ),
    ],
    groups: Annotated[
        list[str] | None,
        typer.Option(
            "--with",
            metavar="CHANGES",
            help="with one file: a further engine, 'path=value; path=value', repeatable",
        ),
    ] = None,
    tried: SetOption = None,
    as_json: Annotated[
        bool, typer.Option("--json", help="for machines: SI, firstfire.compare/1")
    ] = False,
) -> None:
    """Set engines side by side: what differs, and which is better."""
    from firstfire.cli.compare import compared

    with stoppable() as stop:
        typer.echo(compared(files, groups or [], tried or [], as_json=as_json, stop=stop))


@app.command()
def parts(
    file: FileArgument,
    at_hand: Annotated[
        list[str] | None,
        typer.Option(
            "--have", metavar="NAME", help="a catalog row you have, like 6203; repeatable"
        ),
    ] = None,
    tried: SetOption = None,
    layers: LayerOption = None,
    as_json: Annotated[
        bool, typer.Option("--json", help="for machines: SI, firstfire.parts/1")
    ] = False,
) -> None:
    """List what to print, to buy, to measure and to make by hand."""
    from firstfire.cli.parts import parts_told

    typer.echo(parts_told(file, at_hand or [], tried or [], layers or [], as_json=as_json))


@app.command()
def draw(
    file: FileArgument,
    out: Annotated[
        Path, typer.Option("--out", "-o", metavar="FILE", help="engine.svg, .dxf or .pdf")
    ],
    part: Annotated[
        str | None,
        typer.Option(
            metavar="NAME",
            help="one part with all its sizes, to have it made: crank, pin, rod, head, liner, "
            "piston or flywheel",
        ),
    ] = None,
    cylinder: Annotated[int, typer.Option(help="with --part: whose, counted from 1")] = 1,
    angle: Annotated[
        float | None, typer.Option(help="0 to 720: after cylinder 1 fires; 30 if not said")
    ] = None,
    along_crank: Annotated[
        bool, typer.Option("--along-crank", help="cut along the crank instead of across it")
    ] = False,
    forces: Annotated[
        bool, typer.Option("--forces", help="run full throttle and lay its forces over it")
    ] = False,
    paper: Annotated[str, typer.Option(help="of a PDF or a part: A4 or Letter")] = "A4",
    tried: SetOption = None,
    layers: LayerOption = None,
    overwrite: Annotated[
        bool, typer.Option("--overwrite", help="replace the drawing if it is there")
    ] = False,
) -> None:
    """Draw it in section, or one part with all its sizes, to scale."""
    from firstfire.cli.asking import asked_engine
    from firstfire.cli.draw import draw as drawn
    from firstfire.cli.draw import draw_part

    engine = asked_engine(file, tried or [], layers or [])
    if part is not None:
        given = {"--angle": angle is not None, "--along-crank": along_crank, "--forces": forces}
        typer.echo(
            draw_part(
                engine, out, part=part, cylinder=cylinder, paper=paper, overwrite=overwrite,
                whole=[name for name, said in given.items() if said],
            )
        )  # fmt: skip
        return
    if cylinder != 1:
        raise FirstfireError("--cylinder says whose part is drawn: name the part with --part.")
    with stoppable() as stop:
        typer.echo(
            drawn(
                engine, out, angle=30.0 if angle is None else angle, along=along_crank,
                forces=forces, paper=paper, overwrite=overwrite, stop=stop,
            )
        )  # fmt: skip


@app.command()
def schema(
    which: Annotated[
        str,
        typer.Argument(
            metavar="WHICH",
            help="engine, result, start, faults, parts, compare, improvement, leak, explanation, "
            "judgements, doubt, cam, timing, misset, spark, wiring, fuel, fits, coupon or setup",
        ),
    ],
) -> None:
    """Print the JSON Schema of the engine file or of a result."""
    import json

    from firstfire.cli.asking import schema_of

    typer.echo(json.dumps(schema_of(which), indent=2, ensure_ascii=False))


def _say_stopped() -> None:
    sys.stdout.flush()
    print("Stopped.", file=sys.stderr)


def run() -> NoReturn:
    """Run the command line: a refusal is one message on stderr and exit code 2."""
    stopped_as_by_hand()
    # pydantic looks through every installed package for plugins of its own, and we have none
    os.environ.setdefault("PYDANTIC_DISABLE_PLUGINS", "__all__")
    for stream in (sys.stdout, sys.stderr):
        if isinstance(stream, io.TextIOWrapper):
            stream.reconfigure(errors="replace")  # a terminal that knows no degrees or Greek
    try:
        try:
            app(standalone_mode=True)
        finally:
            # Here, where what goes wrong can still be told.
            sys.stdout.flush()
    except FirstfireError as refusal:
        print(hung(str(refusal)), file=sys.stderr)
        sys.exit(2)
    except KeyboardInterrupt:
        _say_stopped()
        sys.exit(BY_HAND)
    except SystemExit as end:
        # Typer turns Ctrl-C into this, without a word.
        if end.code == BY_HAND:
            _say_stopped()
        raise
    except OSError as why:
        _say_unwritten(why)
        sys.exit(1)
    sys.exit(0)


def _say_unwritten(why: OSError) -> None:
    """That what was found could not be handed on; only whoever has gone isn't told."""
    os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
    if not isinstance(why, BrokenPipeError):
        reason = "the disk is full" if why.errno == errno.ENOSPC else (why.strerror or str(why))
        print(f"What was found can't be written: {reason}.", file=sys.stderr)
