"""Elevations: dimensions read back against the model, what is seen from where, what is not said."""

from __future__ import annotations

import math
from itertools import pairwise

import pytest
from hypothesis import HealthCheck, assume, given, settings

from compliance.drawings.common.draft import Flag
from compliance.drawings.common.primitives import (
    Box,
    Dimension,
    Drawing,
    Filled,
    Lettering,
    Pen,
    Sign,
    Stroke,
    Tone,
    bounds,
)
from compliance.drawings.elevation.elevation_body import lift_heights
from compliance.drawings.elevation.elevation_drawing import elevations
from compliance.drawings.elevation.elevation_labels import HELD, NOT_HELD
from compliance.model.project import Project
from compliance.units import KINDS, parse_measure
from tests.tries import tries
from tests.unit.drawn import arc, buildings, faults, hand, project, room, run, sound, views_of, wall_subject

PARTS = {
    "stems": {"ST1": {"material": "stone", "thickness": "0.5 m", "above_grade": "0.45 m", "above_floor": "0.3 m"}},
    "footings": {"F1": {"kind": "concrete", "width": "0.6 m", "thickness": "0.3 m", "bottom": "0.7 m"}},
    "beams": {"B1": {"material": "wood", "width": "0.3 m", "depth": "0.15 m"}},
}
LEVELS = ("top of the", "top of the earth", "foot of the earth", "finished floor", "ground outside", "underside of")
STANDS = {"stem": "ST1", "footing": "F1", "beam": "B1"}


def window(start: float, width: float, **more: object) -> dict[str, object]:
    return {"kind": "window", "start": f"{start} m", "width": f"{width} m", "height": "1 m", "sill": "0.9 m", **more}


def drawn(made: Project, mark: str = "W1", flags: tuple[Flag, ...] = ()) -> list[Drawing]:
    system = made.project.units
    drafts = elevations(wall_subject(made, mark, flags), hand(system), 470.0, (250.0, 560.0))
    return [draft.draw(draft.least) for draft in drafts]


def dimensions(drawing: Drawing) -> dict[str, Dimension]:
    return {item.subject: item for item in drawing.items if isinstance(item, Dimension)}


def texts(drawing: Drawing) -> list[str]:
    return [item.text for item in drawing.items if isinstance(item, Lettering)]


def boxes(drawing: Drawing, tone: Tone) -> list[Box]:
    return [bounds(item.points) for item in drawing.items if isinstance(item, Filled) and item.tone is tone]


@settings(deadline=None, max_examples=tries(60), suppress_health_check=[HealthCheck.too_slow])
@given(buildings())
def test_dimensions_equal_the_model(made: Project) -> None:
    """Every length of the wall, its piers and openings, from the drawing's own points and from its text."""
    assume(sound(made))
    for mark, view in views_of(made).items():
        found: dict[str, Dimension] = {}
        notes: list[str] = []
        for drawing in drawn(made, mark):
            found |= dimensions(drawing)
            notes += drawing.notes
            assert drawing.scale
            for one in dimensions(drawing).values():
                on_paper = math.dist(one.start, one.end) / drawing.scale.per_metre
                assert on_paper == pytest.approx(one.value, rel=1e-6, abs=1e-7)
                read = parse_measure(one.text.replace("−", "-"), KINDS["length"]).si
                assert read == pytest.approx(one.value, abs=0.0254 / 16 if made.project.units == "us" else 0.0006)
        for pier in view.opened.piers:
            if pier.width > 1e-9 and not any(f"ier {pier.mark}, " in note for note in notes):
                assert found[f"{mark}, pier {pier.mark}"].value == pytest.approx(pier.width)
        for name, opening in made.walls[mark].openings.items():
            assert found[f"{mark}.{name}, height"].value == pytest.approx(opening.height.si)
            if opening.sill.si > 0:
                assert found[f"{mark}.{name}, sill above the stem wall"].value == pytest.approx(opening.sill.si)
        assert found[f"{mark}, height of the earth"].value == pytest.approx(view.place.height)


def test_the_whole_length_and_the_bays() -> None:
    walls = room(6, 4) | {"W5": run(2.5, 0, 2.5, 4)}
    found = [item for item in drawn(project(walls))[0].items if isinstance(item, Dimension)]
    bays = [one.value for one in found if one.subject == "W1, length between supports"]
    assert sorted(bays) == pytest.approx([2.5, 3.5])
    assert next(one.value for one in found if one.subject == "W1, whole length") == pytest.approx(6.0)


