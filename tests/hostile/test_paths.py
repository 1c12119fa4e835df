"""Files that are no files, lead elsewhere, cannot be read or are gone: never followed, never waited for."""

from __future__ import annotations

import os
import socket
import sys
from collections.abc import Callable
from pathlib import Path

import pytest

from tests.hostile.laying_out import SOUND, write
from tests.hostile.rights import without_privilege
from tests.hostile.running import Host, Ran, listing

ATTACHED = SOUND + "attachments: {A1: {file: photo.jpg, title: Photo}}\n"
INCLUDED = SOUND + "include: [more.yaml]\n"
AMENDED = SOUND + "amendments: [local.yaml]\n"
OWN_RULES = SOUND.replace("cob-practice", "county.yaml")
LAB = SOUND + "lab: {compression: {file: theirs.csv}}\n"

# What the project says, the file it speaks of, and where a problem with that file is told.
SPOKEN_OF = {
    "project": (SOUND, "project.yaml", "project.yaml"),
    "include": (INCLUDED, "more.yaml", "project.yaml:8:11"),
    "attachment": (ATTACHED, "photo.jpg", "project.yaml:8:26"),
    "amendment": (AMENDED, "local.yaml", "project.yaml:8:14"),
    "rules": (OWN_RULES, "county.yaml", "project.yaml:2:43"),
    "table": (SOUND, "lab/compression.csv", "lab/compression.csv"),
    "their-table": (LAB, "theirs.csv", "project.yaml:8:27"),
}
# For what is no regular file, the file itself is named where it is opened, its mention where it is looked for first.
OPENED = {**{name: at for name, (_, _, at) in SPOKEN_OF.items()}, "include": "more.yaml", "rules": "county.yaml"}


def _laid_out(kind: str, folder: Path) -> Path:
    """The project, without the file it speaks of; its path."""
    text, name, _ = SPOKEN_OF[kind]
    write(folder, {"project.yaml": text.encode()})
    path = folder / name
    path.parent.mkdir(exist_ok=True)
    path.unlink(missing_ok=True)
    return path


def _pipe(path: Path) -> None:
    os.mkfifo(path)


def _socket(path: Path) -> None:
    with socket.socket(socket.AF_UNIX) as one:
        one.bind(str(path))


def _folder(path: Path) -> None:
    path.mkdir()


def _refused(ran: Ran, before: dict[str, bytes | str], cwd: Path) -> list[str]:
    assert not ran.traced, ran.err
    assert ran.code == 2
    assert listing(cwd) == before
    return [problem.removeprefix("p/") for problem in ran.problems]


@pytest.mark.parametrize("make", [_pipe, _socket, _folder], ids=["pipe", "socket", "folder"])
@pytest.mark.parametrize("kind", sorted(SPOKEN_OF))
def test_no_regular_file(
    kind: str, make: Callable[[Path], None], host: Host, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)  # the path of a socket must be short
    make(_laid_out(kind, Path("p")))
    before = listing(tmp_path)
    found = _refused(host.run(["submittal", "p", "--output", "o.pdf"], tmp_path), before, tmp_path)
    code = "file-missing" if kind in ("attachment", "amendment", "their-table") else "file-not-regular"
    assert found == [f"{OPENED[kind]} {code}"]


@pytest.mark.parametrize("kind", sorted(SPOKEN_OF))
def test_link_out_of_the_folder(kind: str, host: Host, tmp_path: Path) -> None:
    """Whatever is behind the link is neither read nor shown."""
    path = _laid_out(kind, tmp_path / "p")
    (tmp_path / "secret").write_text("word: the-secret-word\n", "utf-8")
    path.symlink_to(tmp_path / "secret")
    before = listing(tmp_path)
    ran = host.run(["submittal", "p", "--output", "o.pdf"], tmp_path)
    assert _refused(ran, before, tmp_path) == [f"{SPOKEN_OF[kind][2]} path-outside"]
    assert "the-secret-word" not in ran.err + ran.out


@pytest.mark.parametrize("kind", sorted(SPOKEN_OF))
def test_link_to_a_device(kind: str, host: Host, tmp_path: Path) -> None:
    _laid_out(kind, tmp_path / "p").symlink_to("/dev/zero")
    before = listing(tmp_path)
    found = _refused(host.run(["submittal", "p", "--output", "o.pdf"], tmp_path), before, tmp_path)
    assert found == [f"{SPOKEN_OF[kind][2]} path-outside"]


@pytest.mark.parametrize("kind", sorted(SPOKEN_OF))
def test_links_in_a_circle(kind: str, host: Host, tmp_path: Path) -> None:
    path = _laid_out(kind, tmp_path / "p")
    (path.parent / "other").symlink_to(path.name)
    path.symlink_to("other")
    before = listing(tmp_path)
    found = _refused(host.run(["submittal", "p", "--output", "o.pdf"], tmp_path), before, tmp_path)
    assert found == [f"{SPOKEN_OF[kind][2]} path-unreadable"]


@pytest.mark.parametrize("kind", sorted(SPOKEN_OF))
def test_link_to_nothing(kind: str, host: Host, tmp_path: Path) -> None:
    path = _laid_out(kind, tmp_path / "p")
    path.symlink_to("gone")
    before = listing(tmp_path)
    [found] = _refused(host.run(["submittal", "p", "--output", "o.pdf"], tmp_path), before, tmp_path)
    assert found.split(" ")[1] == "file-missing"


@pytest.mark.parametrize("kind", sorted(SPOKEN_OF))
def test_link_inside_the_folder(kind: str, host: Host, tmp_path: Path) -> None:
    """A link from one file of the folder to another is read like a file."""
    path = _laid_out(kind, tmp_path / "p")
    path.symlink_to("real")
    (path.parent / "real").write_bytes(b"[")
    ran = host.run(["check", "p", "--quiet"], tmp_path)
    assert not any(problem.endswith(("path-outside", "file-missing", "path-unreadable")) for problem in ran.problems)


def test_a_folder_reached_by_a_link_is_read(host: Host, tmp_path: Path) -> None:
    write(tmp_path / "real", {"project.yaml": SOUND.encode()})
    (tmp_path / "p").symlink_to("real")
    assert host.run(["check", "p", "--quiet"], tmp_path).code == 1


@pytest.mark.parametrize(
    "name", ["", ".", "gone", "/dev/null", "/dev/zero", "p/project.yaml", "\x1b[31mp", "a" * 300, "a\nb"]
)
def test_no_project_folder(name: str, host: Host, tmp_path: Path) -> None:
    """Also names that a terminal would obey are told as plain characters."""
    write(tmp_path / "p", {"project.yaml": SOUND.encode()})
    before = listing(tmp_path)
    ran = host.run(["submittal", name, "--output", "o.pdf"], tmp_path)
    [found] = _refused(ran, before, tmp_path)
    assert found.split(" ")[-1] in ("folder-missing", "file-missing", "file-unreadable")
    assert "\x1b" not in ran.err
    assert "a\nb" not in ran.err


@pytest.mark.skipif(not sys.platform.startswith("linux"), reason="rights as Linux has them")
@pytest.mark.parametrize("kind", sorted(SPOKEN_OF))
def test_unreadable(kind: str, tmp_path: Path) -> None:
    path = _laid_out(kind, tmp_path / "p")
    path.write_bytes(b"a: 1\n")
    path.chmod(0)
    ran = without_privilege("check", "p", "--quiet", cwd=tmp_path)
    path.chmod(0o600)
    assert not ran.traced, ran.err
    assert ran.code == 2
    [found] = ran.problems
    assert found.split(" ")[1] == "file-unreadable"
