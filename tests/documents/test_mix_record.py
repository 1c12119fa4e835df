"""The record of the earth: chain, triangle, jars, hand tests, trials, blends, each as printed and as drawn."""

from __future__ import annotations

import math
from datetime import date
from itertools import combinations
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from compliance.checked import Checked
from compliance.checking import check_folder
from compliance.documents.earth.mix_record import mix_record
from compliance.documents.elements.section_titles import title
from compliance.documents.elements.theme import PAPERS
from compliance.documents.page.book import Book
from compliance.documents.page.document_head import head_of
from compliance.documents.page.faces import em_width
from compliance.documents.plots import chain_diagram
from compliance.documents.plots.chain_boxes import MOST_SETS, MOST_SOILS, Flow, flows
from compliance.documents.plots.chain_diagram import placing
from compliance.documents.plots.jar_drawing import layers
from compliance.documents.plots.jar_times import EARLY, LATE, NO_TIME, ON_TIME, reading_words
from compliance.documents.plots.texture_triangle import HIGH, Plotted, centroid, labelled, outline, place, plotted
from compliance.documents.plots.triangle_drawing import TriangleFigure
from compliance.facts.evidence.gathered import gathered
from compliance.facts.soil.jar_test import Jar, LayerMark, read_jar
from compliance.facts.soil.settling import reading_schedule
from compliance.facts.soil.texture import texture_classes
from compliance.model.project import Project
from compliance.model.soil_tests import JarRecord, LayerReading
from compliance.model.specimens import Specimen
from compliance.problems import Place
from compliance.reading.reference_files.material_practice import read_material_practice
from compliance.units import Measure, Writer, measure
from tests.conftest import EXAMPLE
from tests.documents.buildings import checked
from tests.documents.reading_back import Read, overlapping, read_back
from tests.tries import tries

PRACTICE = read_material_practice()
US = Writer("us")
WIDTH = PAPERS["letter"].body_width


@pytest.fixture(scope="module")
def example(tmp_path_factory: pytest.TempPathFactory) -> tuple[Checked, Read]:
    made = check_folder(EXAMPLE)
    return made, written(made, tmp_path_factory.mktemp("mix"))


def written(made: Checked, folder: Path) -> Read:
    story = mix_record(made, PRACTICE, Writer(made.project.project.units), title("earth", "Earth"))
    Book(head_of(made, "mix record"), PAPERS["letter"], covered=False).write(story, folder / "out.pdf")
    return read_back(folder / "out.pdf")


def building(**more: Any) -> Project:
    return Project.model_validate(
        {
            "project": {"name": "Trial", "date": "2026-05-14"},
            "jurisdiction": {"name": "Nowhere", "rule_sets": ["test-rules"]},
            "soils": {"S1": {"name": "clay soil", "place": "pit"}},
            "mixes": {"M1": {"name": "mix", "parts": {"S1": 1.0}}},
            "walls": {
                f"W{n}": {"run": {"from": ["0 ft", f"{n} ft"], "to": ["12 ft", f"{n} ft"]}, "height": "8 ft",
                          "thickness": "16 in", "mix": "M1"}
                for n in (1, 2)
            },
            **more,
        }
    )  # fmt: skip


def with_evidence(of: Project, specimens: dict[str, list[Specimen]] | None = None) -> Checked:
    rows = specimens or {}
    made = checked(1, 1, of=of, with_specimens=False, findings=[])
    return Checked(
        project=of, rule_sets=made.rule_sets, facts=made.facts, findings=(), specimens=rows, warnings=(),
        fingerprint=made.fingerprint, evidence=gathered(of, rows, PRACTICE), references=made.references,
    )  # fmt: skip


def row(mark: str, of: str = "T1", batch: str = "", **more: Any) -> Specimen:
    return Specimen(
        "compression",
        set=of,
        mark=mark,
        mix="M1",
        place=Place("lab/compression.csv", 2),
        cast=date(2026, 4, 6),
        batch=batch,
        **more,
    )


# -------------------------------------------------------------------------------------------------------------- chain


