"""The parts of a submittal: how long the papers are, how large their letters, what they say and how often."""

from __future__ import annotations

import random
import re
from collections import Counter
from dataclasses import replace
from functools import cache
from pathlib import Path

import pikepdf
import pypdf
import pypdfium2
import pytest

from compliance.checked import Checked
from compliance.checking import check_folder
from compliance.documents.submittal.bundle import PART_NAMES, build_parts
from compliance.reading.yaml.strict_yaml import parse_yaml
from compliance.report.by_rule import by_rule
from compliance.report.earth.mix_blends import blend_of_mix
from compliance.report.limits.open_limits import limits_to_read
from compliance.report.marks import Mark, mark_of
from compliance.report.summaries.action_items import ASKING, action_items
from compliance.report.tally import counts, limit_counts
from compliance.report.value_words import value_and_limit
from compliance.start.interview.trial_reading import new_project, write_files
from compliance.start.interview.unattended import answers_of
from compliance.units import Writer
from tests.documents.conftest import PrintedExample
from tests.documents.pages_looked_at import filled
from tests.documents.reading_back import Read, one_line, read_back
from tests.unit.test_answer_screen import DAY, TEN

LEAST_LETTERS = {"papers": 8.0, "drawings": 9.7, "calculations": 8.0}
CAPITALS = 72 * 3 / 32
RUNNING = 62.0
LONGEST = {"example": 26, "cottage": 14, "garden-wall": 6}
GARDEN_WALL = """
project: {name: Garden wall, date: 2026-11-30, use: other}
jurisdiction: {name: Quillmoor County, rule_sets: [cob-practice, structural-screening]}
site: {seismic_category: B, sds: 0.18, sd1: 0.08, s1: 0.05, risk_category: II, wind_speed: 110 mph, wind_exposure: B,
  ground_snow: 20 psf, frost_depth: 18 in, soil_bearing: 1500 psf, asce7: 7-16, topographic_factor: 1, flood_zone: no,
  expansive_soil: no, site_class: D}
soils: {S1: {name: pit soil}, S2: {name: pit sand}}
mixes: {M1: {name: wall mix, parts: {S1: 1, S2: 2}, straw: wheat, straw_parts: 0.6}}
stems: {ST1: {material: stone, thickness: 20 in, above_grade: 16 in}}
footings: {F1: {kind: concrete, width: 24 in, thickness: 12 in, bottom: 20 in, bar_count: 2, drain: yes,
  concrete_strength: 2500 psi}}
walls:
  W1: {name: garden wall, run: {from: [0 in, 0 in], to: [20 ft, 0 in]}, height: 5 ft, thickness: 18 in, use: garden,
    bears_load: no, braces: no, top_restraint: free, base_restraint: stem, mix: M1, stem: ST1, footing: F1,
    outside: [{material: lime, thickness: 3/4 in, permeance: 18 perms}], retains_soil: no, lift_height: 14 in,
    inside: [{material: lime, thickness: 3/4 in, permeance: 18 perms}], top_cover: coping}
"""
Parts = dict[str, tuple[Path, Read]]
Case = tuple[str, Checked, Parts]


def made(name: str, of: Checked, folder: Path) -> Case:
    found: Parts = {}
    for part, data in build_parts(of).items():
        path = folder / f"{part}.pdf"
        path.write_bytes(data)
        found[part] = path, read_back(path)
    return name, of, found


@pytest.fixture(scope="module")
def example(checked_example: Checked, tmp_path_factory: pytest.TempPathFactory) -> Case:
    return made("example", checked_example, tmp_path_factory.mktemp("parts"))


@pytest.fixture(scope="module")
def garden_wall(tmp_path_factory: pytest.TempPathFactory) -> Case:
    folder = tmp_path_factory.mktemp("garden-wall")
    (folder / "project.yaml").write_text(GARDEN_WALL, encoding="utf-8")
    return made("garden-wall", check_folder(folder), folder)


@pytest.fixture(scope="module")
def cottage(tmp_path_factory: pytest.TempPathFactory) -> Case:
    """The one of the README."""
    folder = tmp_path_factory.mktemp("cottage")
    write_files(folder, answers_of(parse_yaml(TEN, "answers.yaml"), new_project(DAY)), DAY)
    return made("cottage", check_folder(folder), folder)


