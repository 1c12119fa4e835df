"""Field sheets and the report of the earth alone: what stands on them, and that they hold as papers do."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from compliance.checking import check_folder
from compliance.documents.earth.earth_report import write_earth_report
from compliance.documents.sheets.field_sheets import TOPICS, write_field_sheets
from compliance.facts.soil.fractions import duration
from compliance.facts.soil.settling import reading_schedule
from compliance.reading.reference_files.material_practice import read_material_practice
from tests.documents.pages_looked_at import headings_alone
from tests.documents.reading_back import fonts_without_file, overlapping, read_back

PROJECT = """\
project: {name: Field Day, date: 2026-05-14}
soils:
  S1:
    {name: pit clay, depth: 3 ft, organic: no,
     jar: {sand: 1 1/2 in, silt: 2 1/2 in, clay: 4 1/8 in, floating: 1/8 in}}
  S2: {name: bank clay, jar: {depth: 10 in, temperature: 50 degF, sand: 1 in, silt: 3 1/4 in, clay: 3 3/4 in}}
  S3: {name: river sand, material: sand}
trials:
  P1: {parts: {S1: 1, S3: 1}, largest_piece: 45 %, pieces: 6}
  P2: {parts: {S1: 1, S3: 2}, largest_piece: 95 %, pieces: 2}
  P3: {parts: {S1: 1, S3: 3}, largest_piece: 30 %, pieces: 9}
  P4: {parts: {S1: 2, S3: 3}, made: 2026-05-01}
mixes: {M1: {name: Wall mix, parts: {S1: 1, S3: 2}, trial: P2, straw: wheat, straw_parts: 0.6}}
test_sets: {T1: {kind: compression, mix: M1}, T2: {kind: shrinkage, mix: M1}}
"""


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    (tmp_path / "project.yaml").write_text(PROJECT, encoding="utf-8")
    return tmp_path


def test_each_topic_begins_a_page_in_the_order_of_the_work(folder: Path) -> None:
    target = folder / "sheets.pdf"
    write_field_sheets(check_folder(folder), target)
    read = read_back(target)
    heads = ("Soil dug", "Soil dug", "Soil dug", "Jars", "Trial bricks", "Batches", "Shrinkage bars", "Compression")
    assert len(read.pages) == len(heads)  # two soils without field tests, and a blank
    for head, page in zip(heads, read.pages, strict=True):
        assert head in page
    assert fonts_without_file(target) == [] and headings_alone(target) == []
    assert not any(overlapping(boxes) for boxes in read.boxes)


def test_jars_say_when_to_mark_them_for_their_depth_and_temperature(folder: Path) -> None:
    """By Stokes' law, which tests/published/test_stokes_settling.py holds against published times: S2 at 10 in and
    50 °F; S1, of which neither is recorded, at the usual 8 in and 68 °F."""
    practice = read_material_practice()
    write_field_sheets(check_folder(folder), folder / "jars.pdf", ["jars"])
    (page,) = read_back(folder / "jars.pdf").pages
    for depth, kelvin in ((8 * 0.0254, 293.15), (10 * 0.0254, 283.15)):
        times = [one.time for one in reading_schedule(practice.settling, practice.sizes, depth, kelvin).readings]
        for time in times[:2]:
            assert time is not None and duration(time) in page
    assert "10 in, 50 °F" in page and "when clear" in page


def test_known_bricks_batches_and_specimens_stand_on_their_sheets(folder: Path) -> None:
    write_field_sheets(check_folder(folder), folder / "known.pdf", ["trials", "batches", "specimens"])
    trials, batches, specimens = read_back(folder / "known.pdf").pages
    assert "P4" in trials and "2 S1 : 3 S3" in trials and "1 S1 : 2.5 S3" in trials and "P1" not in trials
    assert "2.5 of S1, 5 of S3, straw 1.5" in batches
    assert specimens.count("T1") == 3


def test_a_folder_with_one_soil_gives_every_sheet(tmp_path: Path) -> None:
    text = "project: {name: Class, date: 2026-05-14, units: si, paper: a4}\nsoils: {S1: {name: clay}}\n"
    (tmp_path / "project.yaml").write_text(text, encoding="utf-8")
    write_field_sheets(check_folder(tmp_path), tmp_path / "sheets.pdf")
    assert len(read_back(tmp_path / "sheets.pdf").pages) == len(TOPICS) + 1


def test_the_report_of_the_earth_says_nothing_of_a_building(folder: Path) -> None:
    target = folder / "earth.pdf"
    write_earth_report(check_folder(folder), target)
    read = read_back(target)
    text = " ".join(read.text.split())
    assert "No walls are described" in text and "the best brick is P2" in text and "Do not use" not in text
    assert "S1 pit clay: do not use" in text  # a layer floats in its jar
    for word in ("soils:", "trials:", "straw_parts", "jurisdiction:", ".yaml", "earthwall "):
        assert word not in text
    assert not re.search(r"\bmeets\b(?! a rule)", text)
    assert fonts_without_file(target) == [] and not any(overlapping(boxes) for boxes in read.boxes)
