"""Fragments of HTML: every value escaped and cleaned, with the report's own marks and words."""

from __future__ import annotations

from functools import cache
from typing import Any

from jinja2 import ChoiceLoader, Environment, PackageLoader, StrictUndefined
from markupsafe import Markup

from firstfire.engine.typed import file_lines
from firstfire.report.clean import cleaned


@cache
def environment() -> Environment:
    """The pages' templates, and the report's behind them."""
    found = Environment(
        loader=ChoiceLoader(
            [
                PackageLoader("firstfire.pages.answers"),
                PackageLoader("firstfire.report"),
            ]
        ),
        autoescape=True,
        undefined=StrictUndefined,
        finalize=cleaned,
        trim_blocks=True,
        lstrip_blocks=True,
    )
    found.filters["file_lines"] = file_lines
    return found


def rendered(template: str, **values: Any) -> Markup:
    """A template with its values."""
    return Markup(environment().get_template(template).render(values))
