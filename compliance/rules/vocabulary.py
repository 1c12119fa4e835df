"""The names a formula may use, with their types: facts by subject, limits and tables of the rule."""

from __future__ import annotations

from functools import cache

from compliance.facts.catalogue import ABOUTS, FACTS, WORD, YES_NO, FactSpec
from compliance.rules.formula_types import TextType, Type, YesNoType, number_of_kind


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
    allowed = (about, *ABOUTS[about])
    return {name: type_of(spec) for name, spec in FACTS.items() if spec.about in allowed}
