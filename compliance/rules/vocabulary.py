"""The names a formula may use, with their types: facts by subject, limits and tables of the rule."""

from __future__ import annotations

from collections.abc import Iterable
from difflib import get_close_matches
from functools import cache

from compliance.facts.catalogue import ABOUTS, FACTS, WORD, YES_NO, FactSpec
from compliance.rules.formulas.types import TextType, Type, YesNoType, number_of_kind

_PROPOSED: dict[str, tuple[str, ...]] = {
    "wall.thickness": ("wall.least_thickness", "wall.base_thickness"),
    "wall.width": ("wall.least_thickness", "wall.base_thickness"),
    "wall.slenderness": ("wall.height_to_thickness",),
}
"""Names that rule authors write for one of several facts, with those that are safe to compare a limit with."""
_FLATTERING = ("mean", "upper")
"""Words of facts that make a wall look better than its thinnest part: never proposed to who did not write them."""


def known_instead(name: str, known: Iterable[str]) -> str:
    """What to write for the unknown `name`, each fact with what it is; empty where nothing is like it."""
    near = list(_PROPOSED.get(name, ()))
    if not near:
        words = name.replace(".", "_").split("_")
        left_out = [word for word in _FLATTERING if not get_close_matches(word, words, cutoff=0.75)]
        near = get_close_matches(name, [one for one in known if not set(left_out) & set(one.split(".")[-1].split("_"))])
        near = near[:1]
    if not near:
        return ""
    if len(near) == 1 and near[0] not in FACTS:
        return f"did you mean {near[0]}?"
    called = " or ".join(f"{one} ({FACTS[one].label})" for one in near)
    return f"write {called}" if len(near) > 1 else f"did you mean {called}?"


def type_of(spec: FactSpec) -> Type:
    """The type of a fact in a formula."""
    if spec.kind == YES_NO:
        return YesNoType()
    if spec.kind == WORD:
        return TextType(spec.choices or None)
    return number_of_kind(spec.kind)


@cache
def facts_for(about: str) -> dict[str, Type]:
    """Every fact a rule about `about` may use: its subject's own and those of the subjects it looks to."""
    types: dict[str, Type] = {}
    for one in (about, *ABOUTS[about]):
        types |= _own(one)
    return types


@cache
def _own(about: str) -> dict[str, Type]:
    return {spec.name: type_of(spec) for spec in _by_about().get(about, ())}


@cache
def _by_about() -> dict[str, list[FactSpec]]:
    specs: dict[str, list[FactSpec]] = {}
    for spec in FACTS.values():
        specs.setdefault(spec.about, []).append(spec)
    return specs
