"""The files of the corpus, each read into a building: what it is made of, and what must be found in it."""

from __future__ import annotations

import copy
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from functools import cache
from pathlib import Path
from typing import Any

import yaml

HERE = Path(__file__).parent
KINDS = ("sound", "dangerous")
VARIANTS = ("half", "twice")
OWN_KEYS = {
    "why", "based_on", "assumed", "danger", "must_find", "explained", "milder_than", "half", "twice", "sets", "tested",
    "opening", "wall", "roof", "item",
}  # fmt: skip
"""Keys of a building's file that are no section of a project."""


@dataclass(frozen=True)
class Sought:
    """What must be found: `rule` as SET/RULE, or the code of a problem or of a warning.

    `about` names the subject, any where it is empty. `proposed` marks what no rule says yet.
    """

    kind: str
    name: str
    about: str
    outcomes: tuple[str, ...]
    proposed: bool

    def __str__(self) -> str:
        kind = "" if self.kind == "rule" else f"{self.kind} "
        about = f" {self.about}" if self.about else ""
        outcomes = f" {' or '.join(self.outcomes)}" if self.outcomes else ""
        return f"{kind}{self.name}{about}{outcomes}{' (proposed)' if self.proposed else ''}"


@dataclass(frozen=True)
class Building:
    """`sections` are those of a project, complete. `expect` says of a dangerous building, half or twice as bad, whether
    its danger is still there (`found`) or no more (`silent`). `explained` gives a reason for each rule that rightly
    calls for an engineer on a sound one, `milder_than` the buildings that must come off worse, and by which rule."""

    mark: str
    why: str
    sections: Mapping[str, Any]
    sets: tuple[str, ...]
    tested: Mapping[str, Mapping[str, Any]]
    danger: str = ""
    item: str = ""
    must_find: tuple[Sought, ...] = ()
    expect: str = "found"
    explained: Mapping[str, str] = field(default_factory=dict)
    milder_than: Mapping[str, str] = field(default_factory=dict)

    @property
    def sound(self) -> bool:
        return self.mark.startswith("sound/")


class CorpusError(ValueError):
    """A file of the corpus that does not say what it must."""


def list_buildings(kind: str) -> Iterator[Building]:
    """The buildings of a kind by name, each followed by its variants of half and twice the severity."""
    for path in sorted((HERE / kind).glob("*.yaml")):
        yield from read_building(f"{kind}/{path.stem}")


def read_building(mark: str) -> Iterator[Building]:
    """A building of the corpus and its variants. Raises CorpusError where its file lacks what it must have."""
    text = read_text(mark)
    for key in ("why",) if mark.startswith("sound/") else ("why", "danger", "item", "must_find"):
        if not text.get(key):
            raise CorpusError(f"{mark}: no {key}")
    full = complete(mark)
    yield _building(mark, full, text)
    for variant in VARIANTS:
        if variant in text:
            changed = text[variant]
            if set(changed) != {"expect", "change"} or changed["expect"] not in ("found", "silent"):
                raise CorpusError(f"{mark}: {variant} takes expect (found or silent) and change")
            yield _building(f"{mark}@{variant}", merge(full, changed["change"]), text, changed["expect"])


def _building(mark: str, full: Mapping[str, Any], text: Mapping[str, Any], expect: str = "found") -> Building:
    return Building(
        mark=mark,
        why=text["why"],
        sections=_sections(full),
        sets=tuple(full["sets"]),
        tested=full["tested"],
        danger=text.get("danger", ""),
        item=str(text.get("item", "")),
        must_find=tuple(_sought(one, mark) for one in text.get("must_find", ())),
        expect=expect,
        explained=text.get("explained", {}) if "@" not in mark else {},
        milder_than=text.get("milder_than", {}) if "@" not in mark else {},
    )


def _sought(text: Mapping[str, Any], mark: str) -> Sought:
    kinds = [kind for kind in ("rule", "problem", "warning") if kind in text]
    if len(kinds) != 1 or set(text) - {"rule", "problem", "warning", "about", "outcome", "proposed"}:
        raise CorpusError(f"{mark}: each of must_find names a rule, a problem or a warning")
    outcome = text.get("outcome", ())
    outcomes = (outcome,) if isinstance(outcome, str) else tuple(outcome)
    if (kinds[0] == "rule") != bool(outcomes):
        raise CorpusError(f"{mark}: a rule has an outcome, a problem or warning has none")
    return Sought(kinds[0], text[kinds[0]], str(text.get("about", "")), outcomes, bool(text.get("proposed", False)))


@cache
def read_text(mark: str) -> dict[str, Any]:
    """The file of a building as it stands."""
    read: dict[str, Any] = yaml.safe_load((HERE / f"{mark}.yaml").read_text(encoding="utf-8"))
    return read


def complete(mark: str) -> dict[str, Any]:
    """A building's file laid over the one it is based on, and so on down to the defaults."""
    text = read_text(mark)
    below = complete(text["based_on"]) if "based_on" in text else read_text("defaults")
    return merge(below, {key: value for key, value in text.items() if key not in _ABOUT_IT})


_ABOUT_IT = OWN_KEYS - {"sets", "tested", "opening", "wall", "roof"}


def merge(below: Mapping[str, Any], above: Mapping[str, Any]) -> dict[str, Any]:
    """Mappings key by key, `above` first; anything else of `above` stands in place of what is below, null takes away.

    Of a wall's `run` and `arc`, and of its ways to say thickness, what is said above drops the others.
    """
    made = copy.deepcopy(dict(below))
    for key, value in above.items():
        for other in _INSTEAD.get(key, ()):
            made.pop(other, None)
        if isinstance(value, Mapping) and isinstance(made.get(key), Mapping):
            made[key] = merge(made[key], value)
        elif value is None:
            made.pop(key, None)
        else:
            made[key] = copy.deepcopy(value)
    return made


_INSTEAD = {
    "run": ("arc",), "arc": ("run",), "thickness": ("thickness_base", "thickness_top"),
    "thickness_base": ("thickness",), "thickness_top": ("thickness",),
}  # fmt: skip


def _sections(full: Mapping[str, Any]) -> dict[str, Any]:
    """The sections of the project. A wall takes what it does not say from its type and, through it, from `outer`, an
    opening from the corpus's own."""
    made = {key: copy.deepcopy(value) for key, value in full.items() if key not in OWN_KEYS}
    outer = made["wall_types"]["outer"]
    made["wall_types"] = {
        mark: merge(outer, build) if mark != "outer" else build for mark, build in made["wall_types"].items()
    }
    for wall in made["walls"].values():
        for key, value in full["wall"].items():
            wall.setdefault(key, value)
        for mark, opening in wall.get("openings", {}).items():
            wall["openings"][mark] = merge(full["opening"], opening)
    for mark, roof in made.get("roofs", {}).items():
        made["roofs"][mark] = full_roof = merge(full["roof"], roof)
        full_roof["bears_on"] = [
            {"wall": one, "eccentricity": "0 in"} if isinstance(one, str) else one for one in full_roof["bears_on"]
        ]
    used = {wall["type"] for wall in made["walls"].values()}
    made["wall_types"] = {mark: build for mark, build in made["wall_types"].items() if mark in used}
    made["jurisdiction"]["rule_sets"] = list(full["sets"])
    return made
