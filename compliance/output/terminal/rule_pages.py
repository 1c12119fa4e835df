"""Rule sets, rules and facts as text for the terminal."""

from __future__ import annotations

import textwrap
from collections.abc import Iterable

from compliance.facts.catalogue import ABOUT_LABELS, ABOUTS, FACTS, FactSpec
from compliance.model.reference_texts import Pack
from compliance.rules.question import ListedQuestion
from compliance.rules.rule_set import Limit, Rule, RuleSet
from compliance.rules.tables import Axis, Table
from compliance.units import KINDS, Writer

_WIDTH = 100
_US = Writer("us")


# What a rule set is, most binding first, and what that means to whoever adopts it.
STATUSES = {
    "code": "law where a jurisdiction has adopted it",
    "standard": "a published standard; binding where a code or an official refers to it",
    "guide": "a handbook or guideline; binding nowhere by itself",
    "practice": "what builders keep to; binding nowhere",
}


def set_list(rule_sets: Iterable[RuleSet]) -> str:
    """The rule sets by their status."""
    by_status: dict[str, list[RuleSet]] = {status: [] for status in STATUSES}
    for one in rule_sets:
        by_status[one.status].append(one)
    pages = [
        f"{status}: {meaning}\n" + "".join(_set_lines(one) for one in by_status[status])
        for status, meaning in STATUSES.items()
        if by_status[status]
    ]
    return "\n".join(pages)


def pack_list(packs: Iterable[Pack]) -> str:
    """Each pack with the line of `jurisdiction:` that adopts it."""
    lines = [_PACKS]
    for one in packs:
        lines += ["", f"{one.id}: {one.material}, {one.place}"]
        for text in (f"rule_sets: [{', '.join(one.rule_sets)}]", one.note or ""):
            lines += textwrap.wrap(
                text, _WIDTH, initial_indent="  ", subsequent_indent="      ", break_on_hyphens=False
            )
    return "\n".join(lines) + "\n"


_PACKS = "Rule sets that go together. A beginning: the building official says what is adopted."


def _set_lines(rule_set: RuleSet) -> str:
    """One rule set, its standing tally below."""
    counts: dict[str, int] = {}
    for rule in rule_set.rules:
        limits: list[Limit | Table] = [*rule.limits.values(), *rule.tables.values()]
        for limit in limits:
            counts[limit.standing.value] = counts.get(limit.standing.value, 0) + 1
    known = ", ".join(f"{count} {standing}" for standing, count in sorted(counts.items()))
    says = f"{rule_set.title}; {rule_set.edition}; {len(rule_set.rules)} rules; limits: {known or 'none'}"
    return (
        "\n".join(
            [f"  {rule_set.id}", *textwrap.wrap(says, _WIDTH, initial_indent="      ", subsequent_indent="      ")]
        )
        + "\n"
    )


def set_page(rule_set: RuleSet) -> str:
    lines = [
        f"{rule_set.id}: {rule_set.title}", f"edition: {rule_set.edition}", f"jurisdiction: {rule_set.jurisdiction}",
        f"material: {rule_set.material}", f"forms of earth: {rule_set.forms_in_words}", f"status: {rule_set.status}",
    ]  # fmt: skip
    for name, text in (("scope", rule_set.scope), ("source", rule_set.source), ("verify", rule_set.verify)):
        lines += _wrapped(f"{name}: {text}")
    for note in rule_set.notes:
        lines += _wrapped(f"note: {note}")
    lines += [""] + [f"  {rule.id:<44} {rule.about:<9} {rule.clause}" for rule in rule_set.rules]
    return "\n".join(lines) + "\n"


