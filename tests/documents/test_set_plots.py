"""Plots of sets: every specimen at its place, lines where the findings put them, labels apart, shapes told in grey."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from datetime import date
from itertools import pairwise
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from compliance.checked import Checked
from compliance.checking import check_folder
from compliance.documents.earth.material_pages import materials
from compliance.documents.earth.printed_inputs import lab_unit
from compliance.documents.elements.section_titles import title
from compliance.documents.elements.theme import PAPERS
from compliance.documents.page.book import Book
from compliance.documents.page.document_head import head_of
from compliance.documents.plots.plot_scales import scale, spread, tick_text
from compliance.documents.plots.scatter_plots import clouds, draw_shape, scatter_sheets
from compliance.documents.plots.set_pages import plot_sheets
from compliance.documents.plots.set_plot_drawing import PlotFigure, key_of
from compliance.documents.plots.set_plots import Dot, Plot, Rung, judged_of, plot_of, remarks_of
from compliance.facts.evidence.gathered import gathered
from compliance.facts.specimens.set_record import set_record
from compliance.model.specimens import Specimen
from compliance.problems import Place
from compliance.reading.reference_files.material_practice import read_material_practice
from compliance.report.by_rule import by_rule
from compliance.units import Writer, unit
from tests.conftest import EXAMPLE
from tests.documents.buildings import INCH, checked, project
from tests.documents.reading_back import overlapping, read_back

PRACTICE = read_material_practice()
US = Writer("us")
PSI, LBF = 6894.757293168361, 4.4482216152605
VALUES = st.lists(st.floats(0, 1e6, allow_subnormal=False), min_size=1, max_size=30)


@pytest.fixture(scope="module")
def example() -> Checked:
    return check_folder(EXAMPLE)


# ------------------------------------------------------------------------------------------------------------- scales


@given(VALUES, st.booleans())
def test_a_scale_holds_every_value_between_two_round_ends(values: list[float], from_zero: bool) -> None:
    found = scale(values, 0.0, 100.0, from_zero)
    assert found.low == found.ticks[0] and found.high == found.ticks[-1] and 2 <= len(found.ticks) <= 7
    for value in values:
        assert -1e-6 <= found.at(value) <= 100 + 1e-6
    assert not from_zero or found.low == 0
    steps = [round(after - before, 9) for before, after in pairwise(found.ticks)]
    assert max(steps) == pytest.approx(min(steps), rel=1e-6, abs=1e-9)


def test_round_ticks() -> None:
    assert scale([114.6, 150.2], 0, 1).ticks == (0, 50, 100, 150, 200)
    assert scale([4.17, 2.58], 0, 1).ticks == (0, 2, 4, 6)
    assert scale([44, 36], 0, 1, from_zero=False).ticks == (36, 38, 40, 42, 44)
    assert scale([7.0], 0, 1, from_zero=False).ticks[0] < 7 < scale([7.0], 0, 1, from_zero=False).ticks[-1]
    assert scale([0.0], 0, 1).at(0) == 0
    assert [tick_text(one) for one in (0.25, -5.0, 100000.0)] == ["0.25", "−5", "100000"]


@given(st.lists(st.floats(0, 100), min_size=1, max_size=10))
def test_labels_are_pushed_apart_and_keep_their_order(wanted: list[float]) -> None:
    found = spread(wanted, [8.8] * len(wanted), 0.0, 100.0)
    ordered = sorted(zip(found, wanted, strict=True))
    assert [want for _, want in ordered] == sorted(wanted)
    places = [place for place, _ in ordered]
    assert all(after - before >= 8.8 - 1e-6 for before, after in pairwise(places))
    assert places[0] >= 4.4 - 1e-6 and places[-1] <= 100 - 4.4 + 1e-6


# --------------------------------------------------------------------------------------------------- what is plotted


def test_the_plot_of_the_example(example: Checked) -> None:
    """T1-4: 1870 lbf over 4.05 × 4.03 in is 114.57 psi, the lowest of those dried in air; 60 and 85 psi are asked."""
    judged = judged_of(example, by_rule(example), "T1")
    plot = plot_of("T1", example, judged)
    assert plot and len(plot.dots) == 6
    assert [dot.mark for dot in plot.dots if dot.aside] == ["T1-6"]
    assert not any(dot.apart for dot in plot.dots)
    by_strength = {round(rung.value / PSI, 2) for rung in plot.governing}
    assert round(1870 / (4.05 * 4.03), 2) in by_strength
    assert {(round(rung.value / PSI, 6), rung.side) for rung in plot.limits} >= {(60.0, -1), (85.0, -1)}
    assert plot.mean == pytest.approx(sum(dot.value for dot in plot.dots) / 6)


def test_a_limit_from_above_has_its_strokes_above(example: Checked) -> None:
    """1 in on 24 in is 4.1667 %."""
    plot = plot_of("T3", example, judged_of(example, by_rule(example), "T3"))
    assert plot and plot.kind == "share"
    assert (round(1 / 24, 6), 1) in {(round(rung.value, 6), rung.side) for rung in plot.limits}


def test_an_open_limit_draws_no_line(example: Checked) -> None:
    judged = judged_of(example, by_rule(example), "T2")
    assert any(one.limit is None for _, one in judged)
    plot = plot_of("T2", example, judged)
    assert plot and len(plot.limits) == sum(one.limit is not None for _, one in judged)


def test_a_set_without_results_has_no_plot(example: Checked) -> None:
    bare = replace(example, evidence=replace(example.evidence, sets={}))
    assert plot_of("T1", bare, []) is None
    assert list(plot_sheets(bare, mark="T1", plot=None, judged=[], writer=US)) == []


class Recorder:
    """Takes down what is drawn, with the origin moved as on a canvas."""

    def __init__(self) -> None:
        self.circles: list[tuple[float, float, float, int]] = []
        self.squares: list[tuple[float, float, float, float]] = []
        self.lines_drawn: list[tuple[float, float, float, float]] = []
        self.dashes: list[tuple[Any, ...]] = []
        self.texts: list[tuple[float, float, str]] = []
        self.origin = (0.0, 0.0)
        self.paths = 0

    def translate(self, x: float, y: float) -> None:
        self.origin = (x, y)

    def circle(self, x: float, y: float, radius: float, stroke: int = 1, fill: int = 0) -> None:
        self.circles.append((x, y, radius, fill))

    def rect(self, x: float, y: float, width: float, height: float, stroke: int = 1, fill: int = 0) -> None:
        self.squares.append((x, y, width, height))

    def line(self, x0: float, y0: float, x1: float, y1: float) -> None:
        self.lines_drawn.append((x0, y0, x1, y1))

    def setDash(self, *dash: float) -> None:  # noqa: N802
        self.dashes.append(dash)

    def drawString(self, x: float, y: float, text: str) -> None:  # noqa: N802
        self.texts.append((x, y, text))

    drawRightString = drawCentredString = drawString  # noqa: N815

    def drawPath(self, path: object, **more: object) -> None:  # noqa: N802
        self.paths += 1

    def beginPath(self) -> Recorder:  # noqa: N802
        return self

    def __getattr__(self, name: str) -> Any:
        return lambda *args, **more: None


def plot(dots: Sequence[Dot], **more: Any) -> Plot:
    said: dict[str, Any] = {"mean": None, "governing": (), "limits": (), "lacking": (), "corrected": False}
    return Plot("T1", "stress", tuple(dots), **(said | more))


def test_every_specimen_stands_at_the_height_of_its_value() -> None:
    dots = [Dot(f"T1-{n}", value * PSI, False, False) for n, value in enumerate((50.0, 100.0, 75.0, 0.0))]
    canvas = Recorder()
    figure = PlotFigure(plot(dots), US)
    figure._draw(canvas, 0.0, 500.0, 504.0)
    axis = figure.axis()
    assert axis.ticks == (0, 20, 40, 60, 80, 100) or axis.high == 100
    heights = [y for _, y, _, fill in canvas.circles if fill]
    assert heights == pytest.approx([axis.end * share for share in (0.5, 1.0, 0.75, 0.0)])
    xs = [x for x, _, _, _ in canvas.circles]
    assert xs == sorted(xs) and len(set(xs)) == 4


def test_set_aside_and_standing_apart_are_told_by_shape() -> None:
    dots = [Dot("a", 50 * PSI, False, False), Dot("b", 60 * PSI, True, False), Dot("c", 10 * PSI, False, True)]
    canvas = Recorder()
    PlotFigure(plot(dots), US)._draw(canvas, 0.0, 500.0, 504.0)
    assert len(canvas.squares) == 1
    assert sorted(fill for _, _, _, fill in canvas.circles) == [0, 1, 1]
    said = key_of(plot(dots, lacking=("d",), corrected=True))
    assert "crossed squares: set aside" in said and "ringed: stands apart" in said and "Without a result: d." in said
    assert "corrected for height to width" in said


def test_mean_governing_value_and_limit_have_lines_of_their_own() -> None:
    dots = [Dot("a", 80 * PSI, False, False), Dot("b", 100 * PSI, False, False)]
    canvas = Recorder()
    made = plot(dots, mean=90 * PSI, governing=(Rung("A1", 80 * PSI),), limits=(Rung("A1", 60 * PSI, -1),))
    figure = PlotFigure(made, US)
    figure._draw(canvas, 0.0, 500.0, 504.0)
    axis = figure.axis()
    levels = [y0 for x0, y0, x1, y1 in canvas.lines_drawn if y0 == y1 and x0 == 0 and x1 > 100]
    assert sorted(levels) == pytest.approx(sorted(axis.at(one) for one in (60, 90, 80)))
    assert len({one for one in canvas.dashes if one}) == 2
    shown = [text for _, _, text in canvas.texts]
    assert "mean of all 90 psi" in shown and "governs 80 psi (A1)" in shown and "least 60 psi (A1)" in shown


@pytest.mark.parametrize("count", [1, 7, 40, 400, 5000])
def test_marks_under_the_axis_never_run_into_each_other(count: int, tmp_path: Path) -> None:
    dots = [Dot(f"T1-{n}", (50 + n % 7) * PSI, False, False) for n in range(count)]
    figure = PlotFigure(plot(dots), US)
    canvas = Recorder()
    figure._draw(canvas, 0.0, 500.0, 504.0)
    assert len([one for one in canvas.circles if one[3]]) == count
    below = sorted((x, text) for x, y, text in canvas.texts if y == -10)
    assert below and all(after[0] - before[0] >= 14 for before, after in pairwise(below))


def test_labels_of_equal_lines_are_named_together(example: Checked) -> None:
    plot = plot_of("T1", example, judged_of(example, by_rule(example), "T1"))
    assert plot and len({rung.value for rung in plot.governing}) == len(plot.governing)


# ------------------------------------------------------------------------------------------------------------ remarks


def test_what_stands_apart_is_ringed_and_said_and_still_counts() -> None:
    """One weak cube among even ones, by Grubbs' test; no value is left out of the mean."""
    values = (100.0, 101.0, 99.5, 100.5, 40.0)
    rows = [cube(f"T1-{n}", value) for n, value in enumerate(values)]
    found = set_record("compression", rows, PRACTICE)
    said = remarks_of(found)
    assert any(says.startswith("T1-4 stands apart by Grubbs") for says in said)
    building = project(1)
    made = replace(checked(1, 1, of=building, findings=[]), specimens={"C1": rows})
    made = replace(made, evidence=gathered(building, {"C1": rows}, PRACTICE))
    plot = plot_of("C1", made, [])
    assert plot and [dot.mark for dot in plot.dots if dot.apart] == ["T1-4"]
    assert plot.mean == pytest.approx(sum(values) / 5 * PSI)


