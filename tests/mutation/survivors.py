"""The changes that no test notices, as listed with their reasons in `survivors.yaml`."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from functools import cache
from pathlib import Path

import yaml

from tests.mutation.changing import Mutant, mutants
from tests.mutation.reached import path_of

LISTED = Path(__file__).with_name("survivors.yaml")
ANY_NUMBER = "module: any number"
_SHORTEST_REASON = 30


@cache
def survivors() -> dict[str, dict[str, list[str]]]:
    """By module and reason, each change as `Mutant.says` puts it."""
    listed: dict[str, dict[str, list[str]]] = yaml.safe_load(LISTED.read_text("utf-8"))
    return listed


def explained(module: str, mutant: Mutant) -> bool:
    listed = {says for changes in survivors().get(module, {}).values() for says in changes}
    return mutant.says in listed or (ANY_NUMBER in listed and not mutant.function and is_number(mutant.before))


def stale(module: str, reasons: Mapping[str, Sequence[str]] | None = None) -> list[str]:
    """What is wrong with the survivors listed for a module: not a change of its code as it is, listed twice, or given
    without a reason. `reasons` stands in for its entry in `survivors.yaml`."""
    listed_by_reason = survivors().get(module, {}) if reasons is None else reasons
    if not listed_by_reason:
        return []
    offered = {one.says for one in mutants(path_of(module).read_text("utf-8"))} | {ANY_NUMBER}
    listed = [one for changes in listed_by_reason.values() for one in changes]
    return [
        *(f"{module}: not a change of this module: {one}" for one in listed if one not in offered),
        *(f"{module}: listed twice: {one}" for one in dict.fromkeys(listed) if listed.count(one) > 1),
        *(f"{module}: a reason that says too little: {one}" for one in listed_by_reason if len(one) < _SHORTEST_REASON),
    ]


def is_number(text: str) -> bool:
    try:
        float(text)
    except ValueError:
        return False
    return True