def test_the_chain_of_the_example_is_whole(example: tuple[Checked, Read]) -> None:
    made, read = example
    by_mix = dict(flows(made))
    assert list(by_mix) == ["M1", "M2"]
    (flow,) = by_mix["M1"]
    assert [(pit.marks, soil.marks) for pit, soil in flow.sources] == [("S1", "S1"), ("S2", "S2")]
    assert flow.trial.marks == "TR2"
    assert [(group.batch.marks, [one.marks for one, _ in group.sets]) for group in flow.tested] == [
        ("BA1", ["T1"]), ("not told", ["T2", "T3"]),
    ]  # fmt: skip
    assert [(head.marks, head.given, walls.marks) for head, walls in flow.built] == [
        ("BA2", True, "W1"), ("not told", False, "W2, W3, W4, W6, W7"),
    ]  # fmt: skip
    assert flow.speaks and flow.gaps == ()
    for text in (
        "pit S1",
        "soil S2",
        "trial TR2",
        "mix M1",
        "batch BA1",
        "set T3",
        "specimens T1-1 to T1-6",
        "wall W5",
    ):
        assert text in read.text


def test_what_breaks_the_chain_is_told(tmp_path: Path) -> None:
    bare = building(soils={"S1": {"name": "clay soil"}}, test_sets={"T1": {"kind": "compression", "mix": "M1"}})
    made = with_evidence(bare)
    ((_, (flow,)),) = flows(made)
    assert not flow.speaks and not flow.trial.given and not flow.sources[0][0].given
    assert not flow.tested[0].sets[0][1].given
    text = written(made, tmp_path).text
    for gap in made.evidence.chains["W1"].gaps:
        assert f"Not told: {gap}." in text
    assert "speaks for these walls" not in text


def test_a_mix_without_sets_says_so() -> None:
    ((_, (flow,)),) = flows(with_evidence(building()))
    found = placing(flow, WIDTH)
    assert [one.box.marks for one in found.boxes if one.box.kind == "set"] == ["none"]
    assert not found.heard and not found.speaking


def test_many_sets_soils_and_walls_are_shown_on_several_figures() -> None:
    soils = {f"S{n}": {"name": f"soil {n}", "place": f"pit {n}"} for n in range(9)}
    sets = {f"T{n}": {"kind": "compression", "mix": "M1"} for n in range(11)}
    of = building(soils=soils, mixes={"M1": {"name": "mix", "parts": dict.fromkeys(soils, 1.0)}}, test_sets=sets,
                  batches={"BA1": {"mix": "M1", "walls": ["W1"]}, "BA2": {"mix": "M1"}})  # fmt: skip
    made = with_evidence(of, {f"T{n}": [row(f"T{n}-1", f"T{n}", batch="BA2" if n % 2 else "")] for n in range(11)})
    ((_, figures),) = flows(made)
    assert len(figures) == math.ceil(11 / MOST_SETS)
    shown = [one.marks for flow in figures for group in flow.tested for one, _ in group.sets]
    assert sorted(shown) == sorted(sets)
    assert len(figures[0].sources) == MOST_SOILS
    assert figures[0].sources[-1][1].marks == ", ".join(f"S{n}" for n in range(MOST_SOILS - 1, 9))
    for flow in figures:
        check_figure(flow)


def check_figure(flow: Flow) -> None:
    """Boxes apart from each other and inside the figure, every text inside its box, every tie from box to box."""
    found = placing(flow, WIDTH)
    for one, other in combinations(found.boxes, 2):
        apart = (
            one.left + one.width <= other.left + 1e-6 or other.left + other.width <= one.left + 1e-6
            or one.bottom <= other.top + 1e-6 or other.bottom <= one.top + 1e-6
        )  # fmt: skip
        assert apart, f"{one.box} over {other.box}"
    for one in found.boxes:
        assert one.left >= -1e-6 and one.left + one.width <= WIDTH + 1e-6 and one.bottom <= found.height
        assert len(one.lines) * chain_diagram.LEADING + 2 * chain_diagram.PAD <= one.height + 1e-6
        for text in one.lines[1:]:
            assert em_width(text, "Narrow") * chain_diagram.SIZE <= one.width - 2 * chain_diagram.PAD + 1e-3
    for points in found.ties:
        x, y = points[-1]
        assert any(
            on_edge(one.left, top=one.top, width=one.width, height=one.height, x=x, y=y) for one in found.boxes
        ), points


