"""What differs on Windows, held without one: line ends, paths with backslashes and drives, what a terminal can show."""

from __future__ import annotations

import shutil
from pathlib import Path, PureWindowsPath

import pytest
from hypothesis import given
from hypothesis import strategies as st

from compliance.checking import check_folder
from compliance.editing.assignments import edit_of, read_assignments
from compliance.files.file_states import changed
from compliance.files.safe_paths import inside
from compliance.output.files.write_targets import file_name
from compliance.output.terminal.problem_text import headline, problems_text
from compliance.problems import Place, Problem, ProblemsFound
from compliance.reading.source_lines import read_source_lines
from compliance.refused import RefusedError
from compliance.start.interview.first_questions import script
from compliance.start.shapes.wall_table import read_wall_table
from tests.conftest import EXAMPLE, Write

TEXTS = {".yaml", ".csv"}


def with_line_ends(folder: Path) -> Path:
    """The example as an editor on Windows saves it: its own line ends, and a mark at the beginning."""
    shutil.copytree(EXAMPLE, folder)
    for path in folder.rglob("*"):
        if path.suffix in TEXTS:
            text = path.read_bytes().replace(b"\r\n", b"\n").replace(b"\n", b"\r\n")
            path.write_bytes(b"\xef\xbb\xbf" + text)
    return folder


def test_line_ends_of_windows_change_no_finding_and_no_place(tmp_path: Path) -> None:
    here, there = check_folder(EXAMPLE), check_folder(with_line_ends(tmp_path / "windows"))
    assert [(one.rule, one.subject, one.outcome, one.value, one.reason, one.place) for one in here.findings] == [
        (one.rule, one.subject, one.outcome, one.value, one.reason, one.place) for one in there.findings
    ]


def test_a_slip_between_line_ends_of_windows_has_the_same_place_and_mark(project: Write) -> None:
    told = []
    for end in ("\n", "\r\n"):
        folder = project()
        path = folder / "project.yaml"
        text = path.read_text(encoding="utf-8").replace("16 in", "16").replace("\r\n", "\n")
        path.write_bytes(text.replace("\n", end).encode())
        with pytest.raises(ProblemsFound) as found:
            check_folder(folder)
        told.append(problems_text(found.value.problems, 100, read_source_lines))
    assert told[0] == told[1] and "\r" not in told[1] and "^" in told[1]


def test_a_what_if_reads_files_of_windows_alike(tmp_path: Path) -> None:
    edit = edit_of(read_assignments(["W6.thickness=20 in"]))
    here, there = check_folder(EXAMPLE, edit), check_folder(with_line_ends(tmp_path / "windows"), edit)
    assert [one.outcome for one in here.findings] == [one.outcome for one in there.findings]


def test_a_table_of_walls_with_line_ends_of_windows(tmp_path: Path) -> None:
    path = tmp_path / "walls.csv"
    path.write_bytes(
        b"\xef\xbb\xbfmark;from x [m];from y [m];to x [m];to y [m];height [m];thickness [mm]\r\nA;0;0;6;0;2.4;400\r\n"
    )
    assert list(read_wall_table(path)) == ["A"]


@pytest.mark.parametrize("written", [r"photos\wall.jpg", r"C:\photos\wall.jpg", "C:wall.jpg", r"\\server\share\a.jpg",
                                     "photos/wall.jpg:stream", "photos/wall.", "photos /wall.jpg"])  # fmt: skip
def test_paths_of_windows_in_a_project_are_refused_on_every_system(tmp_path: Path, written: str) -> None:
    with pytest.raises(RefusedError):
        inside(tmp_path, written)


_DEVICES = st.sampled_from(["con", "PRN", "Aux", "nul", "com1", "COM9", "lpt3", "com\u00b9", "conin$", "CONOUT$"])
_NAMES = st.builds("".join, st.tuples(_DEVICES, st.text("con.1 a", max_size=4))) | st.text("conaux.12 ", max_size=6)


@given(st.lists(_NAMES | st.just("photos"), min_size=1, max_size=3))
def test_names_of_devices_are_refused_as_the_library_knows_them(
    tmp_path_factory: pytest.TempPathFactory, parts: list[str]
) -> None:
    """The library of Python lists the names of devices; it looks at the last part of a path, and we at each."""
    device = any(PureWindowsPath(part).is_reserved() for part in parts)
    try:
        inside(tmp_path_factory.getbasetemp(), "/".join(parts))
    except RefusedError as refused:
        assert refused.code != "path-device" or device
    else:
        assert not device


@given(_NAMES)
def test_no_file_made_is_named_as_a_device(name: str) -> None:
    assert not PureWindowsPath(file_name(name)).is_reserved()
    assert not PureWindowsPath(f"{file_name(name)}.json").is_reserved()


def test_names_are_shown_with_slashes_and_files_made_have_names_that_windows_takes() -> None:
    folder = Path("my_house")
    assert changed({}, {folder / "lab" / "a.csv": (1, 1)}, folder) == ["lab/a.csv"]
    place = Place(PureWindowsPath(r"my house\walls.yaml").as_posix(), 3, 1)
    assert headline(Problem(place, "x", "wrong", "")).startswith("my house/walls.yaml:3:1")
    assert not set('<>:"/\\|?*') & set(file_name('a<b>:"/\\|?*.'))


def test_a_table_of_walls_may_be_named_by_a_path_of_windows(tmp_path: Path) -> None:
    """What is typed in the interview is a path of the system it is typed on: drives and backslashes are no problem."""
    path = tmp_path / "a house" / "walls.csv"
    path.parent.mkdir()
    path.write_text("mark,from x [m],from y [m],to x [m],to y [m],height [m],thickness [m]\nA,0,0,6,0,2.4,0.4\n")
    answers = {"name": "x", "begin": "building", "place": "y", "rule_sets": "cob-practice", "units": "si"}
    question = next(one for one in script(answers) if one.key == "length")
    assert question.read(str(path)) == str(path)
