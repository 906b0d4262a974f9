"""The process that tells a start: one question, its progress and its answer, and it ends."""

from __future__ import annotations

import os
import signal
import socket
import sys
import traceback
from multiprocessing.connection import Connection
from typing import Any

from firstfire.errors import EngineFileError, FirstfireError, Stopped
from firstfire.pages.answers.messages import Kind, StartAsked, Told

MODULE = "firstfire.pages.answers.start_worker"
_BEHIND = 10
"""How far it stands back (as `nice` has it) for the first answer to a change."""


def work(outside: Connection) -> None:
    """Answer one question; whatever else comes has it end with what it has found."""
    try:
        asked: StartAsked = outside.recv()

        def say(kind: Kind, **data: Any) -> None:
            outside.send(Told(asked.number, asked.key, kind, data))

        _answered(asked, outside, say)
        outside.recv()  # until nobody is there: who asked ends this process
    except (EOFError, BrokenPipeError, ConnectionResetError):
        return


def _answered(asked: StartAsked, outside: Connection, say: Any) -> None:
    from firstfire.pages.answers.quick import understood
    from firstfire.pages.answers.start_asked import start_set
    from firstfire.pages.answers.start_told import Far, start_told
    from firstfire.runs.start.account import account

    far = Far()

    def progress(what: str, share: float) -> None:
        say("progress", **far.now(what, share))

    try:
        wanted = start_set(understood(asked.of), asked.said)
        os.nice(_BEHIND)  # what is wrong is told at once
        found = account(
            wanted.engine, wanted.asked, count=wanted.engines,
            stop=lambda: outside.poll(0), on_progress=progress,
        )  # fmt: skip
        say("start", **start_told(found, wanted.faults))
    except EngineFileError as why:
        problems = [
            {"field": p.path, "words": f"{p.fault}. {p.cure}".strip()} for p in why.problems
        ]
        say("failed", words="This start can't be run as it is set.", problems=problems)
    except Stopped:
        say("failed", words="Stopped before enough was known to tell.", problems=[])
    except FirstfireError as why:
        say("failed", words=str(why), problems=[])
    except (EOFError, BrokenPipeError, ConnectionResetError):
        raise
    except Exception as why:  # a fault of ours must not end the pages: it is said, and logged
        traceback.print_exc()
        words = f"This could not be computed, by a fault of firstfire's own: {why!r}."
        say("failed", words=words, problems=[])


def main() -> None:
    """Started by `firstfire.pages.answers.office` with the number of an open socket."""
    signal.signal(signal.SIGINT, signal.SIG_IGN)  # Ctrl-C is for the server to answer
    os.setpgid(0, 0)  # so that all that works for it can be ended with it
    with socket.socket(fileno=int(sys.argv[1])) as handed:
        work(Connection(handed.detach()))


if __name__ == "__main__":
    main()
