"""What stands in for a browser and for the process that computes, and questions to the latter."""

from tests.pages.awaited import awaited
from tests.pages.served import ROOT

from firstfire.pages.answers.messages import Asked, Told
from firstfire.pages.show.tab import Tab

WREN = (ROOT / "engines" / "wren.toml").read_text()
WHOLE = {
    "sentence": "s", "card": "c", "life": "l", "moves": "m", "cautions": "c",
    "lasting": {}, "decides": {}, "lines": [],
    "widths": {"full_throttle@0:rod.break": (0.5, 2.0, 3.0)}, "whys": {"rod-break": "why"},
    "trials": [{"words": "thicker", "set": {"crank.crankpin_diameter": "14 mm"}}],
}  # fmt: skip


class Answers:
    """Stands where the process that computes does: keeps what was asked."""

    def __init__(self):
        self.asked, self.number = [], 0

    def next_number(self):
        self.number += 1
        return self.number

    async def ask(self, asked):
        self.asked.append(asked)

    def close(self):
        pass


class Heard(list):
    def last(self, name):
        return next((message[name] for message in reversed(self) if name in message), None)


def doing(hub, *done, narrow=False):
    """What one tab heard while some things were done in it."""
    heard = Heard()

    async def go():
        hub.tabs["a"] = Tab(heard.append, narrow=narrow)
        for number, what in enumerate(done, start=1):
            if isinstance(what, Told):
                hub._heard(what)
            else:
                await hub.done("a", {"n": number, **what})

    awaited(go())
    return heard


def whole(hub):
    return Told(0, hub.desk.sheet.key, "whole", WHOLE)


def asked(text=WREN, number=1, **more):
    return Asked(number, text, text, text, "wren.toml", str(ROOT / "engines"), **more)


def never():
    return False
