"""Rule sets and reference tables from their files, shipped ones by name and a project's own by path."""

from __future__ import annotations

from pathlib import Path

from pydantic import ValidationError

from compliance.facts.plan import SupportRules
from compliance.findings import Standing
from compliance.problems import Place, Problem, ProblemsFound
from compliance.reading.placed import PlacedDict, place_of
from compliance.reading.refused import RefusedError, nearest
from compliance.reading.safe_paths import inside
from compliance.reading.strict_yaml import read_yaml
from compliance.reading.validation import problems_of
from compliance.rules.compiling import compile_rule_set
from compliance.rules.rule_set import RuleSet
from compliance.rules.schema import RuleSetText
from compliance.shipped import shipped
from compliance.units import measure


def shipped_rule_sets() -> list[str]:
    """The names of the rule sets that come with the tool."""
    return sorted(path.stem for path in shipped("rulesets").glob("*.yaml"))


def read_rule_set(path: Path, shown: str) -> RuleSet:
    """One rule-set file. Raises ProblemsFound with every problem in it."""
    tree = read_yaml(path, shown)
    try:
        text = RuleSetText.model_validate(tree)
    except ValidationError as error:
        raise ProblemsFound(problems_of(error, tree, RuleSetText)) from None
    return compile_rule_set(text, shown, lambda loc: place_of(tree, loc))


def read_shipped(name: str) -> RuleSet:
    """A rule set that comes with the tool. Raises KeyError for an unknown name."""
    path = shipped("rulesets") / f"{name}.yaml"
    if name not in shipped_rule_sets():
        raise KeyError(name)
    return read_rule_set(path, f"rulesets/{path.name}")


def read_adopted(folder: Path, names: list[str], tree: PlacedDict) -> tuple[RuleSet, ...]:
    """The rule sets a project names. Raises ProblemsFound with every problem of all of them."""
    found: list[RuleSet] = []
    problems: list[Problem] = []
    for index, name in enumerate(names):
        place = place_of(tree, ("jurisdiction", "rule_sets", index))
        try:
            found.append(_adopted(folder, name))
        except ProblemsFound as stopped:
            problems += stopped.problems
        except RefusedError as refused:
            problems.append(_in_folder(folder, refused.at(place)))
    if problems:
        raise ProblemsFound(problems)
    return tuple(found)


def _in_folder(folder: Path, problem: Problem) -> Problem:
    place = Place((folder / problem.place.file).as_posix(), problem.place.line, problem.place.column)
    return Problem(place, problem.code, problem.wrong, problem.instead)


def _adopted(folder: Path, name: str) -> RuleSet:
    if name.endswith((".yaml", ".yml")):
        path = inside(folder, name)
        return read_rule_set(path, (folder / name).as_posix())
    names = shipped_rule_sets()
    if name not in names:
        near = nearest(name, names)
        raise RefusedError(
            "rule-set-unknown", f"there is no rule set {name!r}",
            f"did you mean {near}?" if near else f"write one of {', '.join(names)}, or a file of the project folder",
        )  # fmt: skip
    return read_shipped(name)


def read_reference(name: str) -> PlacedDict:
    """A shipped table of reference values. Raises ProblemsFound."""
    return read_yaml(shipped("rulesets") / "reference" / f"{name}.yaml", f"rulesets/reference/{name}.yaml")


def read_support_rules() -> SupportRules:
    """What counts as a lateral support, from the shipped reference."""
    reference = read_reference("lateral-supports")
    values = reference["values"]
    return SupportRules(
        measure(values["least_angle"], "angle").si,
        values["least_height_share"],
        values["least_length_share"],
        values["least_thickness_share"],
        Standing(reference["standing"]),
        reference["source"],
    )