@pytest.fixture(params=["example", "cottage", "garden_wall"])
def case(request: pytest.FixtureRequest) -> Case:
    found: Case = request.getfixturevalue(request.param)
    return found


def test_the_papers_are_short(case: Case) -> None:
    name, _, parts = case
    assert len(parts["papers"][1].pages) <= LONGEST[name]


def test_nothing_is_lettered_smaller_than_notes(case: Case) -> None:
    """Read from the operators of the pages: what sets a face, and what shows text with it."""
    for part, (path, _) in case[2].items():
        with pikepdf.open(path) as pdf:
            for number, page in enumerate(pdf.pages, start=1):
                size = 0.0
                for operands, operator in pikepdf.parse_content_stream(page):
                    if str(operator) == "Tf":
                        size = float(operands[1])
                    elif str(operator) in ("Tj", "TJ"):
                        assert size >= LEAST_LETTERS[part], f"{part}, page {number}: {size} points"


def test_capitals_on_drawings_are_three_32nds_of_an_inch_tall(case: Case) -> None:
    """What offices commonly ask for on sheets (common practice, no source): the outline of each capital E, F, H and
    L as another library measures it on the page, upright or turned."""
    document = pypdfium2.PdfDocument(case[2]["drawings"][0])
    tall = []
    for page in document:
        text = page.get_textpage()
        whole = text.get_text_range()
        for index in (one.start() for one in re.finditer("[EFHL]", whole)):
            left, bottom, right, top = text.get_charbox(index)
            tall.append(max(right - left, top - bottom))
        text.close()
    document.close()
    assert len(tall) > 20 and min(tall) >= CAPITALS - 0.05


def test_no_page_of_the_papers_but_the_last_is_half_empty(case: Case) -> None:
    for number, share in enumerate(filled(case[2]["papers"][0])[:-1], start=1):
        assert share > 0.5, f"page {number} is filled to {share:.0%}"


def test_no_page_of_the_calculations_but_the_last_is_half_empty_and_nothing_is_left_out(case: Case) -> None:
    """By the boxes of its text between the running lines."""
    read = case[2]["calculations"][1]
    for number, (boxes, (_, height)) in enumerate(zip(read.boxes[:-1], read.sizes, strict=False), start=1):
        lowest = min(bottom for _, bottom, _, _ in boxes if bottom > RUNNING)
        assert (height - RUNNING - lowest) / (height - 2 * RUNNING) > 0.5, f"page {number}"
    assert "…" not in read.text


def test_nothing_of_the_inside_of_the_tool_stands_in_what_officials_read(case: Case) -> None:
    """No rule ids, field names, file names or commands, in papers or drawings."""
    _, of, parts = case
    ids = {rule.id for one in of.rule_sets for rule in one.rules if rule.id.count("-") >= 2}
    ids |= {one.id for one in of.rule_sets}
    for part in ("papers", "drawings"):
        text = parts[part][1].text
        assert not (found := ids & set(re.findall(r"[\w-]+", text))), found
        assert not re.findall(r"\b\w+\.(?:yaml|csv|json|xlsx|py|html)\b", text)
        assert not re.findall(r"\b(?:walls|roofs|mixes|test_sets|footings|stems|beams|soils)\.\w+", text)
        assert not re.findall(r"\b[a-z]+_[a-z]{2,}\b", text), re.findall(r"\b[a-z]+_[a-z]{2,}\b", text)
        assert "earthwall" not in text and "attestations" not in text


def test_no_file_or_field_to_write_in_stands_in_the_calculations(case: Case) -> None:
    """What lacks is named in the trade's words, for an engineer has no project folder; a rule set by its title and
    edition, with the fingerprint of its file. Attached files and the rows of a laboratory alone are named as files."""
    _, of, parts = case
    text = parts["calculations"][1].text
    for one in of.rule_sets:
        assert f"({one.id}," not in text, "a finding of another rule is named by title and clause"
        assert f"{one.id}.yaml" not in text and one.title in text and one.edition.split(",")[0] in one_line(text)
        assert of.digests[f"{one.id}.yaml"][:12] in text
    assert not re.findall(r"\b\w+\.yaml\b", text)
    named = {f"{one.rule_set}/{one.rule}" for one in of.findings}
    assert not [one for one in named if one in text]
    assert not re.findall(r'read "\w+"', text)
    assert not re.findall(r" in \w+\.yaml\b", text) and "To add" not in text and "under attestations" not in text
    assert not re.findall(r"\b(?:walls|roofs|mixes|test_sets|footings|stems|beams|soils)\.\w+", text)


