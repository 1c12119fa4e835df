"""The stages of a project in a table: what is still due at each, and what comes later."""

from __future__ import annotations

import textwrap

from compliance.checked import Checked
from compliance.report.answer.answer import answer
from compliance.report.summaries.stage_outcomes import outcomes_at
from compliance.report.words.answer_words import answer_sentence, stage_words
from compliance.stages import Stage


def stage_table(checked: Checked, width: int) -> str:
    """A line for each stage that any finding is due at, the one where the project stands marked."""
    lines = [*textwrap.wrap(answer_sentence(answer(checked), len(checked.findings)), width), ""]
    for stage in Stage:
        outcomes = outcomes_at(checked, stage)
        if outcomes or stage is checked.reached.stage:
            mark = ">" if stage is checked.reached.stage else " "
            lines.append(f"{mark} {stage.words:<16} {outcomes or 'nothing'}")
    return "\n".join([*lines, "", *textwrap.wrap(stage_words(answer(checked)), width)]) + "\n"