def test_supports_that_count_and_that_do_not_have_other_signs_and_bands() -> None:
    walls = room(6, 4) | {"W5": run(2.5, 0, 2.5, 4, height="1 m"), "W6": run(4, 0, 4, 4)}
    (drawing,) = drawn(project(walls))
    signs = [item.mark for item in drawing.items if isinstance(item, Sign)]
    assert signs.count(HELD) == 3 and signs.count(NOT_HELD) == 1
    assert "W5" in texts(drawing) and "W6" in texts(drawing)
    k = drawing.scale.per_metre if drawing.scale else 0.0
    assert sorted(round(one.width / k, 6) for one in boxes(drawing, Tone.BAND)) == [0.4, 0.4, 0.4]
    assert any("Not counted as lateral support: W5 does not reach its top." in note for note in drawing.notes)


def test_a_wall_is_seen_from_outside_whichever_way_its_line_runs() -> None:
    """A window near the start of the line stands at the left where the open lies on its right, else at the right."""
    walls = room(6, 4)
    walls["W1"]["openings"] = {"N1": window(0.6, 1.0)}
    (plain,) = drawn(project(walls))
    walls["W1"]["run"] = {"from": ["6 m", "0 m"], "to": ["0 m", "0 m"]}
    (turned,) = drawn(project(walls))
    for drawing, left in ((plain, True), (turned, False)):
        (hole,) = boxes(drawing, Tone.PAPER)
        (earth,) = boxes(drawing, Tone.EARTH)
        assert (hole.centre[0] < earth.centre[0]) is left
        assert "seen from outside" in drawing.name


def test_heights_of_openings_footing_stem_and_beam_to_scale() -> None:
    walls = {"W1": run(0, 0, 5, 0, openings={"N1": window(2, 1.2)}, **STANDS)}
    (drawing,) = drawn(project(walls, **PARTS))
    assert drawing.scale
    k = drawing.scale.per_metre
    (earth,), (hole,), (stem,), (beam,) = (
        boxes(drawing, tone) for tone in (Tone.EARTH, Tone.PAPER, Tone.MASONRY, Tone.WOOD)
    )
    assert (hole.bottom - earth.bottom) / k == pytest.approx(0.9)
    assert (hole.left - earth.left) / k == pytest.approx(2.0)
    assert hole.width / k == pytest.approx(1.2) and hole.height / k == pytest.approx(1.0)
    assert earth.height / k == pytest.approx(2.4) and earth.width / k == pytest.approx(5.0)
    assert stem.height / k == pytest.approx(0.45) and stem.top == pytest.approx(earth.bottom)
    assert beam.height / k == pytest.approx(0.15) and beam.bottom == pytest.approx(earth.top)
    values = {one.subject: one.value for one in dimensions(drawing).values()}
    assert values["W1, footing below the ground"] == pytest.approx(0.7)
    assert values["W1, stem wall above the ground"] == pytest.approx(0.45)
    assert values["W1, depth of the bond beam"] == pytest.approx(0.15)
    hidden = [bounds(item.points) for item in drawing.items if isinstance(item, Stroke) and item.pen is Pen.HIDDEN]
    assert any((earth.bottom - one.bottom) / k == pytest.approx(0.45 + 0.7) for one in hidden)


def test_a_lintel_rests_on_its_bearings() -> None:
    lintel = {"material": "wood", "width": "0.3 m", "depth": "0.14 m", "bearing": "0.25 m"}
    (drawing,) = drawn(project({"W1": run(0, 0, 5, 0, openings={"N1": window(2, 1.2, lintel=lintel)})}))
    (wood,), (hole,) = boxes(drawing, Tone.WOOD), boxes(drawing, Tone.PAPER)
    k = drawing.scale.per_metre if drawing.scale else 0.0
    assert wood.width / k == pytest.approx(1.2 + 2 * 0.25) and wood.height / k == pytest.approx(0.14)
    assert wood.bottom == pytest.approx(hole.top)
    assert any(
        "Over N1: wood lintel, 300 mm wide, 140 mm deep, bearing 250 mm at each end." in one for one in drawing.notes
    )


