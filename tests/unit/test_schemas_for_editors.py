"""What ships names its schema in its first line and is valid by it, read as an editor reads it: YAML 1.2, draft 7.

JSON Schema draft 7 (Wright, Andrews, Hutton 2019) by the reference library jsonschema.
"""

from __future__ import annotations

import json
import re
from functools import cache
from pathlib import Path

import pytest
from jsonschema import Draft7Validator

from compliance.linting.lint_rule_set import lint_file
from compliance.reading.yaml.strict_yaml import parse_yaml, read_yaml
from compliance.schemas import HERE, MODELS, schema_text
from compliance.schemas.conditions import measure_pattern
from tests.conftest import EXAMPLE, ROOT
from tests.unit.test_measures import EVERYDAY

RULE_SETS = sorted((ROOT / "rulesets").glob("*.yaml"))
CASES = sorted((ROOT / "rulesets" / "cases").glob("*.yaml"))
TEMPLATES = sorted((ROOT / "rulesets" / "templates").glob("*.yaml"))
AMENDMENTS = sorted((ROOT / "rulesets" / "amendments").glob("*.yaml"))
NAMED = [
    *((path, "amendment.schema.json") for path in AMENDMENTS),
    *((path, "rule-set.schema.json") for path in RULE_SETS),
    *((path, "cases.schema.json") for path in CASES),
    *((path, {"county": "rule-set.schema.json", "amendments": "amendment.schema.json"}[path.stem])
      for path in TEMPLATES),
]  # fmt: skip


@cache
def validator(name: str) -> Draft7Validator:
    return Draft7Validator(json.loads((HERE / name).read_text(encoding="utf-8")))


@pytest.mark.parametrize("name", MODELS)
def test_the_schema_is_one_of_draft_7(name: str) -> None:
    schema = json.loads((HERE / name).read_text(encoding="utf-8"))
    assert schema["$schema"] == "http://json-schema.org/draft-07/schema#"
    Draft7Validator.check_schema(schema)


def test_there_is_no_schema_file_without_a_model() -> None:
    assert {path.name for path in HERE.glob("*.json")} == set(MODELS)


@pytest.mark.parametrize(
    ("path", "name"), [pytest.param(*one, id=f"{one[0].parent.name}/{one[0].stem}") for one in NAMED]
)
def test_a_shipped_file_names_its_schema_and_is_valid_by_it(path: Path, name: str) -> None:
    first = path.read_text(encoding="utf-8").partition("\n")[0]
    named = re.fullmatch(r"# yaml-language-server: \$schema=(\S+)", first)
    assert named, first
    assert (path.parent / named[1]).resolve() == (HERE / name).resolve()
    problems = [f"{list(one.path)}: {one.message}" for one in validator(name).iter_errors(read_yaml(path, path.name))]
    assert not problems


@pytest.mark.parametrize("path", sorted(EXAMPLE.glob("*.yaml")), ids=lambda path: path.stem)
def test_the_files_of_the_example_are_valid(path: Path) -> None:
    assert not list(validator("project.schema.json").iter_errors(read_yaml(path, path.name)))


@pytest.mark.parametrize("name", ["project.schema.json", "rule-set.schema.json", "amendment.schema.json"])
def test_the_example_carries_the_schemas_that_its_files_may_name(name: str) -> None:
    assert (EXAMPLE / "schemas" / name).read_text(encoding="utf-8") == schema_text(name)


SOUND = """\
cases_of: trial
cases:
  - {rule: thick-enough, name: exactly 10 in, given: {wall.least_thickness: 10 in, wall.curved: no}, gives: meets}
"""


@pytest.mark.parametrize(
    ("change", "errors"),
    [
        (("", ""), 0),
        (("gives: meets", "gives: meet"), 1),
        (("name: exactly 10 in, ", ""), 1),
        (("cases_of: trial", "cases_of: Trial"), 1),
        (("given: {", "givn: {}, given: {"), 1),
        (("wall.curved: no", "wall.curved: [no]"), 1),
    ],
)
def test_an_editor_is_told_of_a_slip(change: tuple[str, str], errors: int) -> None:
    tree = parse_yaml(SOUND.replace(*change), "cases.yaml")
    assert len(list(validator("cases.schema.json").iter_errors(tree))) == errors


RULE = """\
rule_set: trial
title: Trial
edition: "1"
jurisdiction: Nowhere
material: cob
forms: [cob]
status: guide
scope: s
source: s
verify: v
rules:
  - id: thick-enough
    title: T
    clause: C
    about: wall
    limits:
      least: {value: 10 in, standing: read, source: trial}
    check: wall.least_thickness >= least
    say: s
"""
_ATTEST = "attest: {ask: Is it?}\n    standing: recalled\n    source: s"
_CHECK = "check: wall.least_thickness >= least"
_LIMIT = "limits:\n      least: {value: 10 in, standing: read, source: trial}\n    "
CHANGES = (
    # what is changed, whether it is sound; the models and the schema must agree on each
    (("", ""), True),
    ((_CHECK, "note: n"), False),
    ((_CHECK, f"{_CHECK}\n    {_ATTEST}"), False),
    ((_LIMIT + _CHECK, _ATTEST), True),
    ((_LIMIT + _CHECK, "attest: {ask: Is it?}"), False),
    ((_CHECK, f"{_ATTEST}\n    inspect: {{stage: stem, point: hold, who: w, look_at: l, record: r}}"), False),
    ((_CHECK, f"{_CHECK}\n    test: {{of: compression, statistic: least}}"), False),
    ((", source: trial", ""), False),
    ((", source: trial", ", source: null"), False),
    (("read, source: trial", "recalled"), True),
    (("read, source", "confirmed, source"), False),
    (("read, source: trial", "confirmed, source: trial, by: R. Pell, on: 2026-03-01"), True),
    (("value: 10 in", "value: open"), False),
    (("value: 10 in, standing: read", "value: 10 in, standing: open"), False),
    (("value: 10 in, standing: read, source: trial", "value: open, standing: open"), False),
    (("value: 10 in, standing: read, source: trial", "value: open, kind: thickness, standing: open"), True),
    (("value: 10 in", "value: 10 in, kind: lenght"), False),
    (("value: 10 in", "value: 10 spans"), False),
    (("value: 10 in", "value: 10inch"), True),
    (("value: 10 in", "value: 10½ Inches"), True),
    (("value: 10 in", "value: 8' 6"), True),
    (("value: 10 in", "value: 8 ft. 6 in."), True),
    (("value: 10 in", "value: 0.25 m"), True),
    (("value: 10 in", "value: 10 MM"), False),
)


@pytest.mark.parametrize(("change", "sound"), CHANGES)
def test_an_editor_refuses_what_reading_refuses(tmp_path: Path, change: tuple[str, str], sound: bool) -> None:
    text = RULE.replace(*change)
    (tmp_path / "trial.yaml").write_text(text, encoding="utf-8")
    assert validator("rule-set.schema.json").is_valid(parse_yaml(text, "trial.yaml")) == sound
    codes = {one.code for one in lint_file(tmp_path / "trial.yaml")}
    assert (codes <= {"example-fails", "example-meets"}) == sound


@pytest.mark.parametrize(("text", "kind"), [(text, kind) for text, kind, _ in EVERYDAY if "\u00a0" not in text])
def test_an_editor_takes_every_measure_that_is_read(text: str, kind: str) -> None:
    assert re.match(measure_pattern(), text), kind
