"""Paths a user writes stay inside the project's folder, whichever way they are written."""

from __future__ import annotations

from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from compliance.files.safe_paths import inside
from compliance.problems import Place, Problem
from compliance.refused import RefusedError


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    inner = tmp_path / "project"
    (inner / "photos").mkdir(parents=True)
    (inner / "photos" / "wall 1.jpg").touch()
    (tmp_path / "secret.txt").touch()
    return inner


@pytest.mark.parametrize(
    ("written", "parts"),
    [
        ("lab.csv", ("lab.csv",)),
        ("photos/wall 1.jpg", ("photos", "wall 1.jpg")),
        ("./photos//wall 1.jpg", ("photos", "wall 1.jpg")),
        ("photos/not-yet-there.jpg", ("photos", "not-yet-there.jpg")),
        ("photos/", ("photos",)),
        (".hidden/é, 墙..1.jpg", (".hidden", "é, 墙..1.jpg")),
        ("~/lab.csv", ("~", "lab.csv")),
        ("console/com10.csv", ("console", "com10.csv")),
        ("plan-con.csv", ("plan-con.csv",)),
    ],
)
def test_inside(folder: Path, written: str, parts: tuple[str, ...]) -> None:
    assert inside(folder, written) == folder.resolve().joinpath(*parts)


@pytest.mark.parametrize(
    ("written", "code"),
    [
        ("", "path-empty"),
        ("  ", "path-empty"),
        (".", "path-empty"),
        ("./", "path-empty"),
        ("/etc/passwd", "path-absolute"),
        ("//server/share", "path-absolute"),
        ("C:/lab.csv", "path-colon"),
        ("C:lab.csv", "path-colon"),
        ("lab.csv:stream", "path-colon"),
        ("\\\\server\\share", "path-backslash"),
        ("photos\\..\\..\\secret.txt", "path-backslash"),
        ("..", "path-parent"),
        ("../secret.txt", "path-parent"),
        ("photos/../lab.csv", "path-parent"),
        ("photos/..", "path-parent"),
        (".. /secret.txt", "path-blank"),
        ("photos/.../x", "path-blank"),
        ("lab.csv.", "path-blank"),
        (" lab.csv", "path-blank"),
        ("photos /x", "path-blank"),
        ("lab|one.csv", "path-character"),
        ("photos/which?.jpg", "path-character"),
        ("<lab>.csv", "path-character"),
        ("con", "path-device"),
        ("photos/Nul.jpg", "path-device"),
        ("COM1.tar.gz", "path-device"),
        ("aux/lab.csv", "path-device"),
        ("lpt\u00b2.csv", "path-device"),
        ("prn .csv", "path-device"),
        ("CONIN$", "path-device"),
        ("lab\0.csv", "path-control-character"),
        ("lab.csv\n", "path-control-character"),
        ("lab\tone.csv", "path-control-character"),
        ("lab\u202evsc.exe", "path-control-character"),
        ("lab\udc80.csv", "path-control-character"),
    ],
)
def test_refused(folder: Path, written: str, code: str) -> None:
    with pytest.raises(RefusedError) as caught:
        inside(folder, written)
    assert caught.value.code == code and caught.value.wrong and caught.value.instead


def test_links(folder: Path) -> None:
    (folder / "in").symlink_to("photos")
    (folder / "out").symlink_to("..")
    (folder / "out.txt").symlink_to(folder.parent / "secret.txt")
    (folder / "loop").symlink_to("loop")
    assert inside(folder, "in/wall 1.jpg") == folder.resolve() / "photos" / "wall 1.jpg"
    for written, code in (
        ("out/secret.txt", "path-outside"),
        ("out", "path-outside"),
        ("out.txt", "path-outside"),
        ("out/project/lab.csv", None),
        ("loop", "path-unreadable"),
        ("loop/lab.csv", "path-unreadable"),
    ):
        if code is None:
            assert inside(folder, written) == folder.resolve() / "lab.csv"
            continue
        with pytest.raises(RefusedError) as caught:
            inside(folder, written)
        assert caught.value.code == code


def test_a_neighbour_whose_name_begins_alike_is_outside(folder: Path) -> None:
    (folder.parent / "project-2").mkdir()
    (folder / "other").symlink_to(folder.parent / "project-2")
    with pytest.raises(RefusedError) as caught:
        inside(folder, "other/lab.csv")
    assert caught.value.code == "path-outside"


def test_the_folder_itself_may_be_a_link(folder: Path) -> None:
    link = folder.parent / "link"
    link.symlink_to(folder)
    assert inside(link, "lab.csv") == folder.resolve() / "lab.csv"


def test_a_refusal_becomes_a_problem(folder: Path) -> None:
    with pytest.raises(RefusedError) as caught:
        inside(folder, "../secret.txt")
    place = Place("project.yaml", 3, 9)
    assert caught.value.at(place) == Problem(place, "path-parent", caught.value.wrong, caught.value.instead)


@given(st.text(max_size=40) | st.text(st.sampled_from("./\\:~ a\0\n"), max_size=12))
def test_any_text_is_inside_or_refused(tmp_path_factory: pytest.TempPathFactory, written: str) -> None:
    root = tmp_path_factory.getbasetemp()
    try:
        found = inside(root, written)
    except RefusedError:
        return
    assert found != root.resolve() and found.is_relative_to(root.resolve()) and ".." not in found.parts
