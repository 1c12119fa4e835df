"""A building of forty walls with thirty attachments and names that will not end, read from its folder."""

from __future__ import annotations

from pathlib import Path

import pytest
from PIL import Image

from compliance.checked import Checked
from compliance.checking import check_folder
from compliance.commands.common.attachment_binding import read_attachments
from compliance.documents.submittal.bundle import write_submittal
from tests.benchmarks.rows_of_rooms import write_rooms
from tests.documents.findings_told import in_checklist, in_json
from tests.documents.pages_looked_at import filled, headings_alone
from tests.documents.reading_back import Read, overlapping, read_back
from tests.documents.test_reading_order import links
from tests.documents.test_submittal import within_margins

WALLS, PAPERS = 40, 30
NAME = "Zoë Müller-Łukasz and her neighbours' uncommonly long row of rooms beside the old mill race " * 2
WORD = "Treading-the-mix-on-the-tarpaulin" * 6

Case = tuple[Path, Read, Checked]


@pytest.fixture(scope="module")
def crowded(tmp_path_factory: pytest.TempPathFactory) -> Case:
    folder = tmp_path_factory.mktemp("crowded") / "rooms"
    write_rooms(folder, WALLS)
    file = folder / "project.yaml"
    text = file.read_text(encoding="utf-8").replace("{name: Rooms,", f'{{name: "{NAME.strip()}",')
    text += "attachments:\n"
    for number in range(PAPERS):
        Image.new("RGB", (40 + 20 * number, 600 - 18 * number), (150, 100 + number, 60)).save(folder / f"p{number}.png")
        title = WORD if number % 3 else f"Picture {number}"
        text += f'  p{number}: {{file: p{number}.png, title: "{title}", date: 2026-01-01}}\n'
    file.write_text(text, encoding="utf-8")
    made, path = check_folder(folder), folder / "s.pdf"
    write_submittal(made, path, bound=read_attachments(folder, made.project))
    return path, read_back(path), made


def test_every_finding_of_the_adopted_code_is_counted_once_in_the_checklist(crowded: Case) -> None:
    _, read, made = crowded
    told, wanted = in_checklist(read, made), in_json(made)
    assert told == wanted, (told - wanted, wanted - told)
    assert len(made.findings) > sum(wanted.values()) > 40 * 30


def test_nothing_runs_out_of_its_margins_or_over_other_text(crowded: Case) -> None:
    within_margins(crowded[1])


def test_pages_are_filled_and_headings_stand_with_their_text(crowded: Case) -> None:
    """Where the answer or a drawing wants a page of its own, the page before may end early; pictures that are attached
    are never cut, so that their pages may be short too."""
    path, read, _ = crowded
    assert headings_alone(path) == []
    starts = {title: page for _, title, page in read.outline}
    early = {starts[title] - 1 for title in ("The answer on one page", "Drawings", "From the pit to the wall")}
    early |= set(range(starts["Attachments"], len(read.pages) + 1))
    empty = [number for number, share in enumerate(filled(path), start=1) if share < 0.5 and number not in early]
    assert not empty, f"mostly empty: {empty}"


def test_from_the_contents_each_wall_is_one_link_away(crowded: Case) -> None:
    path, read, made = crowded
    first = next(page for _, title, page in read.outline if title == "Contents")
    found = {one.text.split(",")[0]: one.target for one in links(path, range(first, first + 4)) if ", p. " in one.text}
    for wall in made.project.walls:
        page = found[wall]
        text = " ".join(read.pages[page - 1 : page + 1])
        own = text[text.index(f"{wall} 20 ft long" if f"{wall} 20 ft long" in text else wall) :]
        assert own.index("Check met") < own.index("Items") < own.index("Site")


def test_each_attachment_is_bound_in_under_its_title(crowded: Case) -> None:
    _, read, _ = crowded
    titles = [title for _, title, _ in read.outline]
    assert sum(title == WORD for title in titles) == sum(number % 3 > 0 for number in range(PAPERS))
    assert sum(title.startswith("Picture ") for title in titles) == PAPERS - sum(n % 3 > 0 for n in range(PAPERS))


def test_nothing_lies_over_anything_on_the_pages_of_attachments(crowded: Case) -> None:
    _, read, _ = crowded
    start = next(page for _, title, page in read.outline if title == "Attachments")
    assert not any(overlapping(boxes) for boxes in read.boxes[start - 1 :])