def on_edge(left: float, top: float, width: float, height: float, x: float, y: float) -> bool:
    within = left - 1e-6 <= x <= left + width + 1e-6 and top - 1e-6 <= y <= top + height + 1e-6
    return within and (min(abs(y - top), abs(y - top - height), abs(x - left), abs(x - left - width)) < 1e-6)


def test_the_figures_of_the_example_fit(example: tuple[Checked, Read]) -> None:
    for _, figures in flows(example[0]):
        for flow in figures:
            check_figure(flow)


def test_long_names_and_marks_stay_in_their_boxes() -> None:
    long = "an uncommonly long description " * 12
    of = building(soils={"S1": {"name": long[:380], "place": long[:380]}},
                  test_sets={"T1": {"kind": "compression", "mix": "M1", "title": long[:380]}})  # fmt: skip
    ((_, (flow,)),) = flows(with_evidence(of, {"T1": [row("x" * 60), row("y" * 60)]}))
    check_figure(flow)


# ----------------------------------------------------------------------------------------------------------- triangle


def test_the_corners_of_the_triangle_are_pure() -> None:
    """Clay at the top, sand at the lower left, silt at the lower right, as the USDA draws it."""
    assert place(1, 0, 100) == pytest.approx((50, 100 * HIGH))
    assert place(0, 0, 100) == pytest.approx((0, 0))
    assert place(0, 1, 100) == pytest.approx((100, 0))
    assert place(1 / 3, 1 / 3, 90) == pytest.approx((45, 30 * HIGH))


def test_the_name_of_each_class_stands_in_its_class() -> None:
    """The middle of each drawn outline falls into the class of the rules that it is drawn for."""
    for name, corners in PRACTICE.texture.outlines.items():
        x, y = centroid(outline(corners, 1.0))
        clay = y / HIGH
        assert texture_classes(PRACTICE.texture, clay, x - clay / 2) == (name,)


def test_the_outlines_fill_the_triangle() -> None:
    def area(points: list[tuple[float, float]]) -> float:
        pairs = zip(points, [*points[1:], points[0]], strict=True)
        return abs(sum(x0 * y1 - x1 * y0 for (x0, y0), (x1, y1) in pairs)) / 2

    assert math.fsum(area(outline(corners, 1.0)) for corners in PRACTICE.texture.outlines.values()) == pytest.approx(
        HIGH / 2
    )


SHARES = st.tuples(st.integers(0, 100), st.integers(0, 100)).filter(lambda one: sum(one) <= 100)


@given(st.lists(SHARES, min_size=1, max_size=12))
@settings(max_examples=tries(60), deadline=None)
def test_labels_never_lie_on_marks_or_on_each_other(shares: list[tuple[int, int]]) -> None:
    points = [Plotted(f"S{n}", clay / 100, silt / 100, False) for n, (clay, silt) in enumerate(shares)]
    found = labelled(points, sizes=[(14.0, 8.0)] * len(points), side=300, taken=[], frame=(-30, 0, 330, 270), reach=3.4)
    boxes = [one.box for one in found if one.box]
    assert len(boxes) == len(points)
    for one, other in combinations(boxes, 2):
        assert one[2] <= other[0] or other[2] <= one[0] or one[3] <= other[1] or other[3] <= one[1]
    for box in boxes:
        for x, y in (one.at for one in found):
            assert not (box[0] < x + 3.4 and x - 3.4 < box[2] and box[1] < y + 3.4 and y - 3.4 < box[3])


def test_a_label_without_room_is_told() -> None:
    points = tuple(Plotted(f"S{n}", 0.3, 0.3, False) for n in range(80))
    figure = TriangleFigure(PRACTICE.texture, points)
    assert figure.unlabelled and set(figure.unlabelled) < {one.mark for one in points}


