"""The changes that no test notices, as listed with their reasons in `survivors.yaml`."""

from __future__ import annotations

from functools import cache
from pathlib import Path

import yaml

from tests.mutation.changing import Mutant

LISTED = Path(__file__).with_name("survivors.yaml")
ANY_NUMBER = "module: any number"


@cache
def survivors() -> dict[str, dict[str, list[str]]]:
    """By module and reason, each change as `Mutant.says` puts it."""
    listed: dict[str, dict[str, list[str]]] = yaml.safe_load(LISTED.read_text("utf-8"))
    return listed


def explained(module: str, mutant: Mutant) -> bool:
    listed = {says for changes in survivors().get(module, {}).values() for says in changes}
    return mutant.says in listed or (ANY_NUMBER in listed and not mutant.function and is_number(mutant.before))


def is_number(text: str) -> bool:
    try:
        float(text)
    except ValueError:
        return False
    return True