def test_what_carries_an_opening_is_told_also_where_it_is_not_drawn() -> None:
    holes = {"A": window(0.5, 0.8), "B": window(2, 0.8, lintel={"material": "arch"}),
             "C": window(3.5, 0.8, lintel={"material": "bond-beam"}),
             "D": window(5, 0.8, lintel={"material": "steel"})}  # fmt: skip
    (drawing,) = drawn(project({"W1": run(0, 0, 7, 0, openings=holes)}))
    said = " ".join(drawing.notes)
    assert "Over A: no lintel described." in said and "Over B: an arch, its shape not described" in said
    assert "Over C: spanned by the bond beam." in said
    assert "Over D: steel lintel, not given wide, not given deep, bearing not given at each end." in said


def test_lifts_and_taper_and_curve() -> None:
    assert lift_heights(0.4, 2.4) == pytest.approx([0.4, 0.8, 1.2, 1.6, 2.0])
    assert lift_heights(0.36, 2.44) == pytest.approx([0.36 * n for n in range(1, 7)])
    assert lift_heights(None, 2.4) == []
    more = {"thickness_base": "0.5 m", "thickness_top": "0.35 m", "lift_height": "0.4 m"}
    (drawing,) = drawn(project({"W1": arc(-3, 0, 0, 3, 3, 0, **more)}))
    said = " ".join(drawing.notes)
    assert "apered from 500 mm to 350 mm (not stated which face leans)" in said
    assert "radius 3 m to the centerline" in said and "lifts of at most 0.4 m" in said
    assert {"foot of the earth", "500 mm thick", "top of the earth", "350 mm thick"} <= set(texts(drawing))
    assert dimensions(drawing)["W1, whole length"].value == pytest.approx(3 * math.pi)
    assert "unrolled" in drawing.name
    lines = [item for item in drawing.items if isinstance(item, Stroke) and item.pen is Pen.GRID]
    assert len(lines) == 5


def test_what_the_project_does_not_say_is_named_and_not_drawn() -> None:
    (bare,) = drawn(project({"W1": run(0, 0, 4, 0)}))
    assert any("a stem wall, a footing, the height of the lifts" in note for note in bare.notes)
    made = project(
        {"W1": run(0, 0, 4, 0, **STANDS)}, stems={"ST1": {"material": "stone"}}, footings={"F1": {"kind": "stone"}},
        beams={"B1": {"material": "wood"}},
    )  # fmt: skip
    (drawing,) = drawn(made)
    said = " ".join(drawing.notes)
    assert (
        "the height of the stem wall over the ground, how deep the footing reaches, the depth of the bond beam" in said
    )
    assert not boxes(drawing, Tone.MASONRY) and not boxes(drawing, Tone.WOOD)
    assert "ground outside" not in texts(drawing)


def test_a_long_wall_comes_in_parts_that_share_a_pier_and_one_scale() -> None:
    holes = {f"N{n}": window(1.5 + 3 * n, 1.2) for n in range(9)}
    made = project({"W1": run(0, 0, 30, 0, openings=holes)})
    drawings = drawn(made)
    assert len(drawings) > 1
    assert len({drawing.scale for drawing in drawings}) == 1
    assert len({drawing.key for drawing in drawings}) == len(drawings)
    piers = [{s for s in dimensions(drawing) if ", pier " in s} for drawing in drawings]
    assert set.union(*piers) == {f"W1, pier P{n}" for n in range(1, 11)}
    for one, other in pairwise(piers):
        assert len(one & other) == 1
    for drawing in drawings:
        assert not list(faults(drawing))
        assert any("hole length 30 m" in note for note in drawing.notes)


def test_a_long_wall_without_a_pier_to_part_it_is_drawn_whole_while_that_is_legible() -> None:
    (drawing,) = drawn(project({"W1": run(0, 0, 18, 0)}))
    assert dimensions(drawing)["W1, whole length"].value == pytest.approx(18)
    assert drawing.scale and drawing.scale.ratio <= 200


