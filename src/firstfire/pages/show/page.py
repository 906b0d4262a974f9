"""What a page is: an address, the question it answers, and a skeleton with places for answers."""

from __future__ import annotations

from dataclasses import dataclass

from markupsafe import Markup


@dataclass(frozen=True)
class Page:
    """One page.

    Attributes
    ----------
    address
        Path, as ``/hold``.
    question
        Its name: the question it answers.
    body
        HTML of its own below the head. An element with ``data-slot="name"`` is filled with the
        fragment of that name as soon as it is known (see `firstfire.pages.answers`).
    """

    address: str
    question: str
    body: Markup
