"""The drawings of the papers as pictures for the pages, each made once for a check."""

from __future__ import annotations

from compliance.checked import Checked
from compliance.desk.kept_check import KeptCheck
from compliance.documents.lone_drawings.lone_drawing import PlanPicture, View, drawing_as_svg, plan_picture
from compliance.documents.page.errors import DocumentError

VIEWS: dict[str, View] = {"plan": "plan", "elevation": "elevation", "section": "section"}
_MOST_KEPT = 60


class Pictures:
    """Those of the last check, by view and wall."""

    def __init__(self, kept: KeptCheck) -> None:
        self._kept = kept
        self._of: Checked | None = None
        self._made: dict[tuple[View, str], str] = {}
        self._plan: PlanPicture | None = None

    def picture(self, view: View, wall: str, trial: Checked | None = None) -> str | None:
        """The SVG, of the last check or of one that was tried; None where there is nothing to draw, or no room."""
        with self._kept.lock:
            checked = trial or self._kept.now.checked
            if checked is None or not checked.facts.views or (view != "plan" and wall not in checked.facts.views):
                return None
            self._keep_for(checked)
            if view == "plan":
                return plan.svg if (plan := self._plan_of(checked)) else None
            key = view, wall
            if key not in self._made:
                try:
                    self._made[key] = drawing_as_svg(checked, view, wall)
                except DocumentError:
                    return None
            return self._made[key]

    def plan(self) -> PlanPicture | None:
        """The plan of the last check, with where its coordinates lie."""
        with self._kept.lock:
            checked = self._kept.now.checked
            if checked is None or not checked.facts.views:
                return None
            self._keep_for(checked)
            return self._plan_of(checked)

    def _keep_for(self, checked: Checked) -> None:
        if checked is not self._of or len(self._made) >= _MOST_KEPT:
            self._of, self._made, self._plan = checked, {}, None

    def _plan_of(self, checked: Checked) -> PlanPicture | None:
        if self._plan is None:
            try:
                self._plan = plan_picture(checked)
            except DocumentError:
                return None
        return self._plan
