"""The stages of a project in a table: what is still due at each, and what comes later."""

from __future__ import annotations

import textwrap

from compliance.checked import Checked
from compliance.findings import Outcome
from compliance.report.answer.answer import answer
from compliance.report.words.answer_words import answer_sentence, stage_words
from compliance.stages import Stage

_OPEN = (Outcome.ENGINEER, Outcome.REVISE, Outcome.MISSING, Outcome.CONFIRM)


def stage_table(checked: Checked, width: int) -> str:
    """A line for each stage that any finding is due at, the one where the project stands marked."""
    lines = [*textwrap.wrap(answer_sentence(answer(checked), len(checked.findings)), width), ""]
    for stage in Stage:
        counts = {
            outcome: sum(one.stage is stage and one.outcome is outcome for one in checked.findings)
            for outcome in (*_OPEN, Outcome.LATER, Outcome.MEETS)
        }
        outcomes = ", ".join(f"{count} {outcome.words}" for outcome, count in counts.items() if count)
        if outcomes or stage is checked.reached.stage:
            mark = ">" if stage is checked.reached.stage else " "
            lines.append(f"{mark} {stage.words:<16} {outcomes or 'nothing'}")
    return "\n".join([*lines, "", *textwrap.wrap(stage_words(answer(checked)), width)]) + "\n"