def test_no_ellipsis_stands_in_the_papers(case: Case) -> None:
    assert "…" not in case[2]["papers"][1].text


@cache
def sections(path: Path) -> dict[str, str]:
    """The text of each section of level 0 between the running lines, by the places its bookmarks lead to."""
    reader = pypdf.PdfReader(path)
    starts = [(str(one.title), reader.get_destination_page_number(one), float(one.top)) for one in reader.outline
              if not isinstance(one, list)]  # fmt: skip
    document = pypdfium2.PdfDocument(path)
    try:
        pages = [(page.get_textpage(), *page.get_size()) for page in document]
        end = (len(pages) - 1, 0.0)
        found = {}
        for (name, page, top), (_, last, low) in zip(starts, [*starts[1:], ("", *end)], strict=True):
            texts = []
            for number in range(page, last + 1):
                text, width, height = pages[number]
                above = top if number == page else height - 50
                below = max(low if number == last else 0.0, 50.0)
                texts.append(text.get_text_bounded(0, below, width, above) if above > below else "")
            found[name] = " ".join(" ".join(texts).split())
        return found
    finally:
        document.close()


@pytest.fixture(scope="module")
def round_room(printed_round: PrintedExample, tmp_path_factory: pytest.TempPathFactory) -> Case:
    """The papers of the round example alone."""
    path = tmp_path_factory.mktemp("round-papers") / "papers.pdf"
    path.write_bytes(build_parts(printed_round.made, ["papers"])["papers"])
    return "round", printed_round.made, {"papers": (path, read_back(path))}


@pytest.mark.parametrize("name", ["example", "cottage", "round_room"])
def test_no_finding_stands_in_more_than_three_places_of_the_papers(name: str, request: pytest.FixtureRequest) -> None:
    """By the code of its rule: its item, the checklist, the wall or the test; the answer names what it is about."""
    _, of, parts = request.getfixturevalue(name)
    told = {name: set(re.findall(r"[\w.]+", text)) for name, text in sections(parts["papers"][0]).items()}
    assert {"Items requiring action", "Wall by wall"} <= set(told)
    project = of.project
    marks = {*project.beams, *project.roofs, *project.mixes, *project.footings, *project.soils, *project.test_sets}
    marks |= {*project.stems, *project.walls, *project.attachments}
    for one in by_rule(of):
        for group in (group for group in one.rules if group.code not in marks):
            places = [name for name, words in told.items() if group.code in words]
            assert len(places) <= 3, f"{group.code}: {places}"


def test_every_finding_that_requires_action_is_in_an_item(case: Case) -> None:
    _, of, parts = case
    items = action_items(by_rule(of), Writer(of.project.project.units))
    in_items = {id(one) for item in items for one in item.findings}
    assert in_items == {id(one) for one in of.findings if mark_of(one) in ASKING}
    assert [one.number for one in items] == list(range(1, len(items) + 1))
    text = sections(parts["papers"][0])["Items requiring action"]
    assert all(re.search(rf"(?<![\w.]){code}(?![\w.])", text) for item in items for code in item.codes)


def test_counts_agree_on_the_cover_in_the_answer_and_in_the_list(case: Case) -> None:
    _, of, parts = case
    (path, read), found = parts["papers"], counts(of)
    cover, told = read.pages[0], sections(path)
    for count in found.values():
        assert re.search(rf"(?<!\d){count}(?!\d)", cover)
    answer = told["The answer on one page"]
    assert f"{found[Mark.RESERVED]} check" in answer and f"{found[Mark.MEETS]} check" in answer
    met = answer.split("For an engineer")[0].split("What meets")[1]
    assert not (found[Mark.RESERVED] and found[Mark.MEETS]) or str(found[Mark.MEETS] + found[Mark.RESERVED]) not in met
    items = Counter(item.mark for item in action_items(by_rule(of), Writer(of.project.project.units)))
    for mark in ASKING:
        if items[mark]:
            assert f"{items[mark]} item" in answer
            assert f"{found[mark]} {mark.value.word}" in told["Items requiring action"]
    limits = limit_counts(of)
    assert f"{limits.read} of {limits.total} limits read" in cover and f"{limits.open} open" in cover
    if found[Mark.CONFIRM]:
        assert f"{found[Mark.CONFIRM]} finding" in answer and f"for {len(limits_to_read(by_rule(of)))} limit" in answer


