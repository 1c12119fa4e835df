"""A what-if is the same as editing the file, touches no file, and refuses what a file would be refused for."""

from __future__ import annotations

import re
import shutil
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from compliance.checking import check_folder
from compliance.editing.assignments import at_assignment, edit_of, read_assignments
from compliance.findings import Finding
from compliance.problems import ProblemsFound
from tests.conftest import EXAMPLE, RULES, WALLS, Write
from tests.running import run_tool
from tests.tries import tries


def plain(findings: tuple[Finding, ...]) -> list[tuple[object, ...]]:
    """Findings without the line they point to, which a new line in a file moves."""
    return [
        (one.rule_set, one.rule, one.subject, one.outcome, one.value, one.limit, one.margin, one.reason)
        for one in findings
    ]


def tried(folder: Path, *changes: str) -> tuple[Finding, ...]:
    return check_folder(folder, edit_of(read_assignments(changes))).findings


def copied(folder: Path) -> Path:
    """The example under three of its five rule sets, so that it is judged in less time."""
    shutil.copytree(EXAMPLE, folder, ignore=shutil.ignore_patterns("issued"))
    path = folder / "project.yaml"
    text = path.read_text(encoding="utf-8")
    for one in ("structural-screening", "engineers-list"):
        text = text.replace(f"    - {one}\n", "", 1)
    path.write_text(text, encoding="utf-8")
    return folder


def edited(folder: Path, file: str, old: str, new: str) -> tuple[Finding, ...]:
    path = folder / file
    text = path.read_text(encoding="utf-8")
    assert text.count(old) >= 1, old
    path.write_text(text.replace(old, new, 1), encoding="utf-8")
    return check_folder(folder).findings


@pytest.mark.parametrize(
    ("change", "file", "old", "new"),
    [
        ("W6.height=9 ft", "walls.yaml", "height: 11 ft 6 in", "height: 9 ft"),
        ("W3.N5.start=13 ft", "walls.yaml", "N5: {kind: window, start: 14 ft,", "N5: {kind: window, start: 13 ft,"),
        ("walls.W3.openings.N5.width=2 ft", "walls.yaml", "14 ft, width: 2 ft 6 in", "14 ft, width: 2 ft"),
        ("wall_types.outer.height=9 ft", "walls.yaml", "height: 8 ft", "height: 9 ft"),
        ("outer.thickness_top=16 in", "walls.yaml", "thickness_top: 14 in", "thickness_top: 16 in"),
        ("F1.bar_count=3", "ground.yaml", "bar_count: 2", "bar_count: 3"),
        ("site.seismic_category=D", "ground.yaml", "seismic_category: B", "seismic_category: D"),
        ("site.flood_zone=yes", "ground.yaml", "flood_zone: no", "flood_zone: yes"),
        ("B1.anchors.spacing=6 ft", "ground.yaml", "spacing: 4 ft", "spacing: 6 ft"),
        ("R1.bears_on.2.wall=W2", "project.yaml", "{wall: W3, tributary", "{wall: W2, tributary"),
        ("W4.run=(from [0 ft, 16 ft])", "", "", ""),
        ("W2.thickness=20 in", "walls.yaml", "    name: east bay, curved\n",
         "    name: east bay, curved\n    thickness: 20 in\n"),
        ("W1.name=", "walls.yaml", "    name: south wall\n", ""),
        ("buttresses.BT1={wall: W4, at: 8 ft, projection: 2 ft, width: 18 in, height: 8 ft}", "walls.yaml", "walls:\n",
         "buttresses:\n  BT1: {wall: W4, at: 8 ft, projection: 2 ft, width: 18 in, height: 8 ft}\n\nwalls:\n"),
    ],
)  # fmt: skip
def test_a_change_is_the_same_as_in_the_file(tmp_path: Path, change: str, file: str, old: str, new: str) -> None:
    folder = copied(tmp_path / "copy")
    if not file:
        with pytest.raises(ProblemsFound):
            tried(folder, change)
        return
    before = tried(folder, change)
    assert plain(before) == plain(edited(folder, file, old, new))


