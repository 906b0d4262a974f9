"""A line on stderr that says what is being run and about how long it will still take."""

from __future__ import annotations

import subprocess
import sys
import time
from types import TracebackType


class Working:
    """Shows progress on a terminal; says nothing where stderr isn't one.

    Use as a context; call with what is being run and the share done.
    """

    def __init__(self) -> None:
        self._shown = sys.stderr.isatty()
        self._began = time.monotonic()
        self._wide = 0

    def __enter__(self) -> Working:
        from firstfire.cycle.compile import cache_folder

        if not any(cache_folder().rglob("*.nbi")):
            print(
                "Preparing the gas model for this machine, once: about half a minute.",
                file=sys.stderr,
                flush=True,
            )
            # The walls' part compiles beside the gas's; whichever needs it first finds it there.
            subprocess.Popen(
                [sys.executable, "-m", "firstfire.heat.first_use"],
                stdin=subprocess.DEVNULL,
                stdout=subprocess.DEVNULL,
                stderr=subprocess.DEVNULL,
            )
        return self

    def __call__(self, what: str, share: float) -> None:
        """Show what is being run; `share` is how much is done, 0 to 1."""
        if not self._shown:
            return
        text = f"{what} ..." if what else ""
        gone = time.monotonic() - self._began
        if what and share > 0 and gone > 2:
            text += f" about {gone * (1 - share) / share:.0f} s left"
        print(f"\r{text:<{self._wide}}", end="", file=sys.stderr, flush=True)
        self._wide = max(self._wide, len(text))

    def __exit__(
        self,
        kind: type[BaseException] | None,
        fault: BaseException | None,
        trace: TracebackType | None,
    ) -> None:
        if self._shown and self._wide:
            print("\r" + " " * self._wide + "\r", end="", file=sys.stderr, flush=True)