def test_what_does_not_stand_apart_is_said_too(example: Checked) -> None:
    said = remarks_of(example.evidence.sets["T1"])
    assert any("T1-4 does not stand apart by Grubbs: 1.449" in says for says in said)


def cube(mark: str, psi: float, day: date | None = date(2026, 4, 1), mass: float | None = 1.8) -> Specimen:
    """A cube of 4 in: the load in lbf is 16 times the strength in psi."""
    return Specimen(
        "compression",
        set="C1",
        mark=mark,
        mix="M1",
        place=Place("lab/compression.csv", 2),
        cast=date(2026, 3, 1),
        tested=day,
        dried="air",
        shape="cube",
        width=4 * INCH,
        depth=4 * INCH,
        height=4 * INCH,
        mass=mass,
        peak_load=16 * psi * LBF,
    )


# ------------------------------------------------------------------------------------------------------------ scatter


def two_sets() -> Checked:
    building = project(1)
    second = building.test_sets["C1"].model_copy(update={"title": "second"})
    building = building.model_copy(update={"test_sets": {"C1": building.test_sets["C1"], "C2": second}})
    rows = {
        "C1": [cube(f"C1-{n}", 100 + n) for n in range(3)],
        "C2": [cube(f"C2-{n}", 80 + n, date(2026, 5, 1), None if n else 1.7) for n in range(3)],
    }
    made = replace(checked(1, 1, of=building, findings=[]), specimens=rows)
    return replace(made, evidence=gathered(building, rows, PRACTICE))


