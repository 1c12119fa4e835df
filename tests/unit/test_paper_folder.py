"""A folder of papers that belong together: whole, or as it was, and never over what somebody else put there."""

from __future__ import annotations

from pathlib import Path

import pytest
from typer.testing import CliRunner

from compliance.cli import app
from compliance.output.files.paper_folder import allow_folder, write_folder
from compliance.output.files.write_targets import TargetError
from tests.conftest import EXAMPLE

OURS = b"%PDF-1.7 /Creator (earthwall)"
FILES = {"papers.pdf": OURS + b" 2", "drawings.pdf": OURS + b" 2"}


def state(folder: Path) -> dict[str, bytes]:
    return {path.relative_to(folder).as_posix(): path.read_bytes() for path in folder.rglob("*") if path.is_file()}


def test_a_new_folder_holds_exactly_the_files(tmp_path: Path) -> None:
    write_folder(tmp_path / "s", FILES)
    assert state(tmp_path) == {f"s/{name}": data for name, data in FILES.items()}


def test_an_older_one_is_replaced_whole(tmp_path: Path) -> None:
    old = tmp_path / "s"
    old.mkdir()
    for name in ("papers.pdf", "calculations.pdf"):
        (old / name).write_bytes(OURS)
    write_folder(old, FILES)
    assert state(tmp_path) == {f"s/{name}": data for name, data in FILES.items()}


@pytest.mark.parametrize(
    "name, data", [("note.txt", b"mine"), ("papers.pdf", b"%PDF-1.4 of another"), ("sub/x.pdf", OURS)]
)
def test_what_is_not_ours_is_never_replaced(tmp_path: Path, name: str, data: bytes) -> None:
    path = tmp_path / "s" / name
    path.parent.mkdir(parents=True)
    path.write_bytes(data)
    before = state(tmp_path)
    for refused in (lambda: allow_folder(tmp_path / "s"), lambda: write_folder(tmp_path / "s", FILES)):
        with pytest.raises(TargetError, match="give another name"):
            refused()
    assert state(tmp_path) == before


def test_force_replaces_a_pdf_of_another_but_no_input_and_no_other_file(tmp_path: Path) -> None:
    folder = tmp_path / "s"
    folder.mkdir()
    (folder / "papers.pdf").write_bytes(b"%PDF-1.4 of another")
    with pytest.raises(TargetError, match="read from"):
        write_folder(folder, FILES, force=True, inputs=frozenset({(folder / "papers.pdf").resolve()}))
    write_folder(folder, FILES, force=True)
    assert state(folder) == FILES
    (folder / "note.txt").write_bytes(b"mine")
    with pytest.raises(TargetError):
        write_folder(folder, FILES, force=True)


def test_a_file_or_a_link_in_its_place_is_refused(tmp_path: Path) -> None:
    (tmp_path / "file").write_bytes(OURS)
    (tmp_path / "real").mkdir()
    (tmp_path / "link").symlink_to(tmp_path / "real")
    for name in ("file", "link"):
        with pytest.raises(TargetError, match="is no folder"):
            write_folder(tmp_path / name, FILES)


def test_nothing_is_left_where_the_folder_cannot_be_put_in_place(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    old = tmp_path / "s"
    old.mkdir()
    (old / "papers.pdf").write_bytes(OURS)
    before, rename = state(tmp_path), Path.rename

    def broken(self: Path, target: Path) -> Path:
        if self.name == "new":
            raise OSError(28, "no space left")
        return rename(self, target)

    monkeypatch.setattr(Path, "rename", broken)
    with pytest.raises(OSError, match="no space"):
        write_folder(old, FILES)
    assert state(tmp_path) == before


def test_one_part_and_all_in_one_file(tmp_path: Path) -> None:
    run = CliRunner().invoke
    for options, name in ((("--part", "drawings"), "d.pdf"), (("--one-file",), "all.pdf")):
        done = run(app, ["submittal", str(EXAMPLE), "--draft", *options, "--output", str(tmp_path / name)])
        assert done.exit_code == 0 and (tmp_path / name).read_bytes().startswith(b"%PDF-1.7"), done.output
    done = run(app, ["submittal", str(EXAMPLE), "--draft", "--one-file", "--part", "papers"])
    assert done.exit_code == 2 and "give one of the two" in " ".join(done.output.split())
