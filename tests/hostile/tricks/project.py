"""A project whose set of prisms fails by its weakest, and the same with the slips and tricks of the table in it."""

from __future__ import annotations

import copy
import csv
import io
import json
from pathlib import Path
from typing import Any

from compliance.reading.yaml.strict_yaml import read_yaml

HERE = Path(__file__).parent
TABLE = HERE / "tricks.yaml"

UNITS = {
    "width": "in", "depth": "in", "height": "in", "span": "in", "mass": "lb", "peak_load": "lbf", "strength": "psi",
    "form_length": "in", "dried_length": "in", "shrinkage": "%",
}  # fmt: skip
_LAB = {"cast": "2026-03-01", "tested": "2026-05-01", "dried": "air"}
_PRISM = _LAB | {"mix": "M1", "shape": "prism", "width": "4", "depth": "4", "height": "8", "mass": "8"}
LOADS = {"T1-1": 1210, "T1-2": 1250, "T1-3": 1190, "T1-4": 800, "T1-5": 1230, "T1-6": 1220}
"""16 lbf on a prism of 4 x 4 in make 1 psi: T1-4 has 50 psi, where 60 psi are the minimum."""
_BEAM = _LAB | {
    "mix": "M1", "shape": "prism", "width": "6", "depth": "12", "height": "6", "span": "10", "loading": "centre",
}  # fmt: skip
BREAKS = {"R1-1": 900, "R1-2": 920, "R1-3": 880, "R1-4": 700, "R1-5": 930, "R1-6": 910}
"""14.4 lbf on such a beam make 1 psi: R1-4 has 48.6 psi, where 50 psi are the minimum."""
_BAR = _LAB | {"mix": "M1", "form_length": "24"}
BARS = {"S1-1": "23.4", "S1-2": "22.6", "S1-3": "23.5"}
"""S1-2 shortened by 5.8 %, where 1 in 24 is the maximum."""

PROJECT: dict[str, Any] = {
    "project": {"name": "Trial", "date": "2026-09-14"},
    "jurisdiction": {
        "name": "Nowhere",
        "rule_sets": ["cob-irc-2021-au", "earth-evidence", "nm-14-7-4-adobe", "structural-screening", "rules.yaml"],
    },
    "soils": {"S1": {"name": "clay"}},
    "mixes": {
        "M1": {"name": "mix", "parts": {"S1": 1}, "form": "cob", "units": 9000},
        "M9": {"name": "unused mix", "parts": {"S1": 2}, "form": "cob"},
    },
    "test_sets": {
        "T1": {"kind": "compression", "mix": "M1", "capped": "plaster of paris", "shown_to_official": "2026-05-10"},
        "R1": {"kind": "rupture", "mix": "M1", "shown_to_official": "2026-05-10"},
        "S1": {"kind": "shrinkage", "mix": "M1", "shown_to_official": "2026-05-10"},
    },
    "walls": {
        "W1": {
            "run": {"from": ["0 ft", "0 ft"], "to": ["20 ft", "0 ft"]}, "height": "8 ft", "thickness": "16 in",
            "mix": "M1", "use": "exterior", "bears_load": "yes", "braces": "no", "placed_from": "2026-06-01",
        }
    },
    "attachments": {
        "paper": {"file": "papers/paper.txt", "title": "A letter", "date": "2026-05-20"},
        "undated": {"file": "papers/undated.txt", "title": "A letter without a day"},
        "picture": {"file": "photos/picture.png", "title": "A photo", "date": "2026-05-20"},
    },
}  # fmt: skip


def tricks() -> list[dict[str, Any]]:
    """The table, one mapping to a trick."""
    found: list[dict[str, Any]] = read_yaml(TABLE, TABLE.name)["tricks"]
    return found