def test_soils_and_mixes_are_plotted_without_gravel(example: tuple[Checked, Read]) -> None:
    made, _ = example
    points = {one.mark: one for one in plotted(made.evidence.soils, made.evidence.mixes)}
    shares = made.evidence.mixes["M1"].shares
    assert shares
    assert points["M1"].is_mix and points["M1"].clay == pytest.approx(shares["clay"] / (1 - shares["gravel"]))
    assert not points["S1"].is_mix and points["S1"].clay == pytest.approx(0.34375)


# --------------------------------------------------------------------------------------------------------------- jars


def jar(**more: Any) -> JarRecord:
    def mark(height: str, time: str | None) -> LayerReading:
        return LayerReading(height=measure(height, "layer_height"), time=measure(time, "time") if time else None)

    said: dict[str, Any] = {
        "depth": measure("200 mm", "layer_height"), "sand": mark("50 mm", "60 s"), "silt": mark("80 mm", "20 h"),
        "settled": mark("100 mm", "60 h"),
    }  # fmt: skip
    return JarRecord(**(said | more))


def test_layers_are_drawn_to_scale() -> None:
    found = layers(jar(coarse_sand=measure("20 mm", "layer_height"), floating=measure("5 mm", "layer_height")))
    assert [(one.name, round(1000 * one.bottom), round(1000 * one.top)) for one in found] == [
        ("coarse sand", 0, 20), ("fine sand", 20, 50), ("silt", 50, 80), ("clay", 80, 100), ("floating", 195, 200),
    ]  # fmt: skip
    assert [one.share and round(one.share, 6) for one in found] == [0.2, 0.3, 0.3, 0.2, None]


@given(st.floats(0.05, 20), st.floats(0.05, 20))
@settings(max_examples=tries(60), deadline=None)
def test_early_and_late_marks_are_those_of_the_jar_test(sand: float, silt: float) -> None:
    """The words in the table and the remarks of the jar test come from separate comparisons: they must agree."""
    kelvin = 293.15
    due = reading_schedule(PRACTICE.settling, PRACTICE.sizes, 0.2, kelvin).readings
    times = [factor * one.time for factor, one in zip((sand, silt), due, strict=False) if one.time]
    if times != sorted(times):
        return
    said = Jar(
        0.2,
        sand=LayerMark(0.05, times[0]),
        silt=LayerMark(0.08, times[1]),
        settled=LayerMark(0.1),
        temperature=kelvin,
        clear=True,
    )
    remarks = read_jar(said, PRACTICE.settling, PRACTICE.sizes, PRACTICE.jar).remarks
    for layer, time in zip(("sand", "silt"), times, strict=True):
        reading = LayerReading(height=measure("50 mm", "layer_height"), time=Measure(time, "s", f"{time} s"))
        one = next(each for each in due if each.layer == layer)
        codes = [remark.code for remark in remarks if remark.says.startswith(f"The {layer} mark")]
        expected = {EARLY: ["jar-read-early"], LATE: ["jar-read-late"], ON_TIME: []}
        assert codes == expected[reading_words(one, reading, PRACTICE.jar.late_after)]
    assert reading_words(due[0], LayerReading(height=measure("50 mm", "layer_height")), 2.0) == NO_TIME


def test_early_readings_are_flagged_in_print(example: tuple[Checked, Read]) -> None:
    """S1's silt was marked after 16 h where 0.002 mm needs 16.2 h by Stokes through 8 in of water at 66 °F."""
    _, read = example
    assert "S1 sand 0.05 mm 93 s 95 s 1.75 in on time" in read.text
    assert "S1 silt 0.002 mm 16.2 h 16 h 2.875 in EARLY" in read.text
    assert "S3 clay — until clear 24 h 3.75 in EARLY: the water was still cloudy" in read.text
    assert "S3 sand 0.05 mm — 60 s 1.25 in water temperature not recorded" in read.text
    assert "The silt share" not in read.text and "The clay share reads too high and the silt share too low" in read.text


