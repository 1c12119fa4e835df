"""From the text of a rule set to rules that can judge, every problem in it reported at once."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from compliance.findings import Outcome, Standing
from compliance.problems import Place, Problem, ProblemsFound
from compliance.refused import at_most
from compliance.rules.file_schema import RuleSetText
from compliance.rules.formulas.formula import Formula, parse
from compliance.rules.formulas.nodes import FormulaError
from compliance.rules.formulas.types import Type, YesNoType
from compliance.rules.limit_values import Placed, RefusedLimitError, read_limit, read_table, source_of, type_of_limit
from compliance.rules.rule_checks import COVER_COUNTS, pounds_as_forces, statistic_refusals, types_of_names
from compliance.rules.rule_set import Attest, Covers, Inspect, Limit, LookedAt, Rule, RuleSet, Test
from compliance.rules.schema import InspectText, RuleText, TestText
from compliance.rules.tables import Table
from compliance.rules.vocabulary import facts_for, known_instead

Path = tuple[str | int, ...]
ASPECT_FACT = "specimen.height_to_width"
_OUTCOMES_OF_SETS = ("result", "specimens", *COVER_COUNTS)

_FACT = "use a fact of the subject, or a limit or table of the rule; earthwall rules facts lists the facts"


def compile_rule_set(text: RuleSetText, file: str, placed: Placed) -> RuleSet:
    """Raises ProblemsFound with every problem of the file. `placed` gives the place of a path in it."""
    problems: list[Problem] = []
    rules = compile_rules(
        text.rules, text.rule_set, placed=placed, problems=problems, stage=text.stage, status=text.status
    )
    if problems:
        raise ProblemsFound(at_most(problems, "too-many-problems"))
    return RuleSet(
        text.rule_set,
        title=text.title,
        edition=text.edition,
        jurisdiction=text.jurisdiction,
        material=text.material,
        status=text.status,
        scope=text.scope,
        source=text.source,
        verify=text.verify,
        notes=tuple(text.notes),
        rules=rules,
        file=file,
        forms=text.covered,
    )


def compile_rules(
    texts: Sequence[RuleText], rule_set: str, placed: Placed, problems: list[Problem], stage: str | None = None,
    status: str = "code",
) -> tuple[Rule, ...]:  # fmt: skip
    """The rules under `rules:` of a file, what is wrong with any added to `problems`. `stage` is when those that do not
    say it are due, `status` what their rule set is."""
    rules = [
        compile_rule(
            rule, rule_set=rule_set, path=("rules", index), placed=placed, problems=problems, stage=stage, status=status
        )
        for index, rule in enumerate(texts)
    ]
    problems += _repeated_ids(texts, placed)
    problems += _covers_problems(texts, placed)
    return tuple(rule for rule in rules if rule)


def _covers_problems(texts: Sequence[RuleText], placed: Placed) -> list[Problem]:
    """Rules that a covers rule names are test rules of the same file."""
    tests = [rule.id for rule in texts if rule.test]
    advice = f"name one of {', '.join(tests)}" if tests else "add a test rule, or use question:"
    return [
        Problem(
            placed(("rules", index, "covers", "rules", place)), "rule-covers", f"{name!r} is no test rule here", advice
        )
        for index, rule in enumerate(texts)
        if rule.covers
        for place, name in enumerate(rule.covers.rules)
        if name not in tests
    ]


def _repeated_ids(texts: Sequence[RuleText], placed: Placed) -> list[Problem]:
    seen: set[str] = set()
    found = []
    for index, rule in enumerate(texts):
        if rule.id in seen:
            place = placed(("rules", index, "id"))
            found.append(
                Problem(place, "rule-repeated", f"the rule {rule.id!r} stands twice", "give each rule its own id")
            )
        seen.add(rule.id)
    return found


def compile_rule(
    text: RuleText, rule_set: str, path: Path, placed: Placed, problems: list[Problem], stage: str | None = None,
    status: str = "code",
) -> Rule | None:  # fmt: skip
    """The rule, or None with what is wrong added to `problems`."""
    before = len(problems)
    limits: dict[str, Limit] = {}
    tables: dict[str, Table] = {}
    for name, limit in text.limits.items():
        try:
            limits[name] = read_limit(name, limit, placed((*path, "limits", name)))
        except RefusedLimitError as refusal:
            problems.append(refusal.problem(placed, (*path, "limits", name)))
    for name, table in text.tables.items():
        try:
            tables[name] = read_table(name, table, placed((*path, "tables", name)))
        except RefusedLimitError as refusal:
            problems.append(refusal.problem(placed, (*path, "tables", name)))
    problems += _table_problems(text, tables, path, placed) + _aspect_problems(text, tables, path, placed)
    if len(problems) > before:
        return None
    types = types_of_names(text.about, test=text.test, covers=text.covers, limits=limits, tables=tables)
    forces = pounds_as_forces(text, limits, types)
    limits, types = limits | forces, types | {name: type_of_limit(limit) for name, limit in forces.items()}
    of_sets = text.test or text.covers
    before_results = {k: v for k, v in types.items() if k not in _OUTCOMES_OF_SETS} if of_sets else types
    when = _formula(text.when, types=before_results, path=(*path, "when"), placed=placed, problems=problems)
    check = _formula(text.check, types=types, path=(*path, "check"), placed=placed, problems=problems)
    problems += _test_problems(text, limits, path, placed)
    if len(problems) == before:
        problems += _unused(text, limits=limits, tables=tables, formulas=(when, check), path=path, placed=placed)
    if len(problems) > before:
        return None
    return Rule(
        rule_set,
        id=text.id,
        kind=text.kind,
        title=text.title,
        clause=text.clause,
        about=text.about,
        say=text.say,
        otherwise=Outcome(text.otherwise),
        place=placed(path),
        when=when,
        check=check,
        limits=limits,
        tables=tables,
        test=_test_of(text.test) if text.test else None,
        attest=Attest(text.attest.ask, tuple(text.attest.evidence)) if text.attest else None,
        inspect=_inspect(text.inspect) if text.inspect else None,
        remedy=text.remedy,
        standing=Standing(text.standing) if text.standing else None,
        source=source_of(text),
        question=text.question or "",
        note=text.note or "",
        examples=tuple(text.examples),
        covers=Covers(tuple(text.covers.rules), text.covers.question or "") if text.covers else None,
        stage=text.due(stage),
        follows=tuple(text.follows),
        gives_way_to=tuple(text.gives_way_to),
        status=status,
        replaced_by=tuple(text.replaced_by),
        waits_for=tuple(text.waits_for),
    )


def _test_of(text: TestText) -> Test:
    return Test(**text.model_dump())


def _inspect(text: InspectText) -> Inspect:
    kinds = {kind: LookedAt(one.look_at, _records(one.record)) for kind, one in text.by_kind.items()}
    return Inspect(
        stage=text.stage, point=text.point, who=text.who, look_at=text.look_at, record=_records(text.record),
        by_kind=kinds,
    )  # fmt: skip


def _records(text: str | list[str]) -> tuple[str, ...]:
    return (text,) if isinstance(text, str) else tuple(text)


def _formula(
    text: str | None, types: Mapping[str, Type], path: Path, placed: Placed, problems: list[Problem]
) -> Formula | None:
    if text is None:
        return None
    try:
        formula = parse(text)
        if not isinstance(formula.check(types), YesNoType):
            raise FormulaError(
                "formula-type", "the formula is not a yes or no", "compare something, as in wall.height <= most", 0
            )
    except FormulaError as error:
        place = placed(path)
        at = Place(place.file, place.line, place.column + error.offset)
        instead = known_instead(error.name, types) or _FACT if error.name else error.instead
        problems.append(Problem(at, error.code, error.wrong, instead))
        return None
    return formula


def _table_problems(text: RuleText, tables: Mapping[str, Table], path: Path, placed: Placed) -> list[Problem]:
    """Rows and columns go by facts that a rule about this subject may use."""
    allowed = facts_for("set" if text.test else text.about)
    return [
        Problem(placed((*path, "tables", name, side, "fact")), "rule-fact",
                f"a rule about a {text.about} cannot use {fact!r}", "use a fact of its subject, or change about:")
        for name, table in tables.items() if not (text.test and text.test.aspect == name)
        for side, fact in zip(("rows", "columns"), table.fact_names, strict=False)
        if fact not in allowed
    ]  # fmt: skip


def _aspect_problems(text: RuleText, tables: Mapping[str, Table], path: Path, placed: Placed) -> list[Problem]:
    """The table that corrects single specimens goes by their height to width alone and gives ratios."""
    name = text.test.aspect if text.test else None
    if text.test is None or name is None:
        return []
    place = placed((*path, "test", "aspect"))
    table = tables.get(name)
    if table is None:
        return [Problem(place, "rule-test", f"{name!r} is no table of this rule", "add it under tables:")]
    if table.fact_names != (ASPECT_FACT,) or table.kind != "ratio":
        wrong = f"the table {name!r} does not give a ratio by {ASPECT_FACT}"
        return [Problem(place, "rule-test", wrong, f"write rows: {{fact: {ASPECT_FACT}, ...}} and kind: ratio")]
    if text.test.of != "compression":
        return [Problem(place, "rule-test", f"a {text.test.of} test has no aspect", "remove aspect:")]
    return []


def _test_problems(text: RuleText, limits: Mapping[str, Limit], path: Path, placed: Placed) -> list[Problem]:
    """A test rule's entries name limits of the rule, each of the right kind."""
    if not text.test:
        return []
    wanted = {
        "statistic": "word",
        "shapes": "words",
        "dried": "words",
        "least_age": "age",
        "least_height_to_width": "ratio",
        "own_weight": "yes-no",
    }
    found = []
    for entry, kind in wanted.items():
        name = getattr(text.test, entry)
        if name and (name not in limits or limits[name].kind != kind):
            wrong = f"{name!r} is no limit of this rule that holds a {kind}"
            found.append(
                Problem(placed((*path, "test", entry)), "rule-test", wrong, f"add it under limits: as a {kind}")
            )
    return found or _statistic_problems(text, limits, path, placed)


def _statistic_problems(text: RuleText, limits: Mapping[str, Limit], path: Path, placed: Placed) -> list[Problem]:
    """The statistic is one that is known, with the parameters it takes."""
    assert text.test is not None
    return [refused.problem(placed, path) for refused in statistic_refusals(text.test, limits)]


def _unused(
    text: RuleText, limits: Mapping[str, Limit], tables: Mapping[str, Table], formulas: tuple[Formula | None, ...],
    path: Path, placed: Placed,
) -> list[Problem]:  # fmt: skip
    """Limits and tables that no formula and no test entry uses."""
    used = {name for formula in formulas if formula for name in formula.names}
    if text.test:
        used |= set(_test_of(text.test).limit_names)
    return [
        Problem(
            placed((*path, section, name)), "limit-unused", f"nothing uses {name!r}", "use it in check: or remove it"
        )
        for section, names in (("limits", limits), ("tables", tables))
        for name in names
        if name not in used
    ]