def lay_out(folder: Path, trick: dict[str, Any]) -> Path:
    """The project in `folder`, with what the trick changes."""
    tables = {
        "compression": _rows("T1", _PRISM, {mark: {"peak_load": str(load)} for mark, load in LOADS.items()}),
        "rupture": _rows("R1", _BEAM, {mark: {"peak_load": str(load)} for mark, load in BREAKS.items()}),
        "shrinkage": _rows("S1", _BAR, {mark: {"dried_length": length} for mark, length in BARS.items()}),
    }
    for kind, rows in tables.items():
        _changed(rows, trick, kind)
    units = {kind: UNITS | (trick.get("units", {}) if kind == "compression" else {}) for kind in tables}
    files = {f"lab/{kind}.csv": _table(rows, kind, units[kind]) for kind, rows in tables.items()}
    files |= {"papers/paper.txt": "A letter.\n", "papers/undated.txt": "A letter.\n"}
    for name, text in trick.get("files", {}).items():
        files[name] = text
    for name in trick.get("without", []):
        del files[name]
    (folder / "photos").mkdir(parents=True)
    (folder / "photos" / "picture.png").write_bytes(_picture())
    for name, text in files.items():
        (folder / name).parent.mkdir(parents=True, exist_ok=True)
        (folder / name).write_text(text, "utf-8")
    (folder / "rules.yaml").write_text((HERE / "rules.yaml").read_text("utf-8"), "utf-8")
    project = _merged(PROJECT, trick.get("project", {}))
    (folder / "project.yaml").write_text(json.dumps(project, indent=1, default=str), "utf-8")
    return folder


def _rows(mark: str, common: dict[str, str], each: dict[str, dict[str, str]]) -> dict[str, dict[str, str]]:
    return {name: {"set": mark, "specimen": name, **common, **cells} for name, cells in each.items()}


def _changed(rows: dict[str, dict[str, str]], trick: dict[str, Any], kind: str) -> None:
    """`rows` changes cells by mark ("all": of every row), `drop` leaves rows out, `add` copies rows with changes."""
    for mark, copied in trick.get("add", {}).items():
        if copied["like"] in rows:
            cells = {name: str(value) for name, value in copied.items() if name != "like"}
            rows[mark] = {**rows[copied["like"]], "specimen": mark, **cells}
    for mark, cells in trick.get("rows", {}).items():
        of_kind = cells.get("table", "compression")
        for name in list(rows) if mark == "all" and of_kind == kind else [mark] if mark in rows else []:
            rows[name] |= {key: str(value) for key, value in cells.items() if key != "table"}
    for mark in trick.get("drop", []):
        rows.pop(mark, None)


def _table(rows: dict[str, dict[str, str]], kind: str, units: dict[str, str]) -> str:
    columns = {
        "compression": ["shape", "width", "depth", "height", "mass", "peak_load", "strength"],
        "rupture": ["shape", "width", "depth", "height", "span", "loading", "mass", "peak_load", "strength"],
        "shrinkage": ["form_length", "dried_length"],
    }[kind]
    names = ["set", "specimen", "mix", "cast", "tested", "dried", *columns]
    names += sorted({name for row in rows.values() for name in row} - set(names))
    out = io.StringIO()
    writer = csv.writer(out, lineterminator="\n")
    writer.writerow(f"{name} [{units[name]}]" if units.get(name) else name for name in names)
    writer.writerows([row.get(name, "") for name in names] for row in rows.values())
    return out.getvalue()


def _merged(base: dict[str, Any], more: dict[str, Any]) -> dict[str, Any]:
    made = copy.deepcopy(base)
    for key, value in more.items():
        if isinstance(value, dict) and isinstance(made.get(key), dict):
            made[key] = _merged(made[key], value)
        elif value is None:
            made.pop(key, None)
        else:
            made[key] = value
    return made


def _picture() -> bytes:
    from PIL import Image

    out = io.BytesIO()
    Image.new("RGB", (8, 8), "white").save(out, "png")
    return out.getvalue()
