"""The check of a project without walls as text for the terminal: the answer, what it rests on, what to do next."""

from __future__ import annotations

import textwrap

from compliance.checked import Checked
from compliance.findings import Finding, Lack, Outcome
from compliance.output.terminal.check_table import check_table
from compliance.output.terminal.hanging_indent import heading, hung
from compliance.record import replace
from compliance.report.earth.earth_answer import NO_BUILDING, earth_answer
from compliance.report.value_words import counted


def earth_check(checked: Checked, width: int, all_lines: bool = False) -> str:
    """The whole check of a project without walls."""
    return earth_screen(checked, width) + by_rules(checked, width, all_lines)


def earth_screen(checked: Checked, width: int) -> str:
    """The answer first; findings of adopted rule sets about soils, mixes and sets stand in the check's own lists."""
    answer = earth_answer(checked)
    lines = [checked.project.project.name, ""]
    lines += textwrap.wrap(answer.sentence, width)
    lines += textwrap.wrap(NO_BUILDING, width)
    for section in answer.sections:
        lines += ["", *heading(section.title, width)]
        for line in section.lines:
            lines += hung(line.head, width, 2, 6)
            lines += [part for says in line.says for part in hung(says, width, 6, 6)]
        lines += [part for remark in section.remarks for part in hung(remark, width, 2, 2)]
    lines += ["", *heading("Next", width)]
    for number, step in enumerate(answer.steps, 1):
        lines += hung(f"{number}. {step.says}", width, 2, 5)
        lines += hung(f"write: {step.write}", width, 5, 12) if step.write else []
    return "\n".join(lines) + "\n"


def by_rules(checked: Checked, width: int, all_lines: bool) -> str:
    """What the adopted rule sets say of soils, mixes and sets; empty where they say nothing. Findings that only wait
    for walls are counted in one line."""
    waiting = [one for one in checked.findings if _waits_for_walls(one)]
    left = tuple(one for one in checked.findings if not _waits_for_walls(one))
    if not waiting and all(one.outcome is Outcome.NOT_APPLICABLE for one in left):
        return ""
    table = check_table(replace(checked, findings=left), width, all_lines)
    more = f"{counted(len(waiting), 'more rule')} about mixes: judged once walls of them are described."
    return "\n" + table + ("\n".join(textwrap.wrap(more, width)) + "\n" if waiting else "")


def _waits_for_walls(finding: Finding) -> bool:
    return {(one.kind, one.parts) for one in finding.missing} == {(Lack.FIELD, ("walls",))}
