"""The value that a blank of the form suggests: one that reads as it stands."""

from __future__ import annotations

import re
from collections.abc import Mapping
from functools import cache
from pathlib import Path
from typing import Any

from compliance.model.base import Described
from compliance.reading.yaml.strict_yaml import read_yaml
from compliance.record import record
from compliance.start.project_files.field_help import example_of, is_yes_or_no, takes, words_of

Tree = dict[str, Any]
_MARK = re.compile(r"<(\w+)>")
_SAMPLES = {
    "soils": "S1", "trials": "P1", "mixes": "M1", "walls": "W1", "stems": "ST1", "footings": "F1", "beams": "B1",
    "attachments": "A1",
}  # fmt: skip
_LIKE = {"aggregates": "soils"}
_NOT_BY_ITSELF = frozenset({
    ("jurisdiction", "state"), ("mixes", "replaces"), ("attachments", "file"), ("attestations", "rule"),
    ("inspections", "rule"), ("comments", "met_in"), *(
        (section, name) for section in ("soils", "aggregates") for name in ("fine_sand", "coarse_sand")
    ),
})  # fmt: skip
"""What no suggestion can get right, or what reads only with another field: a note says what is wanted."""


@record
class BlankValue:
    """`ready`: it reads as it stands. What names a mark that is not described yet, or is known to the user alone, does
    not, nor does what goes only with another field."""

    text: str
    ready: bool


class BlankValues:
    """`tree` is the project so far: it says the units, the day, and which marks there are."""

    def __init__(self, tree: Tree) -> None:
        self._units = tree["project"]["units"]
        self._day = str(tree["project"]["date"])
        self._tree = tree

    def of(self, section: str, model: type[Described], name: str) -> BlankValue:
        listed = _listed().get(f"{section}.{name}", _listed().get(f"{_LIKE.get(section)}.{name}"))
        if listed is None:
            return BlankValue(self._derived(model, name), ready=True)
        text = str(listed[self._units == "si"]) if isinstance(listed, list) else _text(listed)
        missing = [wanted for wanted in _MARK.findall(text) if not self._tree.get(wanted)]
        ready = not missing and (section, name) not in _NOT_BY_ITSELF
        return BlankValue(_MARK.sub(lambda found: self._mark(found[1]), text), ready)

    def _mark(self, section: str) -> str:
        """The first mark of a section, of walls the first without an opening; the sample where there is none."""
        found: Tree = self._tree.get(section) or {}
        plain = [mark for mark, one in found.items() if not one.get("openings")]
        return next(iter([*plain, *found]), _SAMPLES[section])

    def _derived(self, model: type[Described], name: str) -> str:
        if words := words_of(model, name):
            return words[0]
        if "2026-05-14" in takes(model, name, self._units):
            return self._day
        if is_yes_or_no(model, name):
            return "no"
        return example_of(model, name, self._units) or "some words"


def _text(value: object) -> str:
    """A value of the list as it is written: yes and no stay words."""
    if isinstance(value, bool):
        return "yes" if value else "no"
    return f"{value:g}" if isinstance(value, float) else str(value)


@cache
def _listed() -> Mapping[str, Any]:
    return read_yaml(Path(__file__).with_name("blanks.yaml"), "blanks.yaml")
