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

from compliance.reading.yaml.strict_yaml import parse_yaml, read_yaml
from compliance.schemas import HERE, MODELS, schema_text
from tests.conftest import EXAMPLE, ROOT

RULE_SETS = sorted((ROOT / "rulesets").glob("*.yaml"))
CASES = sorted((ROOT / "rulesets" / "cases").glob("*.yaml"))
TEMPLATES = sorted((ROOT / "rulesets" / "templates").glob("*.yaml"))
NAMED = [
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
