"""What is handed out: the wheel holds what the tool needs and nothing else, and works with no checkout at hand."""

from __future__ import annotations

import os
import re
import shutil
import subprocess
import sys
import sysconfig
import tomllib
import venv
import zipfile
from collections.abc import Iterator
from pathlib import Path

import pytest

from tests.hostile.running import HARD_TIMEOUT, ROOT

pytest.importorskip("hatchling")

_LEFT_OUT = shutil.ignore_patterns(
    ".git", ".venv", "__pycache__", ".*_cache", ".hypothesis", ".benchmarks", "out", "*.egg-info", "dist", "build"
)  # fmt: skip


@pytest.fixture(scope="module")
def wheel(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The wheel, built from a copy of the checkout."""
    place = tmp_path_factory.mktemp("built")
    shutil.copytree(ROOT, place / "copy", ignore=_LEFT_OUT)
    done = subprocess.run(
        [sys.executable, "-m", "hatchling", "build", "-t", "wheel", "-d", str(place / "dist")],
        cwd=place / "copy", capture_output=True, text=True, timeout=HARD_TIMEOUT, check=False,
    )  # fmt: skip
    assert done.returncode == 0, done.stderr
    [found] = (place / "dist").iterdir()
    return found


def _expected() -> Iterator[str]:
    """Every file of the package, the rule sets and the examples."""
    for folder, inside in (
        ("compliance", ""),
        ("rulesets", "compliance/shipped/"),
        ("example_project", "compliance/shipped/"),
        ("example_round", "compliance/shipped/"),
    ):
        for path in (ROOT / folder).rglob("*"):
            name = path.relative_to(ROOT).as_posix()
            if path.is_file() and "__pycache__" not in name and path.suffix != ".pyc":
                yield f"{inside}{name}"


def _tracked() -> set[str] | None:
    """The files under version control, where there is git to ask."""
    done = subprocess.run(["git", "ls-files"], cwd=ROOT, capture_output=True, text=True, check=False)
    return set(done.stdout.splitlines()) if done.returncode == 0 else None


def test_contents(wheel: Path) -> None:
    with zipfile.ZipFile(wheel) as archive:
        names = {name for name in archive.namelist() if ".dist-info/" not in name}
    expected = set(_expected())
    tracked = _tracked()
    if tracked is not None:  # files in the making are in neither
        expected = {name for name in expected if name.removeprefix("compliance/shipped/") in tracked}
        names = {name for name in names if name.removeprefix("compliance/shipped/") in tracked}
    assert names == expected
    assert any(name.endswith(".ttf") for name in names)
    assert "compliance/shipped/rulesets/cob-irc-2021-au.yaml" in names
    assert "compliance/shipped/example_project/project.yaml" in names
    assert "compliance/shipped/example_round/project.yaml" in names
    assert not any(name.startswith(("tests/", "out/")) for name in names)


def test_particulars(wheel: Path) -> None:
    """Licences of tool and fonts go with it; it asks for Python and libraries in the bounds of pyproject.toml."""
    with zipfile.ZipFile(wheel) as archive:
        [name] = [one for one in archive.namelist() if one.endswith(".dist-info/METADATA")]
        told = archive.read(name).decode()
        licences = [one for one in archive.namelist() if ".dist-info/licenses/" in one]
    assert {Path(one).name for one in licences} == {"LICENSE", "LICENSE-OFL.txt"}
    project = tomllib.loads((ROOT / "pyproject.toml").read_text("utf-8"))["project"]
    assert f"Requires-Python: {project['requires-python']}" in told
    needed = re.findall(r"^Requires-Dist: ([^;\n]+)$", told, re.MULTILINE)
    assert len(needed) == len(project["dependencies"])


def test_every_library_is_bounded_below_and_above() -> None:
    project = tomllib.loads((ROOT / "pyproject.toml").read_text("utf-8"))["project"]
    for one in project["dependencies"]:
        assert re.fullmatch(r"[A-Za-z][A-Za-z0-9_.-]*>=[0-9.]+,<[0-9.]+", one), one


def test_every_bound_has_its_reason() -> None:
    """A comment in pyproject.toml beside each library says why its bounds are what they are."""
    text = (ROOT / "pyproject.toml").read_text("utf-8")
    listed = text.partition("dependencies = [")[2].partition("\n]")[0]
    lines = [line for line in listed.splitlines() if line.strip().startswith('"')]
    assert lines
    assert all(re.search(r'",\s+# \S', line) for line in lines), lines


@pytest.fixture(scope="module")
def installed(wheel: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """An environment of its own that holds the wheel, and borrows the libraries it asks for."""
    place = tmp_path_factory.mktemp("installed") / "env"
    venv.create(place, with_pip=False)
    [packages] = (place / "lib").glob("python*/site-packages")
    with zipfile.ZipFile(wheel) as archive:
        archive.extractall(packages)
    borrowed = {sysconfig.get_path("purelib"), sysconfig.get_path("platlib")}
    (packages / "borrowed.pth").write_text("\n".join(sorted(borrowed)) + "\n", "utf-8")
    return place / "bin" / "python"


def _run(python: Path, *args: str, cwd: Path) -> subprocess.CompletedProcess[str]:
    env = {name: value for name, value in os.environ.items() if not name.startswith(("PYTHON", "PYTEST_"))}
    return subprocess.run(
        [str(python), *args], cwd=cwd, env=env, capture_output=True, text=True, timeout=HARD_TIMEOUT, check=False
    )  # fmt: skip


def test_works_with_no_checkout_at_hand(installed: Path, tmp_path: Path) -> None:
    where = _run(installed, "-c", "import compliance; print(compliance.__file__)", cwd=tmp_path).stdout.strip()
    assert Path(where).is_relative_to(installed.parents[1])
    for args, code in (
        (("example", "my house"), 0), (("check", "my house"), 1), (("submittal", "my house"), 0),
        (("rules", "list"), 0), (("checklist", "my house", "--format", "html", "--output", "c.html"), 0),
    ):  # fmt: skip
        done = _run(installed, "-m", "compliance", *args, cwd=tmp_path)
        assert done.returncode == code, done.stderr
        assert "Traceback" not in done.stderr
    [made] = (tmp_path / "out").iterdir()
    assert len(list(made.iterdir())) == 3
    assert all(path.read_bytes().startswith(b"%PDF-1.7") for path in made.iterdir())
    assert (tmp_path / "my house" / "issued").is_dir()