def test_a_longer_one_comes_in_parts_that_meet_at_its_supports_or_are_even() -> None:
    blank = drawn(project({"W1": run(0, 0, 36, 0)}))
    lengths = [dimensions(drawing)["W1, length in this part"].value for drawing in blank]
    assert len(lengths) > 1
    assert sum(lengths) == pytest.approx(36)
    made = {"W1": run(0, 0, 36, 0), **{f"W{n + 1}": run(9.0 * n, 0, 9.0 * n, 4) for n in (1, 2, 3)}}
    held = drawn(project(made))
    bays = [item.value for drawing in held for item in drawing.items if isinstance(item, Dimension)
            and item.subject == "W1, length between supports"]  # fmt: skip
    assert bays == pytest.approx([9.0] * 4)
    for drawing in (*blank, *held):
        assert drawing.scale and drawing.scale.ratio <= 100
        assert not list(faults(drawing))
        assert any("hole length 36 m" in note for note in drawing.notes)


def test_a_pier_too_long_for_a_part_is_told_in_words() -> None:
    drawings = drawn(project({"W1": run(0, 0, 36, 0, openings={"N1": window(2, 1.0)})}))
    assert sum("pier P2, 33 m, goes on in another part" in " ".join(one.notes) for one in drawings) > 1


def test_levels_never_change_places() -> None:
    """A low and long wall, whose levels lie closer than their texts are high."""
    for height in ("0.5 m", "1 m", "2.4 m"):
        for drawing in drawn(project({"W1": run(0, 0, 19, 0, height=height, **STANDS)}, **PARTS)):
            tops = [
                next((item.box.top for item in drawing.items if isinstance(item, Lettering) and item.text == one), None)
                for one in LEVELS
            ]
            placed = [top for top in tops if top is not None]
            assert placed == sorted(placed, reverse=True)
            assert len(placed) + len(drawing.unset) >= 6


def test_findings_stand_at_their_place_with_code_and_link() -> None:
    walls = room(8, 4)
    walls["W1"]["openings"] = {"N1": window(2, 1.0), "N2": window(3.4, 1.0)}
    flags = (
        Flag("pier", subject="P2", code="B19", mark="REVISE", link="rule-B19"),
        Flag("opening", subject="N2", code="A7", mark="ENGINEER", link="rule-A7"),
        Flag("wall", subject="W1", code="A3", mark="REVISE", link="rule-A3", facts=("wall.height", "wall.thickness")),
        Flag("wall", subject="W1", code="A4", mark="REVISE", link="rule-A4", facts=("wall.unsupported_length",)),
    )
    (drawing,) = drawn(project(walls), flags=flags)
    (earth,) = boxes(drawing, Tone.EARTH)
    holes = sorted(boxes(drawing, Tone.PAPER), key=lambda one: one.left)
    at = {
        item.text: item
        for item in drawing.items
        if isinstance(item, Lettering) and item.text in ("B19", "A7", "A3", "A4")
    }
    assert {one.link for one in at.values()} == {flag.link for flag in flags}
    between = (holes[0].right + holes[1].left) / 2
    assert abs(at["B19"].box.centre[0] - between) < 20
    assert holes[1].grown(12).overlaps(at["A7"].box)
    assert at["A3"].box.left - earth.left < 40 and abs(at["A4"].box.centre[0] - earth.centre[0]) < 40
    marks = {item.link: item.mark for item in drawing.items if isinstance(item, Sign) and item.link}
    assert marks == {flag.link: flag.mark for flag in flags}


def test_loads_on_top_are_arrows_with_their_mark() -> None:
    load = {"at": "1.5 m", "dead": "2 kN", "live": "1 kN", "snow": "0 kN"}
    (drawing,) = drawn(project({"W1": run(0, 0, 4, 0, loads={"PL1": load})}))
    assert "load PL1" in texts(drawing)
    (earth,) = boxes(drawing, Tone.EARTH)
    k = drawing.scale.per_metre if drawing.scale else 0.0
    tips = [
        item.points[-1]
        for item in drawing.items
        if isinstance(item, Stroke) and item.pen is Pen.EDGE and len(item.points) == 2
    ]
    assert (earth.left + 1.5 * k, earth.top) in [pytest.approx(tip) for tip in tips]


def test_a_wall_between_rooms_stands_on_the_floor_and_a_garden_wall_has_none() -> None:
    made = project(
        {"W1": run(0, 0, 4, 0, use="interior", **STANDS), "W2": run(0, 9, 4, 9, use="garden", **STANDS)}, **PARTS
    )
    (inner,), (garden,) = drawn(made, "W1"), drawn(made, "W2")
    assert "finished floor" in texts(inner) and "finished floor" not in texts(garden)
