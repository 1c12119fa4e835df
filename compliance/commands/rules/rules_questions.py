"""The command `rules questions`."""

from __future__ import annotations

from compliance.commands.common.shared import put


def rules_questions() -> None:
    """Lists the questions that rules answer: the answers of several rule sets to one are laid side by side.

    Example: earthwall rules questions
    """
    from compliance.output.terminal.rule_pages import question_pages
    from compliance.reading.rule_files.question_list import read_questions

    put(question_pages(read_questions().values()))