def test_references_between_the_parts_lead_to_what_they_name(example: Case) -> None:
    """40 at random: the page of the calculations that the papers name bears the code, the wall or the set they name it
    for. A page a few further on bears few of them, so that a wrong number would show."""
    parts = example[2]
    papers, calculations = " ".join(parts["papers"][1].pages), parts["calculations"][1]
    named = re.findall(r"(?<![\w.])([A-E]\d+) · [^·]{3,60}?,? calculations p\. (\d+)", papers)
    named += [
        (f"W{number}", page)
        for number, page in enumerate(re.findall(r"Calculation sheet, calculations p\. (\d+)", papers), 1)
    ]
    named += [
        (f"T{number}", page) for number, page in enumerate(re.findall(r"in full,? calculations p\. (\d+)", papers), 1)
    ]
    assert len(named) >= 40

    def bears(code: str, page: int) -> bool:
        pages = calculations.pages
        return page <= len(pages) and bool(re.search(rf"(?<![\w.]){code} (?:· )?", pages[page - 1]))

    drawn = [(code, int(page)) for code, page in random.Random(7).sample(named, 40)]
    assert not (wrong := [(code, page) for code, page in drawn if not bears(code, page)]), wrong
    assert sum(bears(code, page + 6) for code, page in drawn) < 20
    sheets = re.findall(r"Elevation, drawings, sheet (A-\d+)", parts["papers"][1].text)
    assert len(sheets) == len(example[1].project.walls)
    assert all(any(one in page for page in parts["drawings"][1].pages) for one in sheets)


def test_each_part_names_the_one_input_and_the_others(case: Case) -> None:
    _, of, parts = case
    assert set(parts) == set(PART_NAMES)
    for name, (_, read) in parts.items():
        assert all(of.fingerprint[:12] in page for page in read.pages), name
        for other, (_, beside) in parts.items():
            what = "sheet" if other == "drawings" else "page"
            assert other.capitalize() in read.pages[0] and f"{len(beside.pages)} {what}" in read.pages[0], name


def test_no_section_stands_twice(case: Case) -> None:
    for name, (_, read) in case[2].items():
        titles = Counter(title for level, title, _ in read.outline if level == 0)
        assert max(titles.values()) == 1, f"{name}: {titles.most_common(1)}"


def test_sheets_are_numbered_at_bottom_right_and_indexed_on_the_first(example: Case) -> None:
    read = example[2]["drawings"][1]
    numbers = [number for page in read.pages if (number := re.findall(r"\b[GACS]-\d{3}\b", page)[-1])]
    assert numbers[0] == "G-001" and len(set(numbers)) == len(numbers)
    assert {"C-101", "A-101", "A-201", "A-301", "S-101", "S-102"} <= set(numbers)
    assert {width > height for width, height in read.sizes} == {True}
    assert {(round(width), round(height)) for width, height in read.sizes} == {(1224, 792)}
    for number in numbers[1:]:
        assert f"sheet {number}" in read.pages[0]
    schedules = next(page for page in read.pages if re.findall(r"\b[GACS]-\d{3}\b", page)[-1] == "A-601")
    for text in ("ST1 stone 20 in 18 in 12 in bituminous W1 to W7", "F1 concrete 24 in 12 in 24 in 2 2500 psi yes",
                 "B1 wood 12 in 6 in yes 24 in 48 in 1/2 in 24 in"):  # fmt: skip
        assert text in schedules, text
    sections = {title: read.pages[page - 1] for _, title, page in read.outline if title.startswith("Section of")}
    plan = next(read.pages[page - 1] for _, title, page in read.outline if title == "Floor plan")
    for number, page in enumerate(sections.values(), start=1):
        sheet = re.findall(r"\bA-\d{3}\b", page)[-1]
        assert f"{number} {sheet}" in plan, f"section {number} on {sheet}"


