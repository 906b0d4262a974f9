"""Style, script and fonts: the drawing office's tokens by day and by night."""

from __future__ import annotations

from functools import cache
from importlib.resources import files

from firstfire.drawing.tokens import DAY, NIGHT

STYLES = ("pages", "run", "compare", "setting")
SCRIPTS = (
    "pages",
    "pointing",
    "joints",
    "mechanism",
    "sound",
    "run",
    "compare",
    "choosing",
    "units",
    "setting",
)
"""Names of our own: of all pages, then of single ones."""
FONTS = {"regular": 400, "semibold": 600}
"""Weight by name of the font's file."""


@cache
def style() -> str:
    """All of the pages' own CSS: what the report has too, and what only pages need."""
    root = files("firstfire")
    report = root.joinpath("report", "templates", "style.css").read_text("utf-8")
    static = root.joinpath("pages", "show", "static")
    own = "\n".join(static.joinpath(f"{name}.css").read_text("utf-8") for name in STYLES)
    faces = "".join(
        f"@font-face{{font-family:firstfire;font-weight:{weight};font-style:normal;"
        f"font-display:block;src:url(/own/{name}.woff2) format('woff2')}}"
        for name, weight in FONTS.items()
    )
    handed = "".join(f"--ff-{name}:var(--{name});" for name in DAY)
    return "\n".join(
        [
            faces,
            f":root{{color-scheme:light dark;{_tokens(DAY)}}}",
            f".ff-drawing{{{handed}--ff-font:firstfire,system-ui,sans-serif}}",
            f"@media screen and (prefers-color-scheme:dark){{:root{{{_tokens(NIGHT)}}}}}",
            report,
            own,
        ]
    )


@cache
def script() -> str:
    """The pages' own script."""
    static = files("firstfire").joinpath("pages", "show", "static")
    return "\n".join(static.joinpath(f"{name}.js").read_text("utf-8") for name in SCRIPTS)


@cache
def font(name: str) -> bytes:
    """A font's file."""
    return files("firstfire").joinpath("report", "fonts", f"{name}.woff2").read_bytes()


def _tokens(tokens: dict[str, str]) -> str:
    return "".join(f"--{name}:{colour};" for name, colour in tokens.items())
