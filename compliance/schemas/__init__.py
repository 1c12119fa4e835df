"""JSON Schemas of the files people write and of the findings written out, made from the models.

    python -m compliance.schemas

writes them again after a change to a model; a test holds them in step. Editors read draft 7.
"""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

from pydantic import BaseModel

from compliance.model.issued import FindingsRecord
from compliance.model.project import Project
from compliance.rules.case_schema import CasesText
from compliance.rules.file_schema import AmendmentText, RuleSetText
from compliance.schemas.conditions import with_conditions

HERE = Path(__file__).parent

MODELS: dict[str, tuple[type[BaseModel], str]] = {
    "project.schema.json": (Project, "A project of earthen walls (project.yaml and the files it includes)"),
    "rule-set.schema.json": (RuleSetText, "A rule set for earthen walls"),
    "amendment.schema.json": (AmendmentText, "Changes that a project makes to the rule sets it adopts"),
    "cases.schema.json": (CasesText, "Cases of the rules of one rule set"),
    "findings.schema.json": (FindingsRecord, "The findings of a check (earthwall check FOLDER --format json)"),
}


def shipped_schema(name: str) -> str:
    """The text of one schema file as it ships, which takes a hundredth of the time of making it anew."""
    return (HERE / name).read_text(encoding="utf-8")


def schema_text(name: str) -> str:
    """The text of one schema file, made from its model. Raises KeyError for an unknown name."""
    model, title = MODELS[name]
    schema: dict[str, Any] = {"$schema": "http://json-schema.org/draft-07/schema#", "title": title}
    schema |= {key: value for key, value in with_conditions(model.model_json_schema()).items() if key != "title"}
    if model is Project:
        del schema["required"]  # A section may stand in any of the files that belong to the project.
        schema["properties"]["include"] = {
            "type": "array",
            "items": {"type": "string"},
            "description": "Other YAML files of the folder whose sections belong to this project",
        }
    return json.dumps(schema, ensure_ascii=False, indent=1).replace("#/$defs/", "#/definitions/").replace(
        '"$defs"', '"definitions"'
    ) + "\n"  # fmt: skip


def write_schemas() -> None:
    for name in MODELS:
        (HERE / name).write_text(schema_text(name), encoding="utf-8")
