"""The process of an errand: engines checked one after the other, or one made to hold."""

from __future__ import annotations

import os
import signal
import socket
import sys
import traceback
from collections.abc import Callable
from multiprocessing.connection import Connection
from typing import Any

from firstfire.errors import FirstfireError, Interrupted, Stopped
from firstfire.pages.answers.messages import Errand, Kind, Told

MODULE = "firstfire.pages.answers.errand_worker"
_BEHIND = 10
"""How far it stands back (as `nice` has it) for the first answer to a change."""
Say = Callable[..., None]


def work(outside: Connection) -> None:
    """Do one errand; whatever else comes has it end with what it has found."""
    try:
        errand: Errand = outside.recv()

        def say(kind: Kind, key: str = "", **data: Any) -> None:
            outside.send(Told(errand.number, key or errand.key, kind, data))

        _done(errand, outside, say)
        say("done")
        outside.recv()  # until nobody is there: who asked ends this process
    except (EOFError, BrokenPipeError, ConnectionResetError):
        return


def _done(errand: Errand, outside: Connection, say: Say) -> None:
    doing = {"check": _check, "plan": _plan}[errand.what]
    try:
        doing(errand, lambda: outside.poll(0), say)
    except (Stopped, Interrupted):
        say("failed", words="")  # who stopped it knows
    except FirstfireError as why:
        say("failed", words=str(why))
    except (EOFError, BrokenPipeError, ConnectionResetError):
        raise
    except Exception as why:  # a fault of ours must not end the pages: it is said, and logged
        traceback.print_exc()
        say("failed", words=f"This could not be computed, by a fault of firstfire's own: {why!r}.")


def _check(errand: Errand, stop: Callable[[], bool], say: Say) -> None:
    """Every engine in full; one that can't be is said, and the others go on."""
    from firstfire.pages.answers.quick import understood
    from firstfire.pages.answers.share import Share
    from firstfire.pages.answers.whole import told
    from firstfire.runs.run import events
    from firstfire.verdict.check import check

    engines = [understood(one) for one in errand.of]
    far = Share(sum(len(events(engine)) for engine in engines))
    for asked, words, engine in zip(errand.of, errand.words, engines, strict=True):

        def progress(what: str, share: float, words: str = words) -> None:
            reached = far.now(share)
            if what:
                say("progress", what=f"{words}: {what}", share=reached, left=far.left())

        result = check(engine, stop=stop, on_progress=progress)
        say("whole", key=asked.key, **told(result))


def _plan(errand: Errand, stop: Callable[[], bool], say: Say) -> None:
    from firstfire.pages.answers.plan import Far, planned
    from firstfire.pages.answers.quick import understood
    from firstfire.verdict.improve.improve import improve

    far = Far()

    def progress(what: str, _: float) -> None:
        if what:
            say("progress", **far.now(what))

    say("plan", **planned(improve(understood(errand.of[0]), stop=stop, on_progress=progress)))


def main() -> None:
    """Started by `firstfire.pages.answers.office` with the number of an open socket."""
    signal.signal(signal.SIGINT, signal.SIG_IGN)  # Ctrl-C is for the server to answer
    os.setpgid(0, 0)  # so that all that works for it can be ended with it
    os.nice(_BEHIND)
    with socket.socket(fileno=int(sys.argv[1])) as handed:
        work(Connection(handed.detach()))


if __name__ == "__main__":
    main()