def test_several_sets_stand_side_by_side_by_density_and_age(tmp_path: Path) -> None:
    made = two_sets()
    Book(head_of(made, "plots"), PAPERS["letter"], covered=False).write(
        [title_sheet(), *scatter_sheets(made, US)], tmp_path / "out.pdf"
    )
    text = read_back(tmp_path / "out.pdf").text
    assert "Compression: the sets side by side" in text
    assert "Left out for want of a value: 2 results without mass or all sides." in text
    assert "Density, pcf" in text and "Age at the test, days" in text and "C1" in text and "C2" in text


def title_sheet() -> Any:
    from compliance.documents.elements.section_titles import running_text

    return running_text(title("plots", "Plots"))


def test_points_are_density_and_strength_of_each_specimen() -> None:
    """1.8 kg over a cube of 4 in (101.6 mm): 1.8 / 0.1016³ = 1716.3 kg/m³ = 107.1 pcf."""
    sets = {mark: record.specimens for mark, record in two_sets().evidence.sets.items()}
    found, without = clouds(sets, lambda one: one.density, "density", US)
    assert without == 2
    assert found[0].points[0] == pytest.approx((1.8 / 0.1016**3 / 16.018463373960142, 100.0), rel=1e-6)
    assert [len(one.points) for one in found] == [3, 1]


