"""The plan of the page *Compare*: its steps, which of them are ticked, and whether it is old."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from typing import Any

from firstfire.errors import FirstfireError
from firstfire.pages.answers.messages import Told
from firstfire.pages.desk.desk import Desk
from firstfire.pages.desk.planned import Plan, keep, kept, plan_file
from firstfire.pages.desk.sheet import Trial
from firstfire.pages.show.put_aside import steps_words

_OLD = (
    "<p>This plan is of the engine before its last change: look for the steps anew to lay them "
    'beside or save them.</p><div class="old">{}</div>'
)


class Steps:
    """The plan there is, if there is one; it outlasts the server.

    Parameters
    ----------
    desk
        What is worked on.
    """

    def __init__(self, desk: Desk) -> None:
        self._desk = desk
        self._plan = kept(plan_file(desk.kept_in))

    @property
    def ticked(self) -> list[int]:
        """Places of the steps that are ticked."""
        return list(self._plan.ticked) if self._plan is not None else []

    @property
    def old(self) -> bool:
        """Whether the plan is of an engine before its last change."""
        return self._plan is not None and self._plan.of != self._desk.sheet.present.key

    def html(self) -> str | None:
        """As the page shows it; None where there is none."""
        if self._plan is None:
            return None
        return _OLD.format(self._plan.html) if self.old else self._plan.html

    def found(self, told: Told) -> None:
        """A search has ended: all that it found is ticked."""
        steps = tuple(told.data["steps"])
        every = tuple(range(len(steps)))
        self._hold(Plan(told.key, str(told.data["html"]), steps, told.data["reasons"], every))

    def tick(self, what: Mapping[str, Any]) -> None:
        """Tick other steps.

        Raises
        ------
        FirstfireError
            Where there is no plan.
        """
        self._hold(replace(self.plan, ticked=self.plan.among(what["steps"])))

    @property
    def plan(self) -> Plan:
        """The plan that there is.

        Raises
        ------
        FirstfireError
            Where there is none.
        """
        if self._plan is None:
            raise FirstfireError("There is no plan yet.")
        return self._plan

    def trial(self, what: Mapping[str, Any]) -> Trial:
        """The steps that are meant, as a trial.

        Raises
        ------
        FirstfireError
            Where they are of an engine before, or none is meant.
        """
        plan, steps = self.plan, self.plan.among(what["steps"])
        if self.old:
            raise FirstfireError("The plan is of the engine before its last change: make it anew.")
        if not steps:
            raise FirstfireError("Tick a step of the plan first.")
        found: dict[str, str] = {}
        for step in steps:
            found |= plan.steps[step]
        return Trial(steps_words(steps), found)

    def _hold(self, plan: Plan) -> None:
        """Take a plan, and keep it for when firstfire is started again."""
        self._plan = plan
        keep(plan_file(self._desk.kept_in), plan)
