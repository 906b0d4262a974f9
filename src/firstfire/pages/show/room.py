"""What one server is for: a folder, and the engine that is worked on in it."""

from __future__ import annotations

from dataclasses import dataclass, field
from pathlib import Path

from firstfire.pages.show.hub import Hub, opened


@dataclass
class Room:
    """The folder that is worked in, and the hub once an engine is chosen.

    Attributes
    ----------
    folder
        No file is read or written outside it.
    origins
        That the pages are served under.
    hub
        Of the engine that is worked on; None until one is chosen.
    """

    folder: Path
    origins: tuple[str, ...] = ()
    hub: Hub | None = field(default=None)

    def take(self, path: Path, text: str = "") -> None:
        """Work on an engine file.

        Raises
        ------
        FirstfireError
            Where it can't be read, or another firstfire has it open.
        """
        before, self.hub = self.hub, opened(path, text)
        if before is not None:
            before.close()

    def close(self) -> None:
        """End what works for it."""
        if self.hub is not None:
            self.hub.close()
