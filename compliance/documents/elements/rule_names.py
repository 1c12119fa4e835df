"""How a rule is named in a table: its title or its short code, and the clause below."""

from __future__ import annotations

from compliance.documents.elements import theme
from compliance.documents.page.line_breaking import Part, Words
from compliance.documents.page.rows import Cell
from compliance.report.by_rule import RuleFindings


def title_and_clause(group: RuleFindings) -> Cell:
    return Cell((Words(group.first.title, theme.CELL), Words(group.first.clause, theme.CELL_SMALL)))


def code_and_clause(group: RuleFindings) -> tuple[Part, ...]:
    return Words(group.code, theme.CELL_BOLD), Words(group.first.clause, theme.CELL_SMALL)
