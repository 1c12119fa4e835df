"""The command `rules packs`."""

from __future__ import annotations

from compliance.commands.common.shared import put


def rules_packs() -> None:
    """Lists the rule sets that go together, by place and material, in the order to adopt them.

    Example: earthwall rules packs
    """
    from compliance.output.terminal.rule_pages import pack_list
    from compliance.reading.reference_files.packs_reference import read_packs

    put(pack_list(read_packs()))
