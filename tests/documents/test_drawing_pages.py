"""The pages of drawings as another library reads them: to scale on paper, nothing over anything, nothing left out."""

from __future__ import annotations

import math
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pikepdf
import pytest
from reportlab.platypus.doctemplate import NextPageTemplate
from reportlab.platypus.flowables import PageBreak

from compliance.checked import Checked
from compliance.checking import check_folder
from compliance.documents.elements.theme import PAPERS, drawn_on
from compliance.documents.figures.bracing_pages import bracing_shares
from compliance.documents.figures.drawing_pages import drawings
from compliance.documents.figures.general_sheet import general_sheet
from compliance.documents.page.book import BODY, Book
from compliance.documents.page.document_head import head_of
from compliance.documents.submittal.bundle import PART_NAMES
from compliance.report.by_rule import by_rule
from compliance.report.marks import Mark, mark_of
from compliance.units import KINDS, Writer, parse_measure
from tests.conftest import EXAMPLE
from tests.documents.buildings import checked
from tests.documents.reading_back import Read, overlapping, read_back
from tests.documents.structure_back import tagged
from tests.unit.drawn import arc, project, room, run

LEAST_LETTERS = 8.0
"""In points: 4.9 are left on a print at 70 %."""
POINTS_PER_METRE = 72 / 0.0254


def hole(kind: str, start: float, sill: str, height: str) -> dict[str, Any]:
    lintel = {"material": "wood", "depth": "0.15 m", "bearing": "0.3 m"}
    return {"kind": kind, "start": f"{start:.2f} m", "width": "0.9 m", "height": height, "sill": sill, "lintel": lintel}


def hut() -> dict[str, Any]:
    walls = room(2, 2)
    walls["W1"]["openings"] = {"D1": hole("door", 0.55, "0 m", "2 m")}
    return walls


def long() -> dict[str, Any]:
    walls = room(30, 5)
    walls["W1"]["openings"] = {f"N{n}": hole("window", 1.5 + 2.4 * n, "0.9 m", "1 m") for n in range(12)}
    return walls | {"W5": run(10, 0, 10, 5, use="interior")}


def round_house() -> dict[str, Any]:
    points = [(3.5 * math.cos(math.radians(60 * n)), 3.5 * math.sin(math.radians(60 * n))) for n in range(7)]
    walls = {f"W{n + 1}": arc(*points[2 * n], *points[2 * n + 1], *points[2 * n + 2]) for n in range(3)}
    walls["W2"]["openings"] = {"D1": hole("door", 3, "0 m", "2 m")}
    return walls


def askew() -> dict[str, Any]:
    return {"W1": run(0, 0, 7, 2), "W2": run(7, 2, 5, 7), "W3": run(5, 7, -2, 5), "W4": run(-2, 5, 0, 0)}


BUILDINGS = {"hut": hut, "long": long, "round": round_house, "askew": askew}
UNITS = {"hut": "si", "long": "us", "round": "si", "askew": "us"}
PARTS: dict[str, Any] = {
    "stems": {"ST1": {"material": "stone", "thickness": "0.45 m", "above_grade": "0.4 m", "above_floor": "0.25 m"}},
    "footings": {"F1": {"kind": "rubble-trench", "width": "0.6 m", "thickness": "0.5 m", "bottom": "0.9 m"}},
    "beams": {"B1": {"material": "wood", "width": "0.3 m", "depth": "0.15 m", "anchors": {"diameter": "12 mm"}}},
    "roofs": {"R1": {"kind": "framed", "overhang": "0.6 m", "slope": "25 deg", "bears_on": [{"wall": "W1"}]}},
}


def made(name: str) -> Checked:
    stands = {"stem": "ST1", "footing": "F1", "beam": "B1"}
    walls = {mark: wall | stands for mark, wall in BUILDINGS[name]().items()}
    head = {"name": name, "date": "2026-12-30", "units": UNITS[name], "paper": "a4"}
    return checked(of=project(walls, project=head, **PARTS), rules=4, with_specimens=False)


def written(of: Checked, path: Path) -> Read:
    """The drawings alone, those of the bracing with them."""
    size = of.project.project.paper
    drawn = drawings(of, by_rule(of), drawn_on(size, None))
    story = [*general_sheet(of, drawn), *drawn, NextPageTemplate(BODY), PageBreak(), *bracing_shares(of, PAPERS[size])]
    book = Book(head_of(of, "drawings"), PAPERS[size], covered=False, drawn_on=drawn_on(size, None), drawn_first=True)
    book.elsewhere = {f"extent-{part}": "not counted" for part in PART_NAMES}
    book.write(story, path)
    return read_back(path)


@pytest.fixture(scope="module")
def example(tmp_path_factory: pytest.TempPathFactory) -> tuple[Checked, Path, Read]:
    path = tmp_path_factory.mktemp("drawings") / "example.pdf"
    of = check_folder(EXAMPLE)
    return of, path, written(of, path)


@pytest.fixture(scope="module", params=[*BUILDINGS, "example"])
def building(request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory) -> tuple[Checked, Path, Read]:
    if request.param == "example":
        found: tuple[Checked, Path, Read] = request.getfixturevalue("example")
        return found
    of, path = made(request.param), tmp_path_factory.mktemp("drawings") / "drawn.pdf"
    return of, path, written(of, path)


Case = tuple[Checked, Path, Read]


def test_no_text_runs_over_another_nor_off_the_page(building: Case) -> None:
    _, _, read = building
    for number, (boxes, (width, height)) in enumerate(zip(read.boxes, read.sizes, strict=True), start=1):
        assert not (found := overlapping(boxes)), f"page {number}: {found[:2]}"
        assert all(left > 0 and right < width and low > 0 and high < height for left, low, right, high in boxes)