# ------------------------------------------------------------------------------------------------ tests, trials, blends


def test_every_hand_test_stands_with_its_meaning_source_and_note(example: tuple[Checked, Read]) -> None:
    made, read = example
    text = read.text.replace("- ", "-")
    for record in made.evidence.soils.values():
        for one in record.readings:
            assert " ".join(one.meaning.means.split()) in text
            assert one.meaning.source in text
            assert not one.test.note or one.test.note in text
    assert "A field test is an indication, not proof." in text


def test_trials_stand_in_the_order_of_their_rank(example: tuple[Checked, Read]) -> None:
    _, read = example
    start = read.text.index("Trial mixes Ranked by")
    text = read.text[start : read.text.index("Mixes Mark", start)]
    places = [text.index(f"{rank} {mark} ") for rank, mark in ((1, "TR2"), (2, "TR1"), (3, "TR3"), (4, "TR4"))]
    assert places == sorted(places)
    assert "Chosen for M1" in text and "94 % 2" in text and "It does not measure strength" in text


def test_blends_and_quantities_are_worked_out(example: tuple[Checked, Read]) -> None:
    """M1 is 1 part of S1 (33 % clay of the whole, 74 pcf loose) and 2 of S2 (1 % clay, 94 pcf):
    (74 × 0.33 + 188 × 0.01) / 262 = 10.0 % clay."""
    made, read = example
    assert pytest.approx(made.evidence.mixes["M1"].shares["clay"], rel=1e-6) == (74 * 0.33 + 188 * 0.01) / 262  # type: ignore[index]
    assert "As described 1 S1 : 2 S2 57.4 % 23.6 % 10 % 7.8 % 1.1 % 18.5 %, outside" in read.text
    assert "Nearest in whole buckets 4 S1 : 3 S2" in read.text
    assert "In the proportions of its trial, rank 1 of the trials." in read.text
    assert "Differs from its trial, rank 2 of the trials: S1 is 40.0 % of the soil and sand" in read.text
    assert "Clay in the mix: (n1 × ρ1 × s1 + n2 × ρ2 × s2) / (n1 × ρ1 + n2 × ρ2)" in read.text
    assert "bales; pressed into buckets, dose of the mix" in read.text
    assert "no rule of a code" in read.text


def test_shares_of_soils_name_what_they_rest_on(example: tuple[Checked, Read]) -> None:
    _, read = example
    assert "34.4 % 20.8 % 44.8 % 4 % laboratory grading clay loam" in " ".join(read.text.split())
    assert "The laboratory grading outranks the jar" in read.text
    assert "Finer by dry weight: 4.75 mm 100 %, 2 mm 96 %" in read.text


def test_nothing_overlaps_or_leaves_the_page(example: tuple[Checked, Read]) -> None:
    _, read = example
    for page, boxes in enumerate(read.boxes, start=1):
        assert not overlapping(boxes), f"page {page}"
        for left, bottom, right, top in boxes:
            assert left >= 53 and right <= 612 - 53 and bottom >= 18 and top <= 790, f"page {page}"


def test_a_mix_of_unknown_soils_is_not_blended(tmp_path: Path) -> None:
    text = written(with_evidence(building()), tmp_path).text
    assert "Not blended: the shares of S1 are not known." in text
    assert "The mix names no trial." in text


def test_si_units_throughout(tmp_path: Path) -> None:
    made = check_folder(EXAMPLE)
    head = made.project.project.model_copy(update={"units": "si", "paper": "a4"})
    of = made.project.model_copy(update={"project": head})
    story = mix_record(made, PRACTICE, Writer("si"), title("earth", "Earth"))
    Book(head_of(made, "mix record"), PAPERS["a4"], covered=False).write(story, tmp_path / "out.pdf")
    text = read_back(tmp_path / "out.pdf").text
    assert of.project.units == "si"
    assert "S1 silt 0.002 mm 16.2 h 16 h 73 mm EARLY" in text
    assert "kg/m³ loose" in text and " pcf" not in text and " ft³" not in text
