"""The schema files are in step with the models, and accept what ships."""

from __future__ import annotations

import json

import pytest
import yaml
from jsonschema import Draft7Validator

from compliance.checking import check_folder
from compliance.report.revisions.findings_data import as_json
from compliance.schemas import HERE, MODELS, schema_text
from tests.conftest import EXAMPLE


@pytest.mark.parametrize("name", MODELS)
def test_in_step(name: str) -> None:
    assert (HERE / name).read_text(encoding="utf-8") == schema_text(name), "run python -m compliance.schemas"


def test_the_example_carries_its_schema_and_names_it() -> None:
    own = (EXAMPLE / "schemas" / "project.schema.json").read_text(encoding="utf-8")
    assert own == schema_text("project.schema.json")
    first = (EXAMPLE / "project.yaml").read_text(encoding="utf-8").partition("\n")[0]
    assert first == "# yaml-language-server: $schema=schemas/project.schema.json"


@pytest.mark.parametrize("name", MODELS)
def test_no_tuples_for_editors(name: str) -> None:
    text = schema_text(name)
    assert "prefixItems" not in text and "$defs" not in text
    json.loads(text)


def test_every_field_of_the_example_is_in_the_schema() -> None:
    known = set(json.loads(schema_text("project.schema.json"))["properties"])
    for path in EXAMPLE.glob("*.yaml"):
        assert set(yaml.safe_load(path.read_text(encoding="utf-8"))) <= known


def test_the_findings_of_the_example_keep_to_their_published_schema() -> None:
    checked = check_folder(EXAMPLE)
    data = json.loads(as_json(checked))
    schema = json.loads((HERE / "findings.schema.json").read_text(encoding="utf-8"))
    validator = Draft7Validator(schema)
    assert list(validator.iter_errors(data)) == []
    del data["findings"][0]["outcome"]
    data["project"]["fingerprint"] = "no hash"
    assert len(list(validator.iter_errors(data))) == 2
