"""Marks are told apart without colour, in pure black and white and at the size at which they are printed."""

from __future__ import annotations

from io import BytesIO
from itertools import combinations

import pypdfium2
from reportlab.pdfgen.canvas import Canvas

from compliance.documents.elements.outcome_marks import draw_mark
from compliance.documents.page import faces
from compliance.findings import Outcome, Standing
from compliance.report.marks import Mark, mark_of, worst
from tests.documents.buildings import finding

SIZE, DOTS = 6.6, 4  # as in the tables; 4 dots a point are 288 dots an inch, a common office printer


def drawn(mark: Mark) -> list[bool]:
    """The dots of a mark that a printer without greys would set."""
    faces.register_faces()
    file = BytesIO()
    canvas = Canvas(file, pagesize=(SIZE + 2, SIZE + 2), initialFontName=faces.TEXT)
    draw_mark(canvas, mark=mark, x=1, y=1, size=SIZE)
    canvas.save()
    page = pypdfium2.PdfDocument(file.getvalue())[0]
    picture = page.render(scale=DOTS, grayscale=True).to_pil().convert("L")
    return [value < 190 for value in picture.tobytes()]


def test_every_two_marks_differ_in_black_and_white() -> None:
    dots = {mark: drawn(mark) for mark in Mark}
    for one, other in combinations(Mark, 2):
        different = sum(a != b for a, b in zip(dots[one], dots[other], strict=True))
        used = max(sum(dots[one]), sum(dots[other]))
        assert different > 0.25 * used, f"{one.name} and {other.name} look alike"
        assert min(sum(dots[one]), sum(dots[other])) > 10, "a mark is too faint"


def test_every_outcome_has_its_mark_and_a_limit_to_be_confirmed_its_own() -> None:
    marks = [mark_of(finding("rule-1", outcome)) for outcome in Outcome]
    assert marks == [
        Mark.ENGINEER,
        Mark.REVISE,
        Mark.MISSING,
        Mark.CONFIRM,
        Mark.LATER,
        Mark.RESERVED,
        Mark.NOT_APPLICABLE,
    ]
    known = finding("rule-1", Outcome.MEETS)
    for standing, mark in (
        (Standing.CONFIRMED, Mark.MEETS), (Standing.READ, Mark.MEETS), (Standing.REPORTED, Mark.RESERVED),
        (Standing.RECALLED, Mark.RESERVED), (Standing.OPEN, Mark.RESERVED),
    ):  # fmt: skip
        object.__setattr__(known, "standing", standing)
        assert mark_of(known) is mark


def test_the_word_of_a_mark_is_the_verdict_of_its_findings() -> None:
    for outcome in Outcome:
        one = finding("rule-1", outcome)
        assert mark_of(one).value.word == one.verdict


def test_the_worst_of_several() -> None:
    mixed = [finding("rule-1", outcome) for outcome in (Outcome.NOT_APPLICABLE, Outcome.MEETS, Outcome.MISSING)]
    assert worst(mixed) is Mark.MISSING
    assert worst([*mixed, finding("rule-1", Outcome.ENGINEER)]) is Mark.ENGINEER
