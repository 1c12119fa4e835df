"""How well every limit is known, against what its source says: no standing above its evidence.

What is `read` names
a text of `rulesets/reference/copies-read.yaml` and a clause that was read in it.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from functools import cache

from compliance.files.shipped import shipped
from compliance.findings import Standing
from compliance.model.base import Described, Text
from compliance.reading.reference_files.support_rules import read_reference
from compliance.reading.rule_files.rule_library import read_shipped, shipped_rule_sets
from compliance.reading.yaml.strict_yaml import read_yaml
from compliance.rules.file_schema import AmendmentText
from compliance.rules.rule_set import Rule
from tests.each import for_each

WEAK = re.compile(
    r"recall|memory|no source|without source|inferred|little certainty|not seen|cautious|careful|strict reading", re.I
)
"""Words of a source that was neither read nor reported."""
SECOND_HAND = re.compile(
    r"second-hand|account|as (told|quoted|shown|described|announced)|mailing list|rendering|public design notes|"
    r"glossary|titles of|read in (that|the 2008) edition|survey|comparison",
    re.I,
)
CHECKED_ELSEWHERE = ("structural-screening", "engineers-list")


class Copy(Described):
    """A text that was read. `cited_as` are phrases of the sources that cite it, `clauses` what was read in it."""

    cited_as: list[Text]
    document: Text
    state: Text
    edition: Text
    whose: Text
    clauses: list[Text]


@cache
def copies() -> tuple[Copy, ...]:
    listed = read_reference("copies-read")["values"]
    return tuple(Copy.model_validate(one) for one in listed)


Known = tuple[str, str, str]  # what it is, standing, source


def known(rule: Rule) -> Iterator[Known]:
    parts = [*rule.limits.values(), *rule.tables.values()]
    for one in parts:
        yield f"{rule.rule_set}/{rule.id}/{one.name}", one.standing.value, one.source or ""
    if rule.standing:
        yield f"{rule.rule_set}/{rule.id}", rule.standing.value, rule.source or ""


def in_amendments() -> Iterator[Known]:
    """Those of the amendments that ship."""
    for path in sorted((shipped("rulesets") / "amendments").glob("*.yaml")):
        for rule in AmendmentText.model_validate(read_yaml(path, path.name)).rules:
            for name, limit in rule.limits.items():
                yield f"{path.stem}/{rule.id}/{name}", limit.standing, limit.source or ""
            yield f"{path.stem}/{rule.id}", rule.standing or "", rule.source or ""


AMENDMENTS = "amendments"


def known_of(group: str) -> Iterator[tuple[str, str, str, str]]:
    """Each with its name, which shows the standing."""
    rules = () if group == AMENDMENTS else read_shipped(group).rules
    for one in in_amendments() if group == AMENDMENTS else (one for rule in rules for one in known(rule)):
        yield f"{one[0]}={one[1]}", *one


@for_each([*shipped_rule_sets(), AMENDMENTS], known_of)
def test_no_standing_above_its_evidence(name: str, standing: str, source: str) -> None:
    assert standing != "confirmed", "what ships was confirmed by nobody"
    if standing == "read":
        assert not WEAK.search(source), source
        cited = [one for one in copies() if all(phrase in source for phrase in one.cited_as)]
        assert cited, f"{source!r} is none of the copies read"
        assert any(covers(one, source) for one in cited), f"{source!r}: no such clause was read"
    elif standing == "reported" and not name.startswith(CHECKED_ELSEWHERE):
        assert SECOND_HAND.search(source), source
        assert not WEAK.search(source.replace("J itself was not seen", "").replace("wording was not seen", "")), source
    elif standing == "recalled":
        assert "little certainty" not in source and "less certainty" not in source, "too weak for recalled"


def covers(copy: Copy, source: str) -> bool:
    """Whether every clause that the source names lies within one that was read."""
    source = source.split(";")[0]
    named = re.findall(r"\b(?:AU|R|N)?\d+(?:\.\d+)+\b|\b2109\b|14\.7\.4\.\d+ [A-Z]|\b150-\d+", source)
    if not named:
        return any(clause in source for clause in copy.clauses)
    return all(any(one == clause or one.startswith((clause + ".", clause + " ")) or clause.startswith(one + " ")
                   for clause in copy.clauses) for one in named if not one.startswith("780"))  # fmt: skip


def test_every_copy_is_cited() -> None:
    every = [one for group in (*shipped_rule_sets(), AMENDMENTS) for one in known_of(group)]
    sources = [source for *_, standing, source in every if standing == "read"]
    idle = [one.document for one in copies() if not any(all(p in source for p in one.cited_as) for source in sources)]
    assert not idle


def test_every_copy_says_whose_it_is() -> None:
    for one in copies():
        assert one.document and one.state and one.edition and one.whose and one.clauses


def test_points_of_inspection_are_ours() -> None:
    """A code that tells what to do seldom says when somebody looks at it. The proposal for cob does, once."""
    read = [
        f"{rule.rule_set}/{rule.id}"
        for name in shipped_rule_sets()
        for rule in read_shipped(name).rules
        if rule.inspect and rule.standing and rule.standing.value == "read"
    ]
    assert read == ["cob-irc-2021-au/inspect-mix"]


def test_what_is_read_in_a_code_says_that_it_is_a_third_partys_copy() -> None:
    for name in ("ibc-2015-2109-adobe", "ibc-2021-2109-adobe", "ibc-2024-2109-adobe", "irc-2021-soil-and-footings"):
        assert "third party's copy" in " ".join(read_shipped(name).verify.split()), name


def test_no_addresses_and_threads_as_sources() -> None:
    for path in shipped("rulesets").rglob("*.yaml"):
        text = path.read_text(encoding="utf-8")
        assert not re.search(r"\.com\b|\bthread \d|one practitioner", text) or path.stem in CHECKED_ELSEWHERE, path.name


UNKNOWN = re.compile(
    r"not (found|seen|known|read|recalled)|none of its pages|only (its|their|that|the)|no (page|figure|number|title)"
    r"|no conversion|Only a handful|was remembered",
    re.IGNORECASE,
)


def open_rules(_: str) -> Iterator[tuple[str, Rule]]:
    for name in shipped_rule_sets():
        for rule in read_shipped(name).rules:
            if rule.standing is Standing.OPEN:
                yield f"{rule.rule_set}/{rule.id}", rule


@for_each(["all"], open_rules)
def test_a_rule_that_was_not_read_says_that_its_figures_are_not_here(rule: Rule) -> None:
    """Its check compares no figure, and it says so in words, so that nobody takes a yes for a limit."""
    compared = rule.check.names if rule.check else frozenset()
    figures = [name for name, limit in rule.limits.items() if name in compared and isinstance(limit.value, float)]
    assert not figures
    assert UNKNOWN.search(" ".join((rule.say, rule.note, rule.source)))
