"""Limits taken from another rule set, and figures of practice that give way to an adopted code."""

from __future__ import annotations

import dataclasses

import pytest

from compliance.findings import Amended, Standing
from compliance.reading.rule_files.rule_library import read_shipped, shipped_rule_sets
from compliance.record import replace
from compliance.rules.limits.borrowing import with_borrowed
from compliance.rules.rule_set import Limit, RuleSet
from tests.buildings.judging import Result, check_building
from tests.buildings.reading import Building, read_building

LIST = "engineers-list"


def limit_of(rule_sets: tuple[RuleSet, ...], rule_set: str, rule: str, name: str) -> Limit:
    found = next(one for one in rule_sets if one.id == rule_set)
    return next(one for one in found.rules if one.id == rule).limits[name]


def with_limit(rule_set: RuleSet, rule: str, name: str, **changed: object) -> RuleSet:
    """The rule set with one limit changed."""
    rules = []
    for one in rule_set.rules:
        if one.id == rule:
            one = replace(one, limits={**one.limits, name: replace(one.limits[name], **changed)})
        rules.append(one)
    return replace(rule_set, rules=tuple(rules))


def borrowed(*names: str, rule: str, limit: str = "maximum") -> Limit:
    return limit_of(with_borrowed([read_shipped(name) for name in (LIST, *names)]), LIST, rule, limit)


def test_every_lender_is_there_and_of_the_same_kind() -> None:
    sets = {name: read_shipped(name) for name in shipped_rule_sets()}
    seen = 0
    for one in sets.values():
        for rule in one.rules:
            for limit in rule.limits.values():
                for lender in limit.lenders:
                    rule_set, other, name = lender.split("/")
                    assert limit_of((sets[rule_set],), rule_set, other, name).kind == limit.kind, lender
                    seen += 1
    assert seen >= 20


def test_its_own_figure_where_no_lender_is_adopted() -> None:
    own = borrowed(rule="slender-wall")
    assert (own.value, own.standing) == (8.0, Standing.RECALLED)
    assert "none of the rule sets that it refers to is adopted" in own.note


def test_the_limit_of_an_adopted_rule_set_with_its_standing() -> None:
    """10 by IBC 2109.2.4.4, read in adopted copies; the list's own 8 is recalled from Peru and India."""
    taken = borrowed("ibc-2021-2109-adobe", rule="slender-wall")
    assert (taken.value, taken.standing) == (10.0, Standing.READ)
    assert taken.source.startswith("the limit of ibc-2021-2109-adobe/height-to-thickness, which is adopted: IBC 2021")


@pytest.mark.parametrize(
    "names", [("ibc-2021-2109-adobe", "peru-e080-2017"), ("peru-e080-2017", "ibc-2021-2109-adobe")]
)
def test_the_most_restrictive_of_several(names: tuple[str, ...]) -> None:
    assert borrowed(*names, rule="slender-wall").value == 8.0


def test_an_open_limit_lends_nothing() -> None:
    """The cob appendix of 2024 names no known number of stories."""
    assert borrowed("cob-irc-2024-bk", rule="more-stories").value == 1.0
    assert "none of the rule sets" in borrowed("cob-irc-2024-bk", rule="more-stories").note


def test_an_amendment_of_the_lender_reaches_the_list() -> None:
    amended = Amended(None, by="a reader", on="2026-01-01", authority="the county", reason="local amendment")
    code = with_limit(
        read_shipped("cob-irc-2021-au"), "compressive-strength", "minimum", value=700e3, written="700 kPa",
        history=(amended,),
    )  # fmt: skip
    taken = limit_of(with_borrowed([read_shipped(LIST), code]), LIST, "weak-earth", "minimum")
    assert (taken.value, taken.history) == (700e3, (amended,))


def test_an_amendment_of_the_list_itself_stays() -> None:
    amended = Amended(None, by="a reader", on="2026-01-01", authority="the county", reason="local amendment")
    own = with_limit(read_shipped(LIST), "slender-wall", "maximum", value=7.0, history=(amended,))
    taken = limit_of(with_borrowed([own, read_shipped("ibc-2021-2109-adobe")]), LIST, "slender-wall", "maximum")
    assert taken.value == 7.0


def test_words_are_those_of_the_shortest_list() -> None:
    code = with_limit(read_shipped("cob-irc-2021-au"), "seismic-category", "categories", value=frozenset({"A", "B"}))
    taken = limit_of(with_borrowed([read_shipped(LIST), code]), LIST, "seismic-category", "categories")
    assert taken.value == frozenset({"A", "B"})


def outcomes(result: Result, rule: str) -> set[str]:
    return {one.outcome for one in result.findings if one.rule == rule}


@pytest.fixture(scope="module")
def thin_adobe() -> Building:
    return next(read_building("sound/adobe-10-in"))


def adopting(building: Building, *sets: str) -> Building:
    jurisdiction = {**building.sections["jurisdiction"], "rule_sets": list(sets)}
    return dataclasses.replace(building, sections={**building.sections, "jurisdiction": jurisdiction}, sets=sets)


def test_a_code_with_a_table_of_heights_is_given_way_to(thin_adobe: Building) -> None:
    result = check_building(thin_adobe)
    assert outcomes(result, "nm-14-7-4-adobe/wall-height") == {"meets"}
    for rule in ("slender-wall", "beyond-height-table"):
        assert outcomes(result, f"{LIST}/{rule}") == {"not-applicable"}
        reasons = {one.reason for one in result.findings if one.rule == f"{LIST}/{rule}"}
        says = "the adopted code answers this: Wall height (14.7.4.8 B, Table 1); as a remark: "
        assert reasons and all(one.startswith(says) for one in reasons)


def test_practice_and_what_is_not_known_are_not_given_way_to(thin_adobe: Building) -> None:
    """The cob appendix's height is open; `cob-practice` is no code."""
    result = check_building(adopting(thin_adobe, LIST, "cob-irc-2021-au", "cob-practice"))
    assert outcomes(result, f"{LIST}/beyond-height-table") == {"engineer"}
    assert outcomes(result, f"{LIST}/slender-wall") == {"not-applicable"}, "the stricter answer says it once"
