"""One open page, as the hub knows it."""

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
    page
        Its address.
    echo
        Serial of the last thing done in it, sent back with the first answer to that.
    """

    push: Push
    narrow: bool = False
    echo: int = 0
    page: str = ""