def test_one_set_alone_has_no_scatter() -> None:
    assert scatter_sheets(checked(1, 1), US) == []


def test_the_first_eight_sets_have_shapes_of_their_own() -> None:
    seen = set()
    for number in range(8):
        canvas = Recorder()
        fills: list[object] = []
        canvas.setFillColor = fills.append  # type: ignore[attr-defined]
        points: list[tuple[float, float]] = []
        canvas.moveTo = canvas.lineTo = lambda x, y, points=points: points.append((x, y))  # type: ignore[attr-defined]
        draw_shape(canvas, number, 0.0, 0.0)
        seen.add((len(canvas.circles), tuple(points), str(fills[0])))
    assert len(seen) == 8


# -------------------------------------------------------------------------------------------------------------- table


@pytest.mark.parametrize(
    "symbol, kind",
    [
        ("mm", "thickness"),
        ("in", "thickness"),
        ("kg", "mass"),
        ("g", "mass"),
        ("kN", "force"),
        ("lbf", "force"),
        ("MPa", "stress"),
        ("psi", "stress"),
    ],
)
@given(number=st.floats(1e-3, 1e6))
def test_the_unit_of_a_lab_is_found_again(symbol: str, kind: str, number: float) -> None:
    found = lab_unit(number, unit(symbol).to_si(number), kind)
    assert unit(found).to_si(number) == pytest.approx(unit(symbol).to_si(number), rel=1e-9)
    assert found == symbol or unit(found).factor == unit(symbol).factor


def test_no_unit_is_made_up() -> None:
    assert lab_unit(0.0, 0.0, "mass") == ""
    assert lab_unit(3.0, 7.123, "mass") == ""


def test_the_section_of_the_example(example: Checked, tmp_path: Path) -> None:
    story = materials(example, by_rule(example), PRACTICE)
    Book(head_of(example, "materials"), PAPERS["letter"], covered=False).write(story, tmp_path / "out.pdf")
    read = read_back(tmp_path / "out.pdf")
    for page, boxes in enumerate(read.boxes, start=1):
        assert not overlapping(boxes), f"page {page}"
    assert "entered 152.9 mm (width), 304.8 mm (depth)" in read.text and "4.026 kN (peak load)" in read.text
    assert "Set aside under AU106.6: dried oven; air required" in read.text
    assert "set aside: T1-6" in read.text and "114.6 psi ≥ 60 psi (0.414 MPa) +91 %" in read.text
    for mark, test in example.project.test_sets.items():
        drawn = f"Set {mark}: {'shrinkage, %' if test.kind == 'shrinkage' else 'strength, psi'}" in read.text
        assert drawn is (mark != "T5"), "nothing is drawn of a set that waits for its results"
    first = (tmp_path / "out.pdf").read_bytes()
    story = materials(example, by_rule(example), PRACTICE)
    Book(head_of(example, "materials"), PAPERS["letter"], covered=False).write(story, tmp_path / "again.pdf")
    assert (tmp_path / "again.pdf").read_bytes() == first
