"""Foundation plan, roof framing plan and elevations of all sides: what is drawn where, by hand from small plans."""

from __future__ import annotations

import math

import pytest

from compliance.checked import Checked
from compliance.checking import check_folder
from compliance.documents.figures.drawing_ink import letters
from compliance.documents.figures.drawing_subjects import plan_subject, wall_subjects
from compliance.documents.page.faces import register_faces
from compliance.drawings.common.board import TextMetrics
from compliance.drawings.common.primitives import Dimension, Lettering, Pen, Stroke
from compliance.drawings.framing.foundation_plan import foundation_plan
from compliance.drawings.framing.lot_lines import lot_lines
from compliance.drawings.framing.roof_outline import Gabled, roof_form
from compliance.drawings.framing.roof_plan import roof_plan
from compliance.drawings.framing.side_elevations import Outside, side_elevations
from compliance.drawings.framing.side_faces import Face, Side, slices
from compliance.drawings.framing.site_plan import site_plan
from compliance.drawings.plan.outer_faces import outside_faces
from compliance.drawings.plan.plan_face import PlanSubject
from compliance.model.site import SitePlan
from compliance.report.by_rule import by_rule
from compliance.units import Writer
from tests.conftest import EXAMPLE
from tests.unit.drawn import project, room, views_of

FOOT, INCH = 0.3048, 0.0254
LINES = (
    (-3, -5, -3, 12, 3.0), (9, 10, -3, 10, 4.0), (12, 0, 6, 12, None), (3, -5, 3, 9, None), (40, -9, 50, -9, 2.0),
)  # fmt: skip


@pytest.fixture(scope="module")
def made() -> Checked:
    register_faces()
    return check_folder(EXAMPLE)


@pytest.fixture(scope="module")
def metrics() -> TextMetrics:
    return TextMetrics(letters, Writer("us"))


def texts(items: object) -> list[str]:
    return [one.text for one in items if isinstance(one, Lettering)]  # type: ignore[attr-defined]


def test_the_outline_of_a_roof_over_two_walls_by_hand(made: Checked) -> None:
    """W1 and W3 of 24 ft run 16 ft apart, 18 in thick at the base: eaves 30 in past the faces, so 16 ft + 2 x 39 in;
    rakes of 6 in past faces as thick, 24 ft + 2 x 15 in. At 24 in 13 spaces fit into 26 ft 6 in: 14 rafters."""
    form = roof_form(made.project.roofs["R1"], made.facts.views)
    assert isinstance(form, Gabled)
    assert form.high - form.low == pytest.approx(16 * FOOT + 78 * INCH)
    assert form.last - form.first == pytest.approx(24 * FOOT + 30 * INCH)
    stations = form.stations(24 * INCH, 240)
    assert len(stations) == 14 and stations[1] - stations[0] == pytest.approx(24 * INCH)
    assert form.stations(24 * INCH, 5) == [] and form.stations(None, 240) == []


def test_the_roof_plan_draws_every_rafter_and_names_what_it_bears_on(made: Checked, metrics: TextMetrics) -> None:
    plan = plan_subject(made, wall_subjects(made, by_rule(made)))
    draft = roof_plan(made.project, plan, metrics=metrics, width=960.0, tallest=540.0)
    assert draft is not None
    drawing = draft.draw(draft.least)
    form = roof_form(made.project.roofs["R1"], made.facts.views)
    assert isinstance(form, Gabled) and drawing.scale
    long = (form.high - form.low) * drawing.scale.per_metre
    rafters = [one for one in drawing.items if isinstance(one, Stroke) and one.pen is Pen.MEASURE
               and math.dist(one.points[0], one.points[-1]) == pytest.approx(long)]  # fmt: skip
    assert len(rafters) == 14
    assert texts(drawing.items).count("bears R1") == 2 and "roof R1" in texts(drawing.items)
    assert "thrust held by: ceiling tie" in draft.notes[1] and "900 lbf at 4 ft" in draft.notes[1]


def test_the_foundation_is_as_wide_as_described(made: Checked, metrics: TextMetrics) -> None:
    """Footings of 24 in: the overall width is that of the walls and 3 in more on either side, 28 ft 6 in + 6 in."""
    plan = plan_subject(made, wall_subjects(made, by_rule(made)))
    drawing = foundation_plan(made.project, plan, metrics, width=960.0, tallest=540.0).draw(600.0)
    (overall,) = [
        one for one in drawing.items if isinstance(one, Dimension) and one.subject == "plan, the whole across"
    ]
    assert overall.text == "29 ft"
    assert texts(drawing.items).count("F1, ST1") == len(plan.views)


def lot(*lines: tuple[float, float, float, float, float | None]) -> SitePlan:
    given = [
        {"from": [f"{x0} m", f"{y0} m"], "to": [f"{x1} m", f"{y1} m"]} | ({"setback": f"{off} m"} if off else {})
        for x0, y0, x1, y1, off in lines
    ]
    return SitePlan.model_validate({"source": "a survey", "lines": given})


