"""The command `rules list`."""

from __future__ import annotations

from compliance.commands.common.rule_source import read_source
from compliance.commands.common.shared import put


def rules_list() -> None:
    """Lists the shipped rule sets by what they are: code, standard, guide or practice.

    Example: earthwall rules list
    """
    from compliance.output.terminal.rule_pages import set_list
    from compliance.reading.rule_files.rule_library import shipped_rule_sets

    sets = [read_source(name) for name in shipped_rule_sets()]
    put(set_list(sets))
