"""The rooms of the package: which may use which, how full they are, and that a name means one thing."""

from __future__ import annotations

import ast
from collections import Counter, defaultdict
from functools import cache
from pathlib import Path

import pytest

from tests.package_sources import PACKAGE, tree_of

MODULES = {path.relative_to(PACKAGE).with_suffix("").as_posix(): path for path in sorted(PACKAGE.rglob("*.py"))}

ROOMS = (
    "units exit_codes problems refused record steps stages findings files",  # what every room may use
    "model formulas",
    "facts rules",
    "references judging",
    "checked",
    "reading",
    "remedies",
    "report schemas",
    "linting",
    "checking problem_pages worker_pool",
    "drawings",
    "documents output checking_each",
    "editing start",
    "desk",
    "commands",
    "cli",
    "__main__",
)
"""From the ground up: a room uses those of lower lines, and those of its own line only where `BESIDE` says so."""

LEVEL = {room: level for level, line in enumerate(ROOMS) for room in line.split()}
BESIDE = {("rules", "facts"), ("units", "record"), ("problems", "record"), ("refused", "problems"),
          ("steps", "record"), ("steps", "units"), ("findings", "problems"), ("findings", "record"),
          ("findings", "steps"), ("findings", "stages"), ("start", "editing"),
          ("files", "refused"), ("files", "problems"), ("checking_each", "output")}  # fmt: skip


def imports(path: Path) -> set[str]:
    """The modules of the package that a file imports, by their path without ending."""
    found = set()
    for node in ast.walk(tree_of(path)):
        if isinstance(node, ast.ImportFrom) and (node.module or "").split(".")[0] == "compliance":
            base = "/".join((node.module or "").split(".")[1:])
            for name in node.names:
                inner = f"{base}/{name.name}".lstrip("/")
                found.add(inner if inner in MODULES else base if base in MODULES else f"{base}/__init__".lstrip("/"))
    return found - {"__init__"}


@cache
def every_use() -> dict[str, set[str]]:
    return {name: imports(path) for name, path in MODULES.items()}


def room(module: str) -> str:
    """The top folder; the formula language is a room of its own, for facts and rules both stand on it."""
    return "formulas" if module.startswith("rules/formulas/") else module.split("/")[0]


def test_every_module_is_in_a_room_that_is_placed() -> None:
    assert {room(one) for one in MODULES} - {"__init__"} == set(LEVEL)


def test_rooms_use_only_what_is_below_them() -> None:
    wrong = [
        f"{module} uses {used}"
        for module, uses in every_use().items()
        for used in sorted(uses)
        if room(module) != room(used)
        and LEVEL[room(used)] >= LEVEL[room(module)]
        and (room(module), room(used)) not in BESIDE
    ]
    assert wrong == []


@pytest.mark.parametrize("room_above", ["documents", "output", "report", "drawings", "remedies", "judging", "facts"])
def test_nobody_reads_project_files_but_reading(room_above: str) -> None:
    """What a room needs from files is handed to it."""
    wrong = [
        f"{module} uses {used}"
        for module, uses in every_use().items()
        if room(module) == room_above
        for used in sorted(uses)
        if room(used) == "reading"
    ]
    assert wrong == []


def test_documents_and_output_do_not_use_each_other() -> None:
    pairs = {(room(module), room(used)) for module, uses in every_use().items() for used in uses}
    assert not pairs & {("documents", "output"), ("output", "documents")}


def test_report_knows_no_page_no_terminal_and_no_html() -> None:
    for name, path in MODULES.items():
        if room(name) in ("report", "judging", "facts", "rules", "drawings"):
            tree = tree_of(path)
            outside = {
                (node.module or "").split(".")[0] if isinstance(node, ast.ImportFrom) else alias.name.split(".")[0]
                for node in ast.walk(tree)
                if isinstance(node, ast.Import | ast.ImportFrom)
                for alias in node.names
            }
            assert not outside & {"reportlab", "typer", "html", "xlsxwriter", "pypdf", "PIL"}, name


def test_no_files_import_each_other_in_a_circle() -> None:
    """Imports for types alone are left out: they never run."""
    uses = {name: _at_run_time(path) for name, path in MODULES.items()}
    done: set[str] = set()

    def visit(module: str, above: tuple[str, ...]) -> None:
        assert module not in above, " -> ".join([*above[above.index(module) :], module])
        if module not in done:
            for used in sorted(uses[module]):
                visit(used, (*above, module))
            done.add(module)

    for module in uses:
        visit(module, ())


def _at_run_time(path: Path) -> set[str]:
    found = set()
    for node in tree_of(path).body:
        if isinstance(node, ast.ImportFrom) and (node.module or "").split(".")[0] == "compliance":
            base = "/".join((node.module or "").split(".")[1:])
            for name in node.names:
                inner = f"{base}/{name.name}".lstrip("/")
                found.add(inner if inner in MODULES else base if base in MODULES else f"{base}/__init__".lstrip("/"))
    return found - {"__init__"}


def test_folders_and_modules_keep_their_size() -> None:
    full = Counter(path.parent for name, path in MODULES.items() if not name.endswith("__init__"))
    assert {folder.relative_to(PACKAGE).as_posix(): count for folder, count in full.items() if count > 15} == {}
    lengths = {name: path.read_text(encoding="utf-8").count("\n") for name, path in MODULES.items()}
    assert {name: length for name, length in lengths.items() if length > 300} == {}
    own = sorted(length for name, length in lengths.items() if not name.endswith("__init__"))
    assert own[len(own) // 2] <= 130


def test_a_file_name_means_one_thing() -> None:
    by_name = defaultdict(list)
    for name in MODULES:
        by_name[name.rpartition("/")[2]].append(name)
    twice = {name: places for name, places in by_name.items() if len(places) > 1 and not name.startswith("__")}
    assert twice == {}


def test_every_folder_says_what_it_holds() -> None:
    for path in PACKAGE.rglob("__init__.py"):
        assert ast.get_docstring(tree_of(path)), path.relative_to(PACKAGE)