def test_walls_are_measured_off_the_property_lines_by_hand(metrics: TextMetrics) -> None:
    """A room of 6 by 4 m on centerlines, walls 0.4 m thick: its faces lie at -0.2 and 6.2, -0.2 and 4.2 m. Lines at
    x = -3 and y = 10 lie 2.8 and 5.8 m off; one from (12, 0) to (6, 12), direction (-1, 2) / √5, is nearest the corner
    (6.2, 4.2): |2 × (6.2 - 12) + 4.2| / √5 = 7.4 / √5 m; one that runs at x = 3 crosses; one far below is beside
    no wall. Which end a line is given from does not matter."""
    made = project(room(6, 4))
    views = views_of(made)
    plan = PlanSubject(views, walls=made.walls, buttresses={}, outside=outside_faces(views))
    of = lot(*LINES)
    for turned in (of, lot(*[(x1, y1, x0, y0, off) for x0, y0, x1, y1, off in LINES])):
        found = list(lot_lines(turned, plan))
        assert [one.off for one in found[:3]] == pytest.approx([2.8, 5.8, 7.4 / math.sqrt(5)])
        assert [one.crosses for one in found] == [False, False, False, True, False]
        assert found[4].off is None
    draft = site_plan(of, plan, metrics, 900.0, 600.0)
    drawing = draft.draw(draft.least)
    assert any("Nearer than the setback: walls 9 ft 2 1/4 in off the property line 1" in one for one in drawing.notes)
    assert any("property line 4 runs through the walls" in one for one in drawing.notes) and len(drawing.notes) == 3
    measured = {one.subject: one for one in drawing.items if isinstance(one, Dimension)}
    assert set(measured) == {f"walls off the property line {number}" for number in (1, 2, 3)}
    assert drawing.scale
    for one in measured.values():
        assert math.dist(one.start, one.end) / drawing.scale.per_metre == pytest.approx(one.value)
    setbacks = [one for one in drawing.items if isinstance(one, Stroke) and one.pen is Pen.HIDDEN]
    assert len(setbacks) == 3
    assert setbacks[0].points[0][0] > min(x for one in drawing.items if isinstance(one, Stroke) for x, _ in one.points)


def test_each_side_shows_the_walls_that_face_it(made: Checked, metrics: TextMetrics) -> None:
    project = made.project
    subjects = wall_subjects(made, by_rule(made))
    of = Outside(subjects, views=made.facts.views, roofs=project.roofs, north=0.0)
    drafts = {one.name: one for one in side_elevations(of, metrics, 470.0, 250.0)}
    assert set(drafts) == {"South elevation", "East elevation", "North elevation", "West elevation"}
    assert "walls W2, W1;" in drafts["South elevation"].alt and "openings: N1, D1, N2" in drafts["South elevation"].alt
    assert "W5" not in "".join(one.alt for one in drafts.values()), "an inner wall is seen from no side"
    drawn = {name: one.draw(one.least + 20.0) for name, one in drafts.items()}
    assert {"N4", "N5", "N6", "W3"} <= set(texts(drawn["North elevation"].items))
    heights = [one.text for one in drawn["South elevation"].items if isinstance(one, Dimension)]
    assert {"1 ft 6 in", "8 ft", "6 in", "4 ft"} <= set(heights)
    turned = Outside(subjects, views=made.facts.views, roofs=project.roofs, north=math.pi / 2)
    assert side_elevations(turned, metrics, 470.0, 250.0)[0].name == "East elevation", (
        "north to the right: east is below"
    )
    unknown = Outside(subjects, views=made.facts.views, roofs=project.roofs, north=None)
    assert side_elevations(unknown, metrics, 470.0, 250.0)[0].name == "Elevation from the bottom of the plan"


def test_what_stands_behind_is_cut() -> None:
    """A tall wall of 0 to 10 m behind a low one of 4 to 6 m: whole beside it, over it from its top on."""

    def face(wall: str, depth: float, low: float, high: float, top: float) -> Face:
        return Face(wall, depth=depth, low=low, high=high, stem=0.5, top=top, beam_top=None)

    far, near = face("A", 0.0, low=0.0, high=10.0, top=3.0), face("B", 5.0, low=4.0, high=6.0, top=2.0)
    assert [(one.low, one.high, one.above) for one in slices(far, [far, near])] == [
        (0.0, 4.0, 0.0), (4.0, 6.0, 2.0), (6.0, 10.0, 0.0),
    ]  # fmt: skip
    assert slices(near, [far, near])[0].above == 0.0
    assert slices(face("C", 1.0, low=4.5, high=5.5, top=1.9), [far, near]) == []
    assert Side((0.0, -1.0)).across((2.0, 7.0)) == 2.0 and Side((1.0, 0.0)).across((2.0, 7.0)) == 7.0
