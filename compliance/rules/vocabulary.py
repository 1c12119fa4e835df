"""The names a formula may use, with their types: facts by subject, limits and tables of the rule."""

from __future__ import annotations

from functools import cache

from compliance.facts.catalogue import ABOUTS, FACTS, WORD, YES_NO, FactSpec
from compliance.rules.formulas.types import TextType, Type, YesNoType, number_of_kind


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