def test_schedules_of_a_small_building_fill_its_sheets_of_elevations_and_sections(
    cottage: Case, printed_round: PrintedExample
) -> None:
    """Where all of them have room there, no sheet of their own is begun; the index says where they stand."""
    heads = {"Walls": "Height from", "Openings and lintels": "Sill above", "Stem walls": "Mark Material",
             "Footings": "Mark Type", "Bond beams": "Mark Material", "Mixes": "Mix Name"}  # fmt: skip
    on_sections = dict.fromkeys(("Stem walls", "Footings", "Bond beams", "Mixes"), "A-301")
    for read, places in (
        (cottage[2]["drawings"][1], {"Walls": "A-301", "Mixes": "A-301"}),
        (printed_round.read, {"Walls": "A-202", "Openings and lintels": "A-202", **on_sections}),
    ):
        assert "A-601" not in read.text
        on = {re.findall(r"\b[GACS]-\d{3}\b", page)[-1]: page for page in read.pages if "Seal and signature" in page}
        assert len(on) == 7
        for title, sheet in places.items():
            assert f"Schedule: {title}" in on["G-001"] and f"sheet {sheet}" in on["G-001"], title
            assert f"{title} {heads[title]}" in on[sheet], title


@pytest.mark.parametrize(
    ("sheet", "size"), [("18x24", (1728, 1296)), ("24x36", (2592, 1728)), ("a3", (1191, 842)), ("a2", (1684, 1191))]
)
def test_drawings_are_on_the_paper_the_project_asks_for(
    garden_wall: Case, tmp_path: Path, sheet: str, size: tuple[int, int]
) -> None:
    _, of, _ = garden_wall
    head = of.project.project.model_copy(update={"paper_of_drawings": sheet})
    made_on = replace(of, project=of.project.model_copy(update={"project": head}))
    path = tmp_path / "drawings.pdf"
    path.write_bytes(build_parts(made_on, ["drawings"])["drawings"])
    assert {(round(width), round(height)) for width, height in read_back(path).sizes} == {size}


def test_numbers_agree_between_the_parts(example: Case) -> None:
    """30 at random: value and limit of a finding, as the record has them, stand in the calculations under the code of
    its rule, and wherever the papers name its item."""
    _, of, parts = example
    writer = Writer(of.project.project.units)
    read = parts["calculations"][1]
    starts = {title.split()[0]: page for _, title, page in read.outline if re.match(r"[A-E]\d+ ", title)}
    groups = [group for one in by_rule(of) for group in one.rules if group.code in starts]
    pairs = [
        (group.code, text)
        for group in groups
        for one in group.judged
        if one.value and one.limit and isinstance(one.value.value, float)
        for text in value_and_limit(one, writer)
    ]
    assert len(pairs) > 200
    for code, text in random.Random(11).sample(pairs, 30):
        pages = " ".join(read.pages[starts[code] - 1 : starts[code] + 3])
        assert one_line(text) in pages, f"{code}: {text}"
    told = sections(parts["papers"][0])["Items requiring action"]
    items = [item for item in action_items(by_rule(of), writer) if item.mark is Mark.ENGINEER]
    compared = [one for item in items for one in item.findings if one.value and isinstance(one.value.value, float)]
    assert len(compared) >= 8
    for one in compared:
        assert one_line(value_and_limit(one, writer)[0]) in told, one.title


UNITS = ("lbf·ft/ft|lbf·ft|lbf/min|lbf|plf|psf|psi/min|psi|pcf|lb|kN·m/m|kN·m|kN/m|kN|kPa|MPa/min|MPa|kg/m³|kg|"
         "ft²|ft³|in²|in³|in⁴|mm²|mm³|mm⁴|m²|m³|mph|m/s|%|gal|L|ton|t|h")  # fmt: skip
WITH_UNIT = re.compile(rf"(?<![\w.,/])(\d[\d,]*(?:\.\d+)?) (?:{UNITS})(?![\w·/²³⁴])")
"""Feet, inches, meters and millimeters are left out: dimensions are printed as they are set."""


def needs_its_figures(of: Checked) -> set[str]:
    """Numbers put in, of which a worked line needs as many figures for its result, and loads as a laboratory read
    them."""
    writers = (Writer("us"), Writer("si"))
    materials = (one for about in ("soil", "mix") for one in of.facts.of(about).values())
    steps = {step for finding in of.findings for step in finding.steps if step.formula}
    ordered = (blend_of_mix(of, mark).needs for mark in of.project.mixes)
    steps |= {step for needs in ordered if needs for step in needs.steps if step.formula}
    steps |= {step for one in materials for fact in one.facts.values() for step in fact.steps if step.formula}
    found = {step.put_in(given, writer) for step in steps for given in step.given for writer in writers}
    loads = [one.peak_load for rows in of.specimens.values() for one in rows if one.peak_load]
    return found | {writer.write(load, "test_load") for load in loads for writer in writers}


