"""What drawings say to a reader who does not see them, of buildings at random and of one worked by hand."""

from __future__ import annotations

import math

from hypothesis import HealthCheck, assume, given, settings
from hypothesis import strategies as st

from compliance.drawings.alt_texts import MOST_NAMED, named, plan_alt, shares_alt
from compliance.drawings.bracing.bracing_subject import SharesSubject, Taken
from compliance.drawings.common.draft import Draft, Flag
from compliance.drawings.elevation.elevation_drawing import elevations
from compliance.drawings.plan.outer_faces import outside_faces
from compliance.drawings.plan.plan_face import PlanSubject
from compliance.model.project import Project
from compliance.units import Writer
from tests.tries import tries
from tests.unit.drawn import buildings, every_draft, hand, project, room, run, sound, views_of, wall_subject

_SLOW = [HealthCheck.too_slow, HealthCheck.data_too_large]


def drawn(made: Project, mark: str, *flags: Flag) -> list[Draft]:
    return elevations(wall_subject(made, mark, flags), hand(made.project.units), 470.0, (250.0, 560.0))


@settings(deadline=None, max_examples=tries(25), suppress_health_check=_SLOW)
@given(buildings())
def test_elevations_of_any_building_say_length_height_and_openings(made: Project) -> None:
    """The length of a straight wall from the coordinates of its ends; each opening in one part of a long wall or in
    two that overlap."""
    assume(sound(made))
    write = Writer(made.project.units).write
    for mark, wall in made.walls.items():
        parts = drawn(made, mark)
        for part in parts:
            assert wall.height and f", {write(wall.height.si, 'length')} high, " in part.alt
            assert part.alt.startswith(part.name) and "Nothing is marked as beyond a limit." in part.alt
            if wall.run:
                (x0, y0), (x1, y1) = wall.run.start, wall.run.end
                long = math.hypot(x1.si - x0.si, y1.si - y0.si)
                assert f"The wall is {write(long, 'length')} long, " in part.alt
        for name, opening in wall.openings.items():
            assert any(f"{name} a {opening.kind}" in part.alt for part in parts)


@settings(deadline=None, max_examples=tries(10), suppress_health_check=_SLOW)
@given(buildings())
def test_every_drawing_says_something_of_its_own(made: Project) -> None:
    assume(sound(made))
    said = [draft.alt for draft in every_draft(made)]
    assert all(len(alt.split()) > 8 for alt in said) and len(set(said)) == len(said)


def test_a_room_worked_by_hand() -> None:
    """4 m by 3 m on centre lines, walls 0.4 m thick: 4.4 m by 3.4 m from face to face."""
    walls = room(4, 3)
    lintel = {"material": "wood", "depth": "0.2 m", "bearing": "0.3 m"}
    door = {"kind": "door", "start": "1 m", "width": "0.9 m", "height": "2 m", "sill": "0 m", "lintel": lintel}
    walls["W1"]["openings"] = {"D1": door}
    made = project(walls)
    flags = [
        Flag("wall", subject="W1", code="A3", mark="REVISE", link="rule-A3", facts="wall.height") for _ in range(2)
    ]
    flags.append(Flag("opening", subject="D1", code="B4", mark="ENGINEER", link="rule-B4", facts="opening.width"))
    (draft,) = drawn(made, "W1", *flags)
    assert draft.alt == (
        "Elevation of W1, seen from outside. The wall is 4 m long, 2.4 m high, 400 mm thick; 1 opening (D1 a door). "
        "Marked as beyond a limit: A3 at wall W1, B4 at opening D1."
    )
    views = views_of(made)
    subject = PlanSubject(views, walls=made.walls, buttresses={}, outside=outside_faces(views), north=math.pi / 6)
    assert plan_alt("Plan", subject, Writer("si")) == (
        "Plan: 4 walls (W1, W2, W3, W4), 4.4 m across the page and 3.4 m up it over all, with 1 opening. "
        "North is 30° clockwise from up."
    )


def test_shares_that_are_held_and_that_are_not() -> None:
    made = project({"W1": run(0, 0, 4, 0)})
    plan = PlanSubject(views_of(made), walls=made.walls, buttresses={}, outside={}, north=None)
    taken = (
        Taken("W1", start=0.0, end=2.0, share=0.25, force=2500.0),
        Taken("W2", start=0.0, end=2.0, share=math.inf, force=math.inf),
    )
    subject = SharesSubject(
        "k",
        name="Shares",
        plan=plan,
        push="wind",
        force=10_000.0,
        direction=0.0,
        at=(0, 0),
        mass=(0, 0),
        stiffness=None,
        taken=taken,
    )
    assert shares_alt(subject, Writer("si")) == (
        "Shares: a push of 10 kN on 2 solid lengths counted on to brace. The greatest share is that of a length of "
        "wall W1: 25.0 % or 2.5 kN. Under a stiff roof 1 length cannot hold the push."
    )


@given(st.integers(0, 40))
def test_a_long_list_is_cut_and_counted(count: int) -> None:
    said = named([f"W{number}" for number in range(count)])
    assert said.count("W") == min(count, MOST_NAMED)
    assert (f" and {count - MOST_NAMED} more" in said) == (count > MOST_NAMED)