def test_letters_stay_legible_on_a_smaller_print_and_drawings_are_vectors(building: Case) -> None:
    _, path, _ = building
    with pikepdf.open(path) as pdf:
        for page in pdf.pages:
            assert "/XObject" not in page.obj.get("/Resources", {})
            sizes = [float(operands[1]) for operator, operands in operators(page) if operator == "Tf"]
            assert sizes and min(sizes) >= LEAST_LETTERS


def test_every_wall_is_told_to_those_who_do_not_see_it(building: Case) -> None:
    """Length along its line and height, as the elevation of the wall shows them; each of its openings."""
    of, path, _ = building
    said = [one.text("Alt") for one in tagged(path).of_kind("Figure")]
    write = Writer(of.project.project.units).write
    for mark, view in of.facts.views.items():
        told = [one for one in said if one.startswith(f"Elevation of {mark},")]
        long, high = (write(one, "length") for one in (view.place.line.length, view.place.height))
        assert told and all(f"The wall is {long} long, {high} high, " in one for one in told)
        assert all(any(f"{name} a " in one for one in told) for name in of.project.walls[mark].openings)
    assert not [page.bare for page in tagged(path).pages if page.bare]


def operators(page: pikepdf.Page) -> Iterator[tuple[str, list[Any]]]:
    for one in pikepdf.parse_content_stream(page):
        yield str(one.operator), list(one.operands)


def lengths(path: Path, page: int) -> Iterator[float]:
    """Of every straight line on a page, in points. All that is drawn is shifted or turned, never scaled."""
    with pikepdf.open(path) as pdf:
        at = (0.0, 0.0)
        for operator, operands in operators(pdf.pages[page - 1]):
            if operator in ("m", "l"):
                to = float(operands[0]), float(operands[1])
                if operator == "l":
                    yield math.dist(at, to)
                at = to
            elif operator == "cm":
                a, b, c, d = (float(one) for one in operands[:4])
                assert abs(a * d - b * c) == pytest.approx(1.0)


def overall(of: Checked) -> tuple[float, float]:
    """Of all walls from face to face in m, by points along their centre lines: for walls along the page and arcs."""
    reach = []
    for view in of.facts.views.values():
        line, half = view.place.line, view.place.thickness / 2
        for step in range(3601):
            s = line.length * step / 3600
            (x, y), (dx, dy) = line.point(s), line.direction(s)
            reach += [(x - side * half * dy, y + side * half * dx) for side in (-1, 1)]
    xs, ys = [x for x, _ in reach], [y for _, y in reach]
    return max(xs) - min(xs), max(ys) - min(ys)


@pytest.mark.parametrize("name", ["round", "example"])
def test_the_plan_is_to_the_scale_it_names(name: str, tmp_path: Path, example: Case) -> None:
    """The longest dimension line and the scale bar measured in the PDF, against the model and the words beside it."""
    of, path, read = example
    if name != "example":
        of, path = made(name), tmp_path / "drawn.pdf"
        read = written(of, path)
    page = next(number for _, title, number in read.outline if title == "Floor plan")
    text = read.pages[page - 1]
    ratio = float(text.split("Scale ")[1].split("1:")[1].split()[0].rstrip(")"))
    per_metre = POINTS_PER_METRE / ratio
    found = sorted(lengths(path, page))
    across = overall(of)[0]
    assert any(abs(one - across * per_metre) < 0.02 for one in found)
    bar = text.split("Scale ")[1].split("1:")[1].split()[1:]
    last = next(index for index, word in enumerate(bar) if word in ("ft", "m", "in"))
    whole = parse_measure(" ".join(bar[last - 1 : last + 1]), KINDS["length"]).si
    assert any(abs(one - whole * per_metre / (last - 1)) < 0.02 for one in found), "a part of the scale bar"


def test_every_wall_type_and_beam_is_drawn(building: Case) -> None:
    of, _, read = building
    titles = [title for _, title, _ in read.outline]
    assert sum(title.startswith("Plan") for title in titles) >= 2
    for mark in of.facts.views:
        assert any(title.startswith((f"Elevation of {mark},", f"Elevation of {mark}:")) for title in titles)
        sections = [
            title.removeprefix("Section of ").split(", ") for title in titles if title.startswith("Section of ")
        ]
        assert sum(mark in marks for marks in sections) == 1
    assert any(title.startswith("Bond beam B1") for title in titles)


def test_what_breaks_a_limit_is_marked_on_the_elevation_of_its_wall(building: Case) -> None:
    """Or listed by name where the drawing had no room for it."""
    of, _, read = building
    codes = {(group.rule_set, group.rule): group.code for one in by_rule(of) for group in one.rules}
    left_out = next((read.pages[n - 1] for _, title, n in read.outline if title.startswith("What had no room")), "")
    checks = 0
    for finding in of.findings:
        if finding.wall and mark_of(finding) in (Mark.ENGINEER, Mark.REVISE):
            code = codes[finding.rule_set, finding.rule]
            pages = {n for _, title, n in read.outline if title.startswith(f"Elevation of {finding.wall},")}
            assert any(code in read.pages[n - 1].split() for n in pages) or code in left_out, (finding.wall, code)
            checks += 1
    assert checks


def test_the_bracing_of_the_example_is_drawn_both_ways(example: Case) -> None:
    _, _, read = example
    titles = [title for _, title, _ in read.outline]
    assert "Plan with the bracing shares, earthquake across the page" in titles
    assert "Plan with the bracing shares, earthquake up the page" in titles
    said = " ".join(
        read.pages[next(n for _, title, n in read.outline if title == "Plan with the bracing shares") - 1 :]
    )
    assert said.count("Together") == 2 and said.count("100.0 %") == 4
    assert "no design of the bracing" in said
