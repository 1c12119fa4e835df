"""The reference data of loads, read once for all projects of a run, and only when a rule asks for a load."""

from __future__ import annotations

from functools import cache
from typing import TYPE_CHECKING

from compliance.reading.reference_files.support_rules import read_reference

if TYPE_CHECKING:
    from compliance.facts.site.action_tables import ActionTables


@cache
def read_action_tables(system: str) -> ActionTables:
    """For projects in `system`, "us" or "si". Raises ProblemsFound for a reference that cannot be read,
    ReferenceValueError for one that lacks a value."""
    from compliance.facts.site.action_tables import ACTION_REFERENCES, ActionTables

    return ActionTables.from_values({name: read_reference(name)["values"] for name in ACTION_REFERENCES}, system)
