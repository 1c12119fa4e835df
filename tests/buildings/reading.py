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
    based_on: str = ""
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
        sections=build_sections(full),
        sets=tuple(full["sets"]),
        tested=_without_nulls(full["tested"]),
        danger=text.get("danger", ""),
        item=str(text.get("item", "")),
        based_on=text.get("based_on", ""),
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
    return Sought(
        kinds[0],
        name=text[kinds[0]],
        about=str(text.get("about", "")),
        outcomes=outcomes,
        proposed=bool(text.get("proposed", False)),
    )


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
    """Mappings key by key, `above` first; anything else of `above` stands in place of what is below, null too.

    Of a wall's `run` and `arc`, and of its ways to say thickness, what is said above drops the others.
    """
    made = copy.deepcopy(dict(below))
    for key, value in above.items():
        for other in _INSTEAD.get(key, ()):
            made.pop(other, None)
        if isinstance(value, Mapping) and isinstance(made.get(key), Mapping):
            made[key] = merge(made[key], value)
        else:
            made[key] = copy.deepcopy(value)
    return made


_INSTEAD = {
    "run": ("arc",), "arc": ("run",), "thickness": ("thickness_base", "thickness_top"),
    "thickness_base": ("thickness",), "thickness_top": ("thickness",),
}  # fmt: skip


def build_sections(full: Mapping[str, Any]) -> dict[str, Any]:
    """The sections of the project.

    A wall takes what it does not say from its type and, through it, from `outer`, an opening and a roof from what
    stands in the defaults. A roof that bears on a wall named alone bears on its middle.
    """
    made: dict[str, Any] = {key: copy.deepcopy(value) for key, value in full.items() if key not in OWN_KEYS}
    types = made["wall_types"]
    types |= {mark: merge(types["outer"], build) for mark, build in types.items() if mark != "outer"}
    made["walls"] = {
        mark: _wall(merge(full["wall"], wall), types, full["opening"]) for mark, wall in made["walls"].items() if wall
    }
    used = {wall.get("type") for wall in made["walls"].values()}
    made["wall_types"] = {mark: build for mark, build in types.items() if mark in used}
    made["roofs"] = {mark: _roof(merge(full["roof"], roof)) for mark, roof in made.get("roofs", {}).items() if roof}
    made["jurisdiction"]["rule_sets"] = list(full["sets"])
    plain: dict[str, Any] = _without_nulls(made)
    return plain


def _wall(wall: dict[str, Any], types: Mapping[str, Any], opening: Mapping[str, Any]) -> dict[str, Any]:
    """A wall that takes something of its type away carries the rest of it itself."""
    openings = wall.get("openings") or {}
    wall["openings"] = {mark: _opening(one, opening) for mark, one in openings.items() if one}
    thick = {"thickness", "thickness_base", "thickness_top"}
    if any(value is None for value in wall.values()) or thick & set(wall):
        build = types[wall.pop("type")]
        return merge({key: value for key, value in build.items() if not (thick & set(wall) and key in thick)}, wall)
    return wall


def _opening(opening: dict[str, Any], usual: Mapping[str, Any]) -> dict[str, Any]:
    """A lintel that names its material has nothing of the usual one."""
    made = merge(usual, opening)
    if "material" in (opening.get("lintel") or {}):
        made["lintel"] = opening["lintel"]
    return made


def _roof(roof: dict[str, Any]) -> dict[str, Any]:
    bears = [{"wall": one, "eccentricity": "0 in"} if isinstance(one, str) else one for one in roof["bears_on"]]
    return {**roof, "bears_on": bears}


def _without_nulls(value: Any) -> Any:
    if isinstance(value, Mapping):
        return {key: _without_nulls(one) for key, one in value.items() if one is not None}
    if isinstance(value, list):
        return [_without_nulls(one) for one in value]
    return value