@pytest.mark.parametrize("name", ["example", "printed_round"])
def test_no_result_is_printed_with_more_than_four_figures(name: str, request: pytest.FixtureRequest) -> None:
    """In papers and drawings none at all; in calculations what is put into a line may have more."""
    found = request.getfixturevalue(name)
    of, parts = (found[1], {part: read.text for part, (_, read) in found[2].items()}) if name == "example" else (
        found.made, {"calculations": found.read.text})  # fmt: skip
    exempt, counted = needs_its_figures(of), 0
    for part, text in parts.items():
        for match in WITH_UNIT.finditer(" ".join(text.split())):
            digits = match[1].replace(",", "")
            figures = digits.replace(".", "").lstrip("0") if "." in digits else digits.strip("0")
            counted += 1
            assert len(figures) <= 4 or (part == "calculations" and match[0] in exempt), f"{part}: {match[0]}"
    assert counted > 1000


QUESTIONS = {
    "Which code is it designed to?": ("Code path", "appendix"),
    "Is the appendix adopted here?": ("Code path", "Orrin Vale ordinance 2024-11"),
    "Which guides stand beside the code?": ("Code path", "building practice"),
    "Who counts as an approved agency?": ("Tests in summary", "approved agency is independent"),
    "What is out of scope?": ("Code path", "Out of scope"),
    "What is deferred?": ("Code path", "Deferred submittals"),
    "What is the ground snow load?": ("Design data", "Ground snow load p_g 30 psf"),
    "What is the roof live load?": ("Design data", "Roof live load 20 psf"),
    "What is the wind speed, ultimate and nominal?": ("Design data", "V_asd 85 mph"),
    "Which exposure?": ("Design data", "Exposure B"),
    "What is the internal pressure taken from?": ("Design data", "Enclosure, for internal pressure"),
    "What are the component pressures?": ("Design data", "Component pressure on walls"),
    "Which seismic category?": ("Design data", "Seismic design category B"),
    "Which R, C_s and base shear?": ("Design data", "Seismic coefficient C_s"),
    "Which site class?": ("Design data", "Site class D"),
    "What bearing, and says who?": ("Design data", "Source of the bearing value"),
    "Is it in a flood hazard area?": ("Design data", "Flood hazard area no"),
    "How deep is frost?": ("Design data", "Frost depth 1 ft 6 in"),
    "How thick and high is each wall?": ("Building and walls", "14 in"),
    "What are the lintels?": ("Building and walls", "Lintel depth"),
    "What needs an engineer?": ("Items requiring action", "For an engineer"),
    "What must be revised?": ("Items requiring action", "To revise"),
    "What is missing?": ("Items requiring action", "Not given"),
    "Which limits are not confirmed?": ("Checklist of the adopted code", "recalled"),
    "Does a given wall meet?": ("Wall by wall", "W6 · tall wall under the raised windows"),
    "Who made and tested the specimens?": ("Tests in summary", "made by Ilse Varga"),
    "What is the laboratory's accreditation?": ("Tests in summary", "accreditation: not given"),
    "How strong is the earth?": ("Tests in summary", "mean 129.1 psi"),
    "What is inspected, to which values?": ("Statement of special inspections", "24 in wide"),
    "Who inspects?": ("Statement of special inspections", "Agency for special inspections: not given"),
    "Who signs what?": ("Sign-off", "Engineer"),
}
"""A reviewer's questions: the section of the papers that answers, and words of the answer."""


def test_a_reviewers_questions_are_answered_where_the_contents_lead(example: Case) -> None:
    """Two references at most: the contents name the section and its page, and the answer stands in the section."""
    assert len(QUESTIONS) >= 30
    path, read = example[2]["papers"]
    told = sections(path)
    contents = next(page for page in read.pages if "Contents" in page)
    pages = {title: page for level, title, page in read.outline if level == 0}
    for question, (section, words) in QUESTIONS.items():
        assert re.search(rf"{re.escape(section)} {pages[section]}(?!\d)", contents), section
        assert words in told[section], question


def test_cautions_stand_where_they_bear(case: Case) -> None:
    for name, (_, read) in case[2].items():
        for number, page in enumerate(read.pages, start=1):
            assert "design" in page and "official" in page, f"{name}, page {number}"
    assert "licensed engineer" in case[2]["papers"][1].pages[0]
