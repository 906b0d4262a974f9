"""One open page of the browser, as the hub knows it."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

Push = Callable[[dict[str, Any]], None]


@dataclass
class Tab:
    """One open page.

    Attributes
    ----------
    push
        Sends it a message.
    narrow
        Whether it is as narrow as a phone.
    echo
        Serial of the last thing done in it, sent back with the first answer to that.
    page
        Address of the page it shows.
    """

    push: Push
    narrow: bool = False
    page: str = ""
    echo: int = 0
