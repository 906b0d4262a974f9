"""The process that computes: it answers the newest question, and drops what is older."""

from __future__ import annotations

import signal
import socket
import sys
import traceback
from multiprocessing.connection import Connection, wait

from firstfire.errors import FirstfireError, Stopped
from firstfire.pages.answers.messages import Asked, Told
from firstfire.pages.answers.quick import Quick
from firstfire.pages.answers.whole import Whole

_PAUSE = 0.4
"""Seconds without a question after which the whole is begun: not between two keys."""


def work(outside: Connection) -> None:
    """Answer questions until nobody is there to ask any more."""
    quick, whole = Quick(), Whole()
    try:
        while True:
            ready = wait([outside, *([whole.reading] if whole.reading is not None else [])])
            if outside in ready:
                _asked(_newest(outside), outside, quick, whole)
            elif whole.reading is not None:
                told = whole.heard()
                if told is not None:
                    outside.send(told)
    except (EOFError, BrokenPipeError, ConnectionResetError):
        return
    finally:
        whole.drop()


def _newest(outside: Connection) -> Asked:
    """The last of the questions that wait: the others nobody waits for any more."""
    asked: Asked = outside.recv()
    while outside.poll(0):
        asked = outside.recv()
    return asked


def _asked(asked: Asked, outside: Connection, quick: Quick, whole: Whole) -> None:
    if whole.key != asked.key or not asked.whole:
        whole.drop()
    try:
        for told in quick.answers(asked, lambda: outside.poll(0)):
            outside.send(told)
    except Stopped:
        return
    except FirstfireError as why:
        outside.send(Told(asked.number, asked.key, "failed", {"words": str(why)}))
        return
    except (EOFError, BrokenPipeError, ConnectionResetError):
        raise
    except Exception as why:  # a fault of ours must not end the pages: it is said, and logged
        traceback.print_exc()
        words = f"This could not be computed, by a fault of firstfire's own: {why!r}."
        outside.send(Told(asked.number, asked.key, "failed", {"words": words}))
        return
    under_way = whole.reading is not None and whole.key == asked.key
    if asked.whole and not under_way and not outside.poll(_PAUSE) and quick.engine is not None:
        whole.begin(quick.engine, asked.key, asked.number)


def main() -> None:
    """Started by `firstfire.pages.answers.office` with the number of an open socket."""
    signal.signal(signal.SIGINT, signal.SIG_IGN)  # Ctrl-C is for the server to answer
    with socket.socket(fileno=int(sys.argv[1])) as handed:
        work(Connection(handed.detach()))


if __name__ == "__main__":
    main()