def rule_page(rule: Rule) -> str:
    """Everything a rule says, in the order a reader asks."""
    lines = [f"{rule.id}: {rule.title}", f"{rule.rule_set}, {rule.clause}; about: {rule.about}; kind: {rule.kind}"]
    lines += _wrapped(rule.say)
    if rule.when:
        lines.append(f"when: {rule.when.text}")
    if rule.check:
        lines.append(f"check: {rule.check.text}")
    if rule.test:
        lines.append(f"test: {rule.test.of}, statistic by limit {rule.test.statistic}")
    if rule.covers:
        named = ", ".join(rule.covers.rules) or f"that answer the question {rule.covers.question}"
        lines += _wrapped(f"counts sets that pass the test rules {named}")
    if rule.attest:
        lines += _wrapped(f"asks: {rule.attest.ask} (evidence: {', '.join(rule.attest.evidence) or 'none'})")
    if rule.inspect:
        lines += _wrapped(
            f"{rule.inspect.point} point, stage {rule.inspect.stage}, by {rule.inspect.who}: {rule.inspect.look_at}"
        )
    lines += [line for limit in rule.limits.values() for line in _limit(limit)]
    lines += [line for table in rule.tables.values() for line in _table(table)]
    if rule.standing:
        lines.append(f"standing: {rule.standing.value}; source: {rule.source}")
    lines.append(f"otherwise: {rule.otherwise.value}")
    if rule.remedy:
        lines += _wrapped(f"remedy: {rule.remedy.say}")
    if rule.note:
        lines += _wrapped(f"note: {rule.note}")
    for example in rule.examples:
        given = ", ".join(f"{name} {value}" for name, value in {**example.given, **example.limits}.items())
        lines += _wrapped(f"example: {given or 'nothing given'} -> {example.gives}")
    return "\n".join(lines) + "\n"


def _limit(limit: Limit) -> list[str]:
    if limit.value is None:
        shown = f"open, a {limit.kind.replace('_', ' ')}"
    elif isinstance(limit.value, float) and limit.kind in KINDS:
        shown = _US.both(limit.value, limit.kind)
    else:
        shown = limit.written
    where = limit.read_in or limit.source
    return _wrapped(f"limit {limit.name}: {shown}; {limit.standing.value}" + (f"; {where}" if where else ""))


def _table(table: Table) -> list[str]:
    """The cells under the numbers of their columns, each row after its own number, as amendments name them."""
    about = f"{table.standing.value}; {table.source or table.read_in}; between entries: {table.between}"
    lines = _wrapped(f"table {table.name}: {about}")
    cells = [["open" if cell is None else _US.write(cell, table.kind) for cell in row] for row in table.cells]
    wide = max(14, 2 + max(len(cell) for row in cells for cell in row))
    if table.columns:
        entries = [f"{place}: {_entry(table.columns, entry)}" for place, entry in enumerate(table.columns.entries, 1)]
        lines.append("  " + " " * 18 + "".join(f"{entry:>{wide}}" for entry in entries) + f"   ({table.columns.fact})")
    for place, (entry, row) in enumerate(zip(table.rows.entries, cells, strict=True), 1):
        lines.append(f"  {f'{place}: {_entry(table.rows, entry)}':<18}" + "".join(f"{cell:>{wide}}" for cell in row))
    return [*lines, f"  rows by {table.rows.fact}"]


def _entry(axis: Axis, entry: float | str | bool) -> str:
    kind = FACTS[axis.fact].kind
    return _US.write(entry, kind) if isinstance(entry, float) and kind in KINDS else str(entry)


def fact_pages(about: str | None) -> str:
    """The vocabulary of one subject, or of all."""
    pages = []
    for one in (about,) if about else tuple(ABOUTS):
        parents = ", ".join(ABOUTS[one])
        head = one + (f" (a rule about it may also use facts of: {parents})" if parents else "")
        pages.append("\n".join([head, *(line for spec in FACTS.values() if spec.about == one for line in _fact(spec))]))
    return "\n\n".join(pages) + "\n"


def _fact(spec: FactSpec) -> list[str]:
    kind = ", ".join(spec.choices) if spec.choices else spec.kind.replace("_", " ")
    meaning = f"; {spec.meaning}" if spec.meaning else ""
    usual = f"; usual: {spec.least or 'any'} to {spec.most or 'any'}" if spec.least or spec.most else ""
    return textwrap.wrap(
        f"{spec.name}: {spec.label} [{kind}]{meaning}{usual}", _WIDTH, initial_indent="  ", subsequent_indent="      "
    )


def question_pages(questions: Iterable[ListedQuestion]) -> str:
    """The questions by what they are asked about."""
    by_about: dict[str, list[ListedQuestion]] = {}
    for one in questions:
        by_about.setdefault(one.about, []).append(one)
    pages = []
    for about, listed in by_about.items():
        lines = [line for one in listed for line in _wrapped(f"  {one.id}: {one.asks}")]
        pages.append("\n".join([ABOUT_LABELS[about], *lines]))
    return "\n\n".join(pages) + "\n"


def _wrapped(text: str) -> list[str]:
    return textwrap.wrap(text, _WIDTH, subsequent_indent="    ")