@settings(max_examples=tries(15), deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(
    wall=st.sampled_from(["W5", "W6"]), field=st.sampled_from(["height", "thickness"]), inches=st.integers(6, 150),
    units=st.sampled_from(["in", "mm"]),
)  # fmt: skip
def test_any_size_is_the_same_as_in_the_file(tmp_path: Path, wall: str, field: str, inches: int, units: str) -> None:
    folder = tmp_path / f"{wall}{field}{inches}{units}"
    if not folder.exists():
        copied(folder)
    value = f"{inches} in" if units == "in" else f"{inches * 25} mm"
    try:
        before: object = plain(tried(folder, f"{wall}.{field}={value}"))
    except ProblemsFound as found:
        before = {problem.code for problem in found.problems}
    path = folder / "walls.yaml"
    text = path.read_text(encoding="utf-8")
    head, wall_line = text.index(f"  {wall}:\n"), f"  {wall}:\n"
    end = text.index("\n\n", head)
    body = re.sub(rf"^    {field}: .*\n", "", text[head:end], count=1, flags=re.MULTILINE)
    body = body.replace(wall_line, f"{wall_line}    {field}: {value}\n", 1)
    path.write_text(text[:head] + body + text[end:], encoding="utf-8")
    try:
        after: object = plain(check_folder(folder).findings)
    except ProblemsFound as found:
        after = {problem.code for problem in found.problems}
    path.write_text(text, encoding="utf-8")
    assert before == after


@pytest.mark.parametrize(
    ("change", "code", "said"),
    [
        ("W1.thickness=16", "measure-no-unit", "write for example"),
        ("W1.thicknes=16 in", "field-unknown", "thickness"),
        ("W1.openings.D1.start=30 ft", "field-missing", "add"),
        ("W9.height=8 ft", "what-if-mark", "write"),
        ("W1.height.top=8 ft", "what-if-path", ""),
        ("W1", "what-if-form", "="),
        ("W1.run=[0 ft", "what-if-value", ""),
        ("W1.mix=M9", "mark-unknown", "M1"),
        ("W1.run.to.3=0 ft", "what-if-path", "count from 1"),
    ],
)
def test_a_wrong_change_is_refused_as_a_file_would_be(project: Write, change: str, code: str, said: str) -> None:
    folder = project()
    assignments = []
    with pytest.raises(ProblemsFound) as found:
        assignments = read_assignments([change])
        check_folder(folder, edit_of(assignments))
    problems = [at_assignment(one, assignments) for one in found.value.problems]
    assert code in {problem.code for problem in problems}
    assert any(problem.place.file == change and said in problem.instead for problem in problems)


def test_a_mark_of_two_sections_is_asked_about(project: Write) -> None:
    folder = project(text=WALLS + "stems: {W1: {material: stone}}\n")
    with pytest.raises(ProblemsFound, match=r"stems and walls|walls and stems"):
        tried(folder, "W1.thickness=20 in")
    assert tried(folder, "walls.W1.thickness=9 in")[0].outcome.value == "revise"


run = run_tool


def state(folder: Path) -> dict[Path, tuple[bytes, int]]:
    return {path: (path.read_bytes(), path.stat().st_mtime_ns) for path in sorted(folder.rglob("*")) if path.is_file()}


TALL = """\
  - {id: tall, title: Height, clause: T2, about: wall, say: Not too tall., check: wall.height_to_thickness <= most,
     otherwise: engineer, limits: {most: {value: 7, standing: read, source: trial}}}
"""
SLIM = WALLS.replace("16 in", "12 in")


def test_the_command_shows_what_changes_and_touches_nothing(project: Write, tmp_path: Path) -> None:
    folder = project(text=SLIM, rules=RULES + TALL)
    before = state(tmp_path)
    better = run("try", str(folder), "W1.thickness=14 in")
    assert better.returncode == 0 and "Gets better (1)" in better.stdout
    assert "engineer [8 <= 7] -> meets [6.857 <= 7]" in better.stdout
    worse = run("try", str(folder), "W1.thickness=9 in", "--all")
    assert worse.returncode == 1 and "Gets worse (2)" in worse.stdout
    assert "meets [12 in >= 10 in] -> revise [9 in >= 10 in]" in worse.stdout
    same = run("try", str(folder), "W1.thickness=12.5 in", "--all")
    assert same.returncode == 0 and "Same outcome, other numbers (2)" in same.stdout
    wrong = run("try", str(folder), "W1.thickness=20")
    assert wrong.returncode == 2 and wrong.stderr.startswith("W1.thickness=20: '20' has no unit [measure-no-unit]\n")
    assert "no finding changes" in run("try", str(folder), "W1.name=tall").stdout
    assert state(tmp_path) == before


def test_mend_and_range_print_and_touch_nothing(project: Write, tmp_path: Path) -> None:
    folder = project(text=SLIM, rules=RULES + TALL)
    before = state(tmp_path)
    mended = run("mend", str(folder), "W1")
    assert mended.returncode == 0 and "make the thickness of W1 14 in (now 12 in)" in mended.stdout
    assert "make the height of W1 7 ft (now 8 ft)" in mended.stdout
    assert "It is not a design" in " ".join(mended.stdout.split())
    commands = re.findall(r"try it: earthwall try (\S+) (\S+)=\"(.*)\"", mended.stdout)
    assert [name for _, name, _ in commands] == ["walls.W1.thickness", "walls.W1.height"]
    for _, name, text in commands:
        again = run("try", str(folder), f"{name}={text}")
        assert again.returncode == 0 and "Gets better (1)" in again.stdout
    ranged = run("range", str(folder), "W1")
    assert ranged.returncode == 0 and "height     2 ft to 8 ft   (now 8 ft)" in ranged.stdout
    assert "thickness  12 in to 36 in   (now 12 in)" in ranged.stdout
    assert "below: W1 tall gets worse" in ranged.stdout
    assert "not a permit" in " ".join(ranged.stdout.split())
    assert run("range", str(folder), "W66").returncode == run("mend", str(folder), "W66").returncode == 2
    explained = run("explain", str(folder), "W1", "tall")
    assert "make the height of W1 7 ft (now 8 ft)" in explained.stdout
    assert state(tmp_path) == before


def test_a_type_that_several_walls_share_is_offered_too(project: Write) -> None:
    text = """\
wall_types: {outer: {height: 8 ft, thickness: 12 in, mix: M1}}
walls:
  W1: {type: outer, run: {from: [0 ft, 0 ft], to: [20 ft, 0 ft]}}
  W2: {type: outer, run: {from: [0 ft, 20 ft], to: [20 ft, 20 ft]}}
  W3: {type: outer, thickness: 13 in, run: {from: [0 ft, 40 ft], to: [20 ft, 40 ft]}}
"""
    folder = project(text=text, rules=RULES + TALL)
    mended = run("mend", str(folder)).stdout
    assert max(len(line) for line in mended.splitlines() if "earthwall try" not in line) <= 100
    offered = re.findall(r"for all walls of type outer:\n +earthwall try \S+ (\S+)=\"(.*)\"", mended)
    thicker, lower = ("wall_types.outer.thickness", "14 in"), ("wall_types.outer.height", "7 ft")
    own = ("wall_types.outer.height", "7 ft 7 in")  # W3 states its own thickness, not its own height
    assert offered == [thicker, lower, thicker, lower, own]
    again = run("try", str(folder), "wall_types.outer.thickness=14 in").stdout
    assert "Gets better (2)" in again and "W3" not in again
    assert "earthwall try" in mended.partition("W3: Height")[2] and "W3.thickness" in mended


def test_nothing_to_mend(project: Write) -> None:
    assert run("mend", str(project())).stdout == "nothing to revise\n"
