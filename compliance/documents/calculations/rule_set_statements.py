"""What each rule set says of itself: its scope, how to verify it, its notes, and which of its rules were silent."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import PurePath
from typing import Any

from compliance.documents.elements import theme
from compliance.documents.elements.section_titles import on_this_page, part, title
from compliance.documents.page.line_breaking import Words
from compliance.documents.page.rows import Cell, Column, Row, cell
from compliance.documents.page.sheet import Sheet
from compliance.report.by_rule import SetFindings

_FINGERPRINT = "{} (SHA-256, its first figures): tells whether a copy of the rule set is the one used here"


def statements(sets: tuple[SetFindings, ...], digests: Mapping[str, str]) -> list[Any]:
    """`digests` are those of the input files by name; a rule set is told by its title and edition, not by its file."""
    story = on_this_page()
    lead = title("rule-sets", "The rule sets in their own words")
    for one in sets:
        rules = one.rule_set
        digest = digests.get(PurePath(rules.file).name, digests.get(rules.file, ""))
        phrases = [
            ("Edition", rules.edition),
            ("Status", rules.status),
            ("Jurisdiction", rules.jurisdiction),
            ("Material", rules.material),
            ("Covers", f"types of earth construction: {rules.forms_in_words}"),
            ("Source", rules.source),
            ("Scope", rules.scope),
            ("To verify", rules.verify),
            *(("Note", note) for note in rules.notes),
            ("Fingerprint", _FINGERPRINT.format(digest[:12]) if digest else ""),
            ("Without a subject here", ", ".join(one.silent)),
        ]
        rows = [
            Row((cell(label, theme.LABEL), Cell((Words(text, theme.SMALL),))), air=(1.2, 1.6))
            for label, text in phrases
            if text
        ]
        lead += part(f"rule-set-{one.letter}", one.heading)
        story.append(Sheet((Column(100), Column(share=1)), rows, lead=lead, below=12))
        lead = []
    return story
