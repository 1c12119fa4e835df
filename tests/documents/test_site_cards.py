"""Site cards: two to a sheet, big type, everything needed on each half, long texts run on."""

from __future__ import annotations

import re
import shutil
import subprocess
from pathlib import Path

import pypdfium2
import pytest

from compliance.checking import check_folder
from compliance.documents.inspection.site_cards import write_site_cards
from compliance.report.cautions import SHORT
from tests.conftest import EXAMPLE, Write
from tests.documents.reading_back import fonts_without_file, one_line, overlapping, read_back
from tests.documents.sites import RULES, WALLS, site


def before_any_inspection(folder: Path) -> Path:
    """The example as it was when nothing had been looked at on site."""
    shutil.copytree(EXAMPLE, folder)
    path = folder / "project.yaml"
    text = path.read_text(encoding="utf-8")
    path.write_text(re.sub(r"^inspections:\n(  - .*\n)+", "", text, flags=re.MULTILINE), encoding="utf-8")
    return folder


@pytest.fixture(scope="module")
def cards(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("cards")
    write_site_cards(check_folder(before_any_inspection(folder / "house")), folder / "cards.pdf")
    return folder / "cards.pdf"


def test_two_cards_to_a_sheet_each_with_its_caution(cards: Path) -> None:
    read = read_back(cards)
    for page in read.pages[:-1]:
        assert page.count(one_line(SHORT)) == 3  # both cards and the foot of the page
        assert page.count("HOLD") + page.count("WITNESS") == 2
    for boxes in read.boxes:
        assert not overlapping(boxes)


def test_every_subject_that_waits_has_one_line(cards: Path) -> None:
    text = read_back(cards).text
    made = check_folder(EXAMPLE)
    openings = [f"{wall}.{mark}" for wall, one in made.project.walls.items() for mark in one.openings]
    for mark in openings:
        assert text.count(f"{mark} ") == 1, mark


def test_each_card_has_what_is_required_lines_for_what_is_recorded_and_room_to_correct(cards: Path) -> None:
    """Values as the example describes them; every thing to write down, in the order of the rule."""
    read = read_back(cards)
    text, count = read.text, sum(page.count("At a hold point nobody") for page in read.pages)
    for words in (
        "Required F1: concrete; 24 in wide; 12 in thick; 24 in below grade to its underside; two No. 4, continuous;",
        "Depth as measured Width as measured Soil found Bars Photo with a scale",
        "Required ST1: stone; 20 in thick; 18 in above grade at the lowest; capillary break: bituminous.",
        "Required M1: parts by loose volume 1 S1, 2 S2",
        "wood lintel, 12 in wide; 5.5 in deep; 12 in bearing at each end",
        "bond beam anchors: 0.5 in diameter; 4 ft on center; 2 ft embedment",
        "Required B1: wood; 12 in wide; 6 in deep",
    ):  # fmt: skip
        assert words in text, words
    assert text.count("Correction to make:") == text.count("Inspected again") == count
    assert "…" not in text


def test_a_rubble_trench_is_looked_at_as_one(tmp_path: Path) -> None:
    """No forms, no bars; a concrete footing beside it keeps its own card."""
    folder = before_any_inspection(tmp_path / "house")
    ground = folder / "ground.yaml"
    text = ground.read_text(encoding="utf-8")
    before, mark, after = text.partition("  F1:")
    assert mark and "kind: concrete" in after
    ground.write_text(before + mark + after.replace("kind: concrete", "kind: rubble-trench", 1), encoding="utf-8")
    write_site_cards(check_folder(folder), tmp_path / "cards.pdf")
    page = read_back(tmp_path / "cards.pdf").pages[0]
    assert "A80 · AU106.3" in page
    assert "Required F1: rubble trench; 24 in wide" in page and "clean stone" in page and "Fall of the drain" in page
    assert "forms" not in page and "Bars" not in page and "No. 4" not in page


def test_what_is_looked_at_is_in_type_of_9_points_or_more(cards: Path) -> None:
    document = pypdfium2.PdfDocument(cards)
    text = document[0].get_textpage()
    sizes = {round(one.get_font_size(), 1) for one in document[0].get_objects(filter=[1]) if one.get_font_size() > 0}
    assert "Firm undisturbed soil" in text.get_text_bounded()
    assert max(sizes) >= 14
    document.close()


def test_a_long_text_runs_on_to_further_cards(project: Write, tmp_path: Path) -> None:
    long = " ".join(f"word{number}" for number in range(430))
    rules = RULES.replace("look_at: The face., record: Cracks seen.", f"look_at: {long}, record: {long}.")
    path = tmp_path / "cards.pdf"
    write_site_cards(site(project, rules=rules.replace("say: Last look.", f"say: {long}.")), path)
    read = read_back(path)
    for number in (0, 215, 429):
        assert sum(page.count(f"word{number}") for page in read.pages) == 3
    for boxes in read.boxes:
        assert not overlapping(boxes)
        assert all(bottom >= 18 for _, bottom, _, _ in boxes)


def test_many_walls_make_further_cards(project: Write, tmp_path: Path) -> None:
    walls = WALLS + "".join(
        f"  X{n}: {{run: {{from: [0 ft, {20 + 2 * n} ft], to: [9 ft, {20 + 2 * n} ft]}}, height: 8 ft, "
        "thickness: 16 in, mix: M1, bears_load: yes}\n"
        for n in range(12)
    )
    path = tmp_path / "cards.pdf"
    write_site_cards(site(project, walls=walls), path)
    text = read_back(path).text
    assert "card 5 of 5" in text
    assert all(text.count(f"X{n} ") == 2 for n in range(12))


def test_nothing_left_to_look_at(project: Write, tmp_path: Path) -> None:
    path = tmp_path / "cards.pdf"
    write_site_cards(site(project, rules=RULES[: RULES.index("  - id: see-finish")]), path)
    assert "name no point of inspection that waits" in read_back(path).text


def test_sound_embedded_and_the_same_twice(cards: Path, tmp_path: Path) -> None:
    again = tmp_path / "again.pdf"
    write_site_cards(check_folder(before_any_inspection(tmp_path / "house")), again)
    assert again.read_bytes() == cards.read_bytes()
    assert fonts_without_file(cards) == []
    if shutil.which("qpdf") is None:
        pytest.skip("qpdf is not installed")
    run = subprocess.run(["qpdf", "--check", str(cards)], capture_output=True, text=True, check=False)
    assert run.returncode == 0 and "WARNING" not in run.stdout + run.stderr


def test_a4(project: Write, tmp_path: Path) -> None:
    head = "project: {name: Two walls, date: 2026-05-01, revision: A, paper: a4, units: si}\n"
    head += "jurisdiction: {name: Nowhere, rule_sets: [rules.yaml]}\nsoils: {S1: {name: clay}}\n"
    head += "mixes: {M1: {name: mix, parts: {S1: 1}}}\n"
    path = tmp_path / "cards.pdf"
    write_site_cards(site(project, head=head), path)
    read = read_back(path)
    assert {(round(width), round(height)) for width, height in read.sizes} == {(595, 842)}
    assert read.pages[0].count("HOLD") == 1 and read.pages[0].count("WITNESS") == 1
