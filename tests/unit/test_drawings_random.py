"""Any building from a hut to a wall of 36 m: no lettering over lettering, nothing outside its frame, every dimension to
scale and to be read, on the drawing or in the list beside it, the same every time."""

from __future__ import annotations

from hypothesis import HealthCheck, assume, given, settings
from hypothesis import strategies as st

from compliance.drawings.common.draft import Flag
from compliance.drawings.common.primitives import Lettering, Sign
from compliance.drawings.elevation.elevation_drawing import elevations
from compliance.model.project import Project
from tests.tries import tries
from tests.unit.drawn import buildings, every_draft, faults, hand, sound, views_of, wall_subject

_SLOW = [HealthCheck.too_slow, HealthCheck.data_too_large]


@settings(deadline=None, max_examples=tries(80), suppress_health_check=_SLOW)
@given(buildings(), st.sampled_from((0.0, 60.0, 400.0)))
def test_any_building_at_any_height(made: Project, more: float) -> None:
    assume(sound(made))
    for draft in every_draft(made):
        drawing = draft.draw(draft.least + more)
        assert not (found := list(faults(drawing))), f"{drawing.name}: {found[:3]}"
        assert drawing.height == draft.least + more


@settings(deadline=None, max_examples=tries(40), suppress_health_check=_SLOW)
@given(buildings(), st.data())
def test_every_finding_is_marked_or_listed(made: Project, data: st.DataObject) -> None:
    """Of a wall drawn in parts, on that part which shows the place."""
    assume(sound(made))
    mark, view = next(iter(views_of(made).items()))
    places = [("wall", mark), ("stem", "ST1"), ("footing", "F1"), ("beam", "B1")]
    places += [("opening", hole.mark) for hole in view.opened.holes] + [
        ("pier", pier.mark) for pier in view.opened.piers
    ]
    flags = []
    for number in range(data.draw(st.integers(1, 12))):
        about, subject = data.draw(st.sampled_from(places))
        outcome = data.draw(st.sampled_from(("ENGINEER", "REVISE")))
        fact = data.draw(st.sampled_from(("wall.height", "wall.unsupported_length")))
        flags.append(
            Flag(about, subject=subject, code=f"C{number}", mark=outcome, link=f"rule-C{number}", facts=(fact,))
        )
    drawings = [
        one.draw(one.least) for one in elevations(wall_subject(made, mark, flags), hand(), 470.0, (250.0, 560.0))
    ]
    for drawing in drawings:
        assert not list(faults(drawing))
    texts = {item.text for one in drawings for item in one.items if isinstance(item, Lettering)}
    signs = {item.link for one in drawings for item in one.items if isinstance(item, Sign)}
    unset = " ".join(text for one in drawings for text in one.unset)
    for flag in flags:
        assert (flag.code in texts and flag.link in signs) or f"{flag.code} ({flag.mark.lower()})" in unset


@settings(deadline=None, max_examples=tries(15), suppress_health_check=_SLOW)
@given(buildings())
def test_the_same_building_gives_the_same_drawings(made: Project) -> None:
    assume(sound(made))
    first, second = ([draft.draw(draft.least) for draft in every_draft(made)] for _ in range(2))
    assert first == second
