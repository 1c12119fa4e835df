"""Sections and details: thicknesses, levels and layers read back, what is not said named."""

from __future__ import annotations

import math
from typing import Any

import pytest
from hypothesis import HealthCheck, assume, given, settings

from compliance.drawings.common.draft import Flag
from compliance.drawings.common.primitives import (
    Bow,
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
from compliance.drawings.common.wall_types import wall_types
from compliance.drawings.section.details import bond_beam_detail
from compliance.drawings.section.section_drawing import section
from compliance.drawings.section.section_face import faces_at
from compliance.model.project import Project
from tests.tries import tries
from tests.unit.drawn import arc, buildings, faults, hand, project, run, sound, views_of
from tests.unit.test_drawings_elevation import PARTS, STANDS


def drawn(made: Project) -> list[Drawing]:
    types = wall_types(made, views_of(made))
    drafts = [section(one, mix="mix M1, site mix", metrics=hand(), width=470.0, tallest=560.0) for one in types]
    return [draft.draw(draft.least) for draft in drafts]


def one_wall(parts: dict[str, Any] | None = None, **more: Any) -> Drawing:
    (drawing,) = drawn(project({"W1": run(0, 0, 4, 0, **STANDS, **more)}, **(PARTS | (parts or {}))))
    assert not list(faults(drawing)) and not drawing.unset
    return drawing


def values(drawing: Drawing) -> dict[str, float]:
    found = {item.subject: item for item in drawing.items if isinstance(item, Dimension)}
    assert drawing.scale
    for one in found.values():
        assert math.dist(one.start, one.end) / drawing.scale.per_metre == pytest.approx(one.value)
    return {subject.removeprefix("section W1, "): item.value for subject, item in found.items()}


def texts(drawing: Drawing) -> str:
    return " ".join(item.text for item in drawing.items if isinstance(item, Lettering))


def test_every_size_equals_the_model() -> None:
    drawing = one_wall(thickness_base="0.5 m", thickness_top="0.36 m")
    assert values(drawing) == pytest.approx({
        "thickness of the earth at the foot": 0.5, "thickness of the earth at the top": 0.36,
        "thickness of the stem wall": 0.5, "width of the footing": 0.6, "thickness of the footing": 0.3,
        "footing below the ground": 0.7, "stem wall above the ground": 0.45, "stem wall above the floor": 0.3,
        "height of the earth": 2.4, "depth of the bond beam": 0.15})  # fmt: skip


LEANING = (("outside", -0.11, 0.25), ("inside", -0.25, 0.11), ("both", -0.18, 0.18), (None, -0.18, 0.18))


@pytest.mark.parametrize("face, outer, inner", LEANING)
def test_the_face_that_leans(face: str | None, outer: float, inner: float) -> None:
    """From 0.5 m to 0.36 m: 0.14 m on one face, or half of it on each."""
    leaning = {"tapered_face": face} if face else {}
    made = project({"W1": run(0, 0, 4, 0, thickness_base="0.5 m", thickness_top="0.36 m", **leaning)})
    (one,) = wall_types(made, ["W1"])
    assert faces_at(one.parts, 0.0) == pytest.approx((-0.25, 0.25))
    assert faces_at(one.parts, 2.4) == pytest.approx((outer, inner))
    (drawing,) = drawn(made)
    assert any("hich face leans is not described" in note for note in drawing.notes) is (face is None)


def test_layers_lie_from_the_earth_outward_at_their_thickness() -> None:
    layers = [
        {"material": "clay", "thickness": "30 mm"},
        {"material": "lime", "thickness": "20 mm", "note": "two coats"},
    ]
    drawing = one_wall(outside=layers, inside=[])
    earth = bounds(
        [p for item in drawing.items if isinstance(item, Filled) and item.tone is Tone.EARTH for p in item.points]
    )
    finishes = [bounds(item.points) for item in drawing.items if isinstance(item, Filled) and item.tone is Tone.FINISH]
    k = drawing.scale.per_metre if drawing.scale else 0.0
    assert [one.width / k for one in finishes] == pytest.approx([0.03, 0.02])
    assert finishes[0].right == pytest.approx(earth.left) and finishes[1].right == pytest.approx(finishes[0].left)
    said = texts(drawing)
    assert "outside finish, layer 1 clay, 30 mm" in said and "outside finish, layer 2 lime, 20 mm, two coats" in said
    assert "inside face bare" in said


def test_a_finish_without_thickness_is_a_dashed_line_and_one_not_described_is_said_so() -> None:
    drawing = one_wall(outside=[{"material": "lime"}])
    assert "lime, not given" in texts(drawing) and "inside face finish not described" in texts(drawing)
    assert not [item for item in drawing.items if isinstance(item, Filled) and item.tone is Tone.FINISH]


def test_drain_moisture_break_and_anchors() -> None:
    beam = PARTS["beams"]["B1"] | {"anchors": {"diameter": "16 mm", "spacing": "1.2 m", "embedment": "0.6 m"}}
    stem = PARTS["stems"]["ST1"] | {"moisture_break": "slate"}
    footing = PARTS["footings"]["F1"] | {"drain": "yes", "kind": "rubble-trench"}
    drawing = one_wall({"beams": {"B1": beam}, "stems": {"ST1": stem}, "footings": {"F1": footing}})
    said = texts(drawing)
    assert "capillary break slate" in said and "drain its size, place and fall are not described" in said
    assert "diameter 16 mm, spaced 1.2 m, 0.6 m into the earth" in said
    assert [item for item in drawing.items if isinstance(item, Bow) and item.pen is Pen.HIDDEN]
    assert [item for item in drawing.items if isinstance(item, Filled) and item.tone is Tone.RUBBLE]
    rods = [
        item for item in drawing.items if isinstance(item, Stroke) and item.pen is Pen.CUT and len(item.points) == 2
    ]
    k = drawing.scale.per_metre if drawing.scale else 0.0
    lengths = [abs(one.points[0][1] - one.points[1][1]) / k for one in rods]
    assert any(one == pytest.approx(0.6 + 0.15) for one in lengths)


def test_a_stem_wall_without_break_and_a_footing_without_drain_said() -> None:
    stem = PARTS["stems"]["ST1"] | {"moisture_break": "none"}
    drawing = one_wall({"stems": {"ST1": stem}})
    assert "capillary break none" in texts(drawing)
    assert any("hether there is a drain" in note for note in drawing.notes)


def test_the_roof_falls_at_its_slope_and_reaches_over_the_outer_face() -> None:
    roof = {"kind": "framed", "slope": "30 deg", "overhang": "0.8 m", "bears_on": [{"wall": "W1"}]}
    drawing = one_wall({"roofs": {"R1": roof}})
    assert values(drawing)["overhang of the roof"] == pytest.approx(0.8)
    edges = [
        item.points
        for item in drawing.items
        if isinstance(item, Stroke) and item.pen is Pen.EDGE and len(item.points) == 2
    ]
    slopes = [(y1 - y0) / (x1 - x0) for (x0, y0), (x1, y1) in edges if x1 - x0 > 1]
    assert any(one == pytest.approx(math.tan(math.radians(30))) for one in slopes)
    assert "framed, slope 30°" in texts(drawing)


def test_of_two_roofs_the_one_that_reaches_least_is_drawn_and_the_other_named() -> None:
    roofs = {
        "R1": {"kind": "framed", "slope": "30 deg", "overhang": "0.8 m", "bears_on": [{"wall": "W1"}]},
        "R2": {"kind": "living", "overhang": "0.4 m", "bears_on": [{"wall": "W1"}]},
    }
    drawing = one_wall({"roofs": roofs})
    assert values(drawing)["overhang of the roof"] == pytest.approx(0.4)
    assert "roof R2" in texts(drawing) and "R1 bears here too" in texts(drawing) and "slope not given" in texts(drawing)


def test_walls_share_a_section_only_where_nothing_in_it_differs() -> None:
    plain = {"W1": run(0, 0, 4, 0, **STANDS), "W2": run(0, 2, 9, 2, **STANDS)}
    others = {"W3": run(0, 4, 4, 4, **STANDS, height="2.5 m"), "W4": run(0, 6, 4, 6),
              "W5": run(0, 8, 4, 8, **STANDS, outside=[{"material": "lime", "thickness": "20 mm"}])}  # fmt: skip
    others |= {"W6": run(0, 10, 4, 10, **STANDS, use="interior"), "W7": run(0, 12, 4, 12, **STANDS, use="garden"),
               "W8": run(0, 14, 4, 14, top_restraint="free")}  # fmt: skip
    plain |= {"W9": run(0, 16, 4, 16, **STANDS, use="exterior")}
    types = wall_types(project(plain | others, **PARTS), [*plain, *others])
    assert [one.walls for one in types] == [("W1", "W2", "W9"), *((f"W{n}",) for n in range(3, 9))]


def test_a_section_of_many_walls_names_them_all() -> None:
    few, many = ([1, 2, 3, 4, 7], range(1, 30, 2))
    for numbers, name in (
        (few, "Section of W1 to W4, W7"),
        (many, "Section of W1, W3, W5, W7, W9, W11, W13, W15, W17 and 6 more"),
    ):
        walls = {f"W{n}": run(0, n, 4, n, **STANDS) for n in numbers}
        (drawing,) = drawn(project(walls, **PARTS))
        assert drawing.name == name
        stands = [note for note in drawing.notes if note.startswith("Stands for")]
        assert stands == ([] if numbers is few else [f"Stands for {', '.join(walls)}."])


@settings(deadline=None, max_examples=tries(60), suppress_health_check=[HealthCheck.too_slow])
@given(buildings())
def test_every_size_equals_the_model_of_any_wall(made: Project) -> None:
    """From the described fields themselves; a part that is not described has no dimension."""
    assume(sound(made))
    stem, footing, beam, roof = made.stems["ST1"], made.footings["F1"], made.beams["B1"], made.roofs["R1"]
    for drawing in drawn(made):
        mark = drawing.key.removeprefix("section-")
        wall = made.walls[mark]
        base, top = wall.thickness or wall.thickness_base, wall.thickness or wall.thickness_top
        told = {"thickness of the earth at the foot": base, "thickness of the earth at the top": top,
                "height of the earth": wall.height}  # fmt: skip
        if wall.stem and stem.above_grade:
            told |= {"stem wall above the ground": stem.above_grade, "thickness of the stem wall": stem.thickness}
        if wall.stem and wall.use != "garden":
            told["stem wall above the floor"] = stem.above_floor
        if wall.stem and stem.above_grade and wall.footing and footing.bottom:
            told |= {"footing below the ground": footing.bottom, "width of the footing": footing.width,
                     "thickness of the footing": footing.thickness}  # fmt: skip
        if wall.beam:
            told["depth of the bond beam"] = beam.depth
        if mark == "W1" and not any("cut off" in text for text in drawing.unset):
            told["overhang of the roof"] = roof.overhang
        wanted = {says: measure.si for says, measure in told.items() if measure}
        found = {item.subject.partition(", ")[2]: item.value for item in drawing.items if isinstance(item, Dimension)}
        assert found == pytest.approx(wanted)


def test_nothing_described_but_the_earth() -> None:
    (drawing,) = drawn(project({"W1": run(0, 0, 4, 0)}))
    said = texts(drawing)
    assert "no stem wall described" in said and "no footing described" in said
    assert "what holds the top is not described" in said
    assert any("the ground is not drawn" in note for note in drawing.notes)
    assert not list(faults(drawing))


def test_rods_that_are_described_stand_as_a_sign_that_says_so() -> None:
    plain, rods = one_wall(), one_wall(reinforced="yes", reinforcement="12 mm rods at 0.6 m")
    said = "12 mm rods at 0.6 m; dashed as a sign, its places not described"
    assert said in texts(rods) and "reinforcement" not in texts(plain)
    dashed = [sum(isinstance(item, Stroke) and item.pen is Pen.HIDDEN for item in one.items) for one in (plain, rods)]
    assert dashed[1] == dashed[0] + 1
    assert "reinforcement" not in texts(one_wall(reinforced="no"))


CORNER = {"W1": run(0, 0, 4, 0, beam="B1"), "W2": run(4, 0, 4, 3, beam="B1")}


def detail(walls: dict[str, Any] = CORNER, **beam: Any) -> Drawing:
    made = project(walls, beams={"B1": {"material": "wood", **beam}})
    draft = bond_beam_detail("B1", beam=made.beams["B1"], views=views_of(made), metrics=hand(), width=470.0)
    return draft.draw(draft.least)


def test_details_are_schematic_and_say_what_is_not_described() -> None:
    drawing = detail()
    assert drawing.scale is None and not list(faults(drawing))
    said = texts(drawing)
    assert "whether it is continuous is not described" in said and "anchors not described" in said
    assert "lap not given; clear of openings not given" in said and "its make is not described" in said
    assert not [item for item in drawing.items if isinstance(item, Dimension)]


def test_a_beam_that_turns_no_corner_is_drawn_without_one() -> None:
    """Of a circle in three arcs, of one wall, of two in line; a corner is drawn of those that meet at 30 degrees."""
    turns = [(3.5 * math.cos(math.radians(60 * n)), 3.5 * math.sin(math.radians(60 * n))) for n in range(7)]
    ring = {f"W{n + 1}": arc(*turns[2 * n], *turns[2 * n + 1], *turns[2 * n + 2], beam="B1") for n in range(3)}
    in_line = {"W1": run(0, 0, 4, 0, beam="B1"), "W2": run(4, 0, 8, 0, beam="B1")}
    for walls in (ring, {"W1": in_line["W1"]}, in_line):
        drawing = detail(walls)
        said = texts(drawing)
        assert "a length from above" in said and "corner" not in said
        assert not list(faults(drawing))
    blunt = {"W1": in_line["W1"], "W2": run(4, 0, 7.5, 2, beam="B1")}
    assert "corner from above" in texts(detail(blunt)) and "corner joint" in texts(detail(blunt))


def test_details_carry_the_sizes_of_the_model() -> None:
    drawing = detail(
        width="0.3 m", depth="0.15 m", continuous="no", splice_lap="0.6 m", splice_clear="1 m", grade="C24",
        anchors={"diameter": "16 mm", "spacing": "1.2 m", "embedment": "0.6 m", "capacity": "5 kN", "kind": "rods"},
    )  # fmt: skip
    said = texts(drawing)
    assert "not continuous, as described" in said and "lap 600 mm; clear of openings 1 m" in said
    assert "300 mm wide, 150 mm deep; C24" in said
    assert "rods, diameter 16 mm, spaced 1.2 m, 0.6 m into the earth" in said
    assert "5 kN sideways, nobody named for it" in said


def test_a_concrete_beam_shows_its_bars() -> None:
    made = {"material": "concrete", "bar_count": 4, "bar_diameter": "12 mm", "bars": "two up, two down"}
    assert "two up, two down; 4 bars of diameter 12 mm" in texts(detail(**made))


@pytest.mark.parametrize("slope", ["0 deg", "75 deg", "89 deg", "89.9999 deg"])
def test_however_steep_the_roof_the_section_fits(slope: str) -> None:
    """A steep roof is cut where its line would run off the drawing; it does not make the wall small."""
    roof = {"kind": "framed", "slope": slope, "overhang": "0.6 m", "bears_on": [{"wall": "W1", "tributary": "2 m"}]}
    (drawing,) = drawn(project({"W1": run(0, 0, 4, 0, **STANDS)}, **(PARTS | {"roofs": {"R1": roof}})))
    assert not list(faults(drawing))
    assert drawing.height <= 560.0
    assert drawing.scale and drawing.scale.ratio <= 50
    assert slope.split()[0][:2] in texts(drawing) or slope == "89.9999 deg"


def test_more_labels_than_the_page_holds() -> None:
    """The section keeps to the page, and what found no room is told."""
    types = wall_types(made := project({"W1": run(0, 0, 4, 0, **STANDS)}, **PARTS), views_of(made))
    [draft] = [
        section(one, mix="a mix of many words " * 200, metrics=hand(), width=470.0, tallest=560.0) for one in types
    ]
    drawing = draft.draw(draft.least)
    assert draft.least <= 560.0
    assert any("a mix of many words" in one for one in drawing.unset)


FLAGS = (
    Flag("footing", subject="F1", code="A31", mark="ENGINEER", link="rule-A31", facts=("footing.width", "least")),
    Flag(
        "wall",
        subject="W1",
        code="B7",
        mark="REVISE",
        link="rule-B7",
        facts=("bars", "footing.bar_count", "footing.width", "width"),
    ),
    Flag("stem", subject="ST1", code="A22", mark="REVISE", link="rule-A22"),
    Flag("wall", subject="W1", code="A1", mark="REVISE", link="rule-A1", facts=("least", "wall.least_thickness")),
    Flag(
        "wall",
        subject="W1",
        code="A9",
        mark="ENGINEER",
        link="rule-A9",
        facts=("most", "wall.height", "wall.least_thickness"),
    ),
    Flag("beam", subject="B1", code="A40", mark="REVISE", link="rule-A40"),
)


def test_what_passes_a_limit_is_marked_at_the_part() -> None:
    """A rule about the wall that compares its footing alone stands at the footing; one about more has its place on the
    elevation. Of two walls alike each rule stands once."""
    assert [flag.part for flag in FLAGS] == ["footing", "footing", "stem", "earth", "", "beam"]
    walls = {"W1": run(0, 0, 4, 0, **STANDS), "W2": run(0, 2, 4, 2, **STANDS)}
    made = project(walls, **PARTS)
    (one,) = wall_types(made, walls, {"W1": FLAGS, "W2": FLAGS[:1]})
    drawing = section(one, mix="mix M1", metrics=hand(), width=470.0, tallest=560.0).draw(560.0)
    assert not list(faults(drawing)) and not drawing.unset
    codes = [
        item for item in drawing.items if isinstance(item, Lettering) and item.text in {flag.code for flag in FLAGS}
    ]
    assert sorted(item.text for item in codes) == ["A1", "A22", "A31", "A40", "B7"]
    signs = [item for item in drawing.items if isinstance(item, Sign)]
    assert sorted((sign.mark, sign.link) for sign in signs) == sorted(
        (flag.mark, flag.link) for flag in FLAGS if flag.part
    )
    heads = {item.text: item.box.bottom for item in drawing.items if isinstance(item, Lettering)}
    assert heads["footing F1"] > heads["B7"] and heads["stem wall ST1"] > heads["A22"] > heads["footing F1"]
    small = section(one, mix="mix M1", metrics=hand(), width=470.0, tallest=560.0).draw(120.0)
    for flag in (flag for flag in FLAGS if flag.part):
        said = [*(item.text for item in small.items if isinstance(item, Lettering)), *small.unset]
        assert any(flag.code in text for text in said)
