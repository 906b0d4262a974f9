"""The style sheet of the page: tokens of the drawing office, day and night, and the font."""

from __future__ import annotations

from base64 import b64encode
from functools import cache
from importlib.resources import files

from firstfire.drawing.tokens import DAY, NIGHT


@cache
def style_sheet() -> str:
    """All of the page's CSS, its fonts in it."""
    own = files("firstfire.report").joinpath("templates", "style.css").read_text("utf-8")
    return "\n".join(
        [
            *(_face(name, weight) for name, weight in (("regular", 400), ("semibold", 600))),
            f":root{{color-scheme:light dark;{_tokens(DAY)}}}",
            f".ff-drawing{{{_handed_on(DAY)}--ff-font:firstfire,system-ui,sans-serif}}",
            f"@media screen and (prefers-color-scheme:dark){{:root{{{_tokens(NIGHT)}}}}}",
            own,
        ]
    )


@cache
def script() -> str:
    """The page's script: readouts, lit parts, lines opened for printing."""
    return files("firstfire.report").joinpath("templates", "page.js").read_text("utf-8")


def _tokens(tokens: dict[str, str]) -> str:
    return "".join(f"--{name}:{colour};" for name, colour in tokens.items())


def _handed_on(tokens: dict[str, str]) -> str:
    """The drawing's own names for the same colours."""
    return "".join(f"--ff-{name}:var(--{name});" for name in tokens)


def _face(name: str, weight: int) -> str:
    data = files("firstfire.report").joinpath("fonts", f"{name}.woff2").read_bytes()
    return (
        f"@font-face{{font-family:firstfire;font-weight:{weight};font-style:normal;"
        f"src:url(data:font/woff2;base64,{b64encode(data).decode()}) format('woff2')}}"
    )
