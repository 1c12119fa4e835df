"""How the calculations begin: whose they are, what they rest on, what they were made with, and how to find a check."""

from __future__ import annotations

from typing import Any

from compliance.checked import Checked
from compliance.documents.elements import theme
from compliance.documents.elements.section_titles import title
from compliance.documents.page.document_head import VERSION
from compliance.documents.page.line_breaking import Words
from compliance.documents.page.rows import Column, Row, cell, full_row
from compliance.documents.page.sheet import Sheet
from compliance.documents.papers.cover import part_index
from compliance.report.cautions import SHORT

_INTRODUCTION = (
    "What an engineer checks: wall sheets, every rule's calculation, tests in full, limits with their sources, guides "
    "and practice, attachments. The papers of the same revision hold the answer, and the drawings what was described."
)
_COMBINATIONS = (
    "Loads are combined at the allowable-stress level (ASD): dead with live, snow or drainage water; 0.6 dead with "
    "wind or 0.7 earthquake where uplift or overturning governs. Each calculation prints the combination it uses, and "
    "every coefficient taken with its source and standing."
)


def calculations_front(checked: Checked, alone: bool = True) -> list[Any]:
    """The first page; `alone`: as a document of its own, with the index of the parts."""
    project, people = checked.project.project, checked.project.people
    lead = title("basis", "Basis of the calculations", _INTRODUCTION, _COMBINATIONS)
    engineer = people.engineer.name if people.engineer else "none named"
    rows = [
        Row((cell(label, theme.LABEL), cell(text)), air=(1.4, 1.6))
        for label, text in (
            ("Project", f"{project.name}, revision {project.revision}, {project.date.isoformat()}"),
            ("Address", project.address or "not given"),
            ("Prepared from", f"input with the fingerprint {checked.fingerprint}"),
            ("Program", f"earthwall {VERSION}, rule sets and coefficients as named in each calculation"),
            ("Engineer", engineer),
            ("Checked by", "name, license, date and seal, where an engineer adopts a calculation:"),
        )
    ]
    caution = full_row(Words(SHORT, theme.BODY_BOLD), air=(0.0, 4.0))
    story: list[Any] = [Sheet((Column(84), Column(share=1)), rows, lead=[*lead, caution], below=8)]
    return [*story, *([part_index("calculations")] if alone else [])]
