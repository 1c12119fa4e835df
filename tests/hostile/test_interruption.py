"""Ended at any moment, out of disk, without rights, or twice at once: the old file or the new one is there, whole.

Random kills are few by default; `EARTHWALL_KILLS=200 python -m pytest tests/hostile/test_interruption.py -k random`
for many.
"""

from __future__ import annotations

import os
import random
import re
import resource
import shutil
import signal
import subprocess
import sys
import time
from collections.abc import Callable
from pathlib import Path

import pytest

from tests.conftest import EXAMPLE
from tests.hostile.laying_out import SOUND, write
from tests.hostile.rights import without_privilege
from tests.hostile.running import HARD_TIMEOUT, Host, Ran, command, environment, listing, run
from tests.running import shared_host

KILLS = int(os.environ.get("EARTHWALL_KILLS", "5"))
SUBMITTAL = ("submittal", "p", "--output", "out/p.pdf", "--reissue")
_PART = re.compile(r"\.[^/]+\.[0-9]+\.part$")
_SCRATCH = re.compile(r"^\.earthwall-")

Listing = dict[str, bytes | str]


@pytest.fixture(scope="module")
def before_and_after(tmp_path_factory: pytest.TempPathFactory) -> tuple[Path, Listing, Listing]:
    """A folder with a project whose submittal is of an older state: what it holds before, and after writing anew.

    The project is a small one: what is written, and in what steps, is the same for any.
    """
    folder = tmp_path_factory.mktemp("state")
    write(folder / "p", {"project.yaml": SOUND.encode()})
    (folder / "out").mkdir()
    assert shared_host().run(SUBMITTAL, folder).code == 0
    text = (folder / "p" / "project.yaml").read_text("utf-8")
    (folder / "p" / "project.yaml").write_text(text.replace("name: Trial", "name: Trail"), "utf-8")
    before = listing(folder)
    done = tmp_path_factory.mktemp("done")
    shutil.copytree(folder, done, dirs_exist_ok=True)
    assert shared_host().run(SUBMITTAL, done).code == 0
    after = listing(done)
    changed = sorted(name for name in after if after[name] != before.get(name))
    assert "out/p.pdf" in changed
    assert all(name == "out/p.pdf" or name.startswith("p/issued/") for name in changed)
    return folder, before, after


def whole(folder: Path, before: Listing, after: Listing) -> list[str]:
    """Every file is the old one or the new one; names of what else is there."""
    now = listing(folder)
    for name in before.keys() | after.keys():
        assert now.get(name) in (before.get(name), after.get(name)), f"{name} is neither the old one nor the new one"
    return sorted(now.keys() - before.keys() - after.keys())


def _copy(folder: Path, to: Path) -> Path:
    shutil.copytree(folder, to, symlinks=True)
    return to


def _started(args: tuple[str, ...], cwd: Path) -> subprocess.Popen[bytes]:
    return subprocess.Popen(
        command(*args), cwd=cwd, env=environment(), stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL
    )  # fmt: skip


def test_random_kills(before_and_after: tuple[Path, Listing, Listing], tmp_path: Path) -> None:
    folder, before, after = before_and_after
    timed = _copy(folder, tmp_path / "timed")
    start = time.monotonic()
    assert run(SUBMITTAL, timed).code == 0
    lasts, dice, strays = time.monotonic() - start, random.Random(), 0
    for number in range(KILLS):
        place = _copy(folder, tmp_path / f"k{number}")
        process = _started(SUBMITTAL, place)
        time.sleep(dice.uniform(0, 1.1 * lasts))
        process.kill()
        process.wait(HARD_TIMEOUT)
        strays += len(whole(place, before, after))
        shutil.rmtree(place)
    assert strays == 0


def _broken(step: int, args: tuple[str, ...], cwd: Path, host: Host) -> int:
    done = host.run(args, cwd, step)
    assert not done.traced, done.err[-2000:]
    return done.code


def _every_step(
    args: tuple[str, ...], folder: Path, host: Host, tmp_path: Path, check: Callable[[Path], None], stride: int = 1
) -> int:
    """Breaks the command before each of its steps in turn, or before every one of so many; how many it broke before."""
    for number, step in enumerate(range(1, 400, stride)):
        place = _copy(folder, tmp_path / f"s{step}")
        code = _broken(step, args, place, host)
        check(place)
        shutil.rmtree(place)
        if code != -signal.SIGKILL:
            assert code == 0
            return number
    raise AssertionError("more steps than anyone expects")


def test_broken_off_before_each_step_of_a_submittal(
    before_and_after: tuple[Path, Listing, Listing], host: Host, tmp_path: Path
) -> None:
    """Only between giving the finished file a name and putting it in its place can a part be left, and it is whole."""
    folder, before, after = before_and_after
    left: list[str] = []

    def check(place: Path) -> None:
        strays = whole(place, before, after)
        for name in strays:
            assert _PART.search(name)
            assert (place / name).read_bytes() in after.values()
        left.extend(strays)

    steps = _every_step(SUBMITTAL, folder=folder, host=host, tmp_path=tmp_path, check=check)
    assert steps >= 4
    assert len(left) <= 4


def test_broken_off_before_each_step_of_an_example(host: Host, tmp_path: Path) -> None:
    """The copy is whole or not there; what a killed run left goes at the next run."""
    (tmp_path / "start").mkdir()
    assert shared_host().run(("example", "x"), tmp_path / "start").code == 0
    expected = listing(tmp_path / "start" / "x")
    shutil.rmtree(tmp_path / "start" / "x")

    def check(place: Path) -> None:
        names = {path.name for path in place.iterdir()}
        assert all(name == "x" or _SCRATCH.match(name) for name in names)
        assert "x" not in names or listing(place / "x") == expected

    assert (
        _every_step(("example", "x"), folder=tmp_path / "start", host=host, tmp_path=tmp_path, check=check, stride=5)
        >= 5
    )


def test_what_a_killed_run_left_is_cleared(host: Host, tmp_path: Path) -> None:
    assert _broken(6, ("example", "x"), tmp_path, host) == -signal.SIGKILL
    [left] = list(tmp_path.iterdir())
    assert _SCRATCH.match(left.name)
    old = time.time() - 3600
    os.utime(left, (old, old))
    (tmp_path / ".earthwall-of-a-user").write_text("kept")
    assert shared_host().run(("example", "y"), tmp_path).code == 0
    assert sorted(path.name for path in tmp_path.iterdir()) == [".earthwall-of-a-user", "y"]


ANSWERS = "name: Trial\nplace: Nowhere\nrule_sets: cob-practice\nunits: us\nlength: 20 ft\nwidth: 16 ft\n"
CONFIRM = (
    "confirm", "p", "footing-depth", "minimum", "--value", "14 in", "--by", "A. Reader", "--where", "Section 4",
    "--on", "2026-05-14",
)  # fmt: skip


@pytest.fixture
def plain(tmp_path: Path) -> Path:
    """A project without amendments, in a folder of its own."""
    write(tmp_path / "plain" / "p", {"project.yaml": SOUND.encode()})
    return tmp_path / "plain"


def test_broken_off_before_each_step_of_a_confirmation(plain: Path, host: Host, tmp_path: Path) -> None:
    """Two files change: the amendments first, then the project that names them. Broken off between the two, the project
    still reads, and the next confirmation says what to do."""
    done = _copy(plain, tmp_path / "done")
    assert shared_host().run(CONFIRM, done).code == 0
    before, after = listing(plain), listing(done)

    def check(place: Path) -> None:
        assert all(_PART.search(name) for name in whole(place, before, after))
        assert shared_host().run(("check", "p", "--quiet"), place).code == 1

    assert _every_step(CONFIRM, folder=plain, host=host, tmp_path=tmp_path, check=check) >= 4


@pytest.mark.parametrize(
    ("sent", "code"), [(signal.SIGTERM, 143), (signal.SIGHUP, 129), (signal.SIGINT, 130)], ids=["term", "hup", "int"]
)
def test_told_to_stop_it_clears_up(
    sent: signal.Signals, code: int, before_and_after: tuple[Path, Listing, Listing], tmp_path: Path
) -> None:
    folder, before, after = before_and_after
    place = _copy(folder, tmp_path / "place")
    process = _started(SUBMITTAL, place)
    time.sleep(0.3)
    process.send_signal(sent)
    left = process.wait(HARD_TIMEOUT)
    assert left in (code, -sent, 0)
    assert whole(place, before, after) == []


def _limited(args: tuple[str, ...], cwd: Path, most_bytes: int) -> Ran:
    def limit() -> None:
        resource.setrlimit(resource.RLIMIT_FSIZE, (most_bytes, most_bytes))

    done = subprocess.run(
        command(*args), cwd=cwd, env=environment(PYTHONDONTWRITEBYTECODE="1"), capture_output=True,
        timeout=HARD_TIMEOUT, preexec_fn=limit, check=False,
    )  # fmt: skip
    return Ran(done.returncode, done.stdout.decode(), done.stderr.decode())


@pytest.mark.parametrize("most", [0, 1, 20_000])
def test_no_file_may_be_so_large(most: int, before_and_after: tuple[Path, Listing, Listing], tmp_path: Path) -> None:
    """A limit on the size of files acts as a full disk does, with EFBIG for ENOSPC (setrlimit(2))."""
    folder, before, _ = before_and_after
    place = _copy(folder, tmp_path / "place")
    ran = _limited(SUBMITTAL, place, most)
    assert (ran.code, ran.traced) == (2, False), ran.err
    assert "not written" in ran.err
    assert listing(place) == before


def test_example_without_room(tmp_path: Path) -> None:
    ran = _limited(("example", "x"), tmp_path, 1000)
    assert (ran.code, ran.traced) == (2, False), ran.err
    assert list(tmp_path.iterdir()) == []


def test_confirm_without_room(plain: Path) -> None:
    before = listing(plain)
    ran = _limited(CONFIRM, plain, 10)
    assert (ran.code, ran.traced) == (2, False), ran.err
    assert listing(plain) == before


def test_full_disk(before_and_after: tuple[Path, Listing, Listing], tmp_path: Path) -> None:
    """A real disk with room for one submittal and little more, where the test may mount one."""
    folder, before, _ = before_and_after
    old = before["out/p.pdf"]
    assert isinstance(old, bytes)
    disk = tmp_path / "disk"
    disk.mkdir()
    mounted = subprocess.run(
        ["mount", "-t", "tmpfs", "-o", f"size={len(old) + 100_000}", "tmpfs", str(disk)],
        capture_output=True, check=False,
    )  # fmt: skip
    if mounted.returncode != 0:
        pytest.skip("no right to mount a disk")
    try:
        (disk / "old.pdf").write_bytes(old)
        place = _copy(folder, tmp_path / "place")
        ran = run(("submittal", "p", "--draft", "--output", str(disk / "old.pdf")), place)
        assert (ran.code, ran.traced) == (2, False), ran.err
        assert (disk / "old.pdf").read_bytes() == old
        assert [path.name for path in disk.iterdir()] == ["old.pdf"]
    finally:
        subprocess.run(["umount", str(disk)], check=True)


@pytest.mark.skipif(not sys.platform.startswith("linux"), reason="rights as Linux has them")
def test_folder_that_may_not_be_written(before_and_after: tuple[Path, Listing, Listing], tmp_path: Path) -> None:
    folder, before, _ = before_and_after
    place = _copy(folder, tmp_path / "place")
    (place / "out").chmod(0o555)
    ran = without_privilege(*SUBMITTAL, cwd=place)
    (place / "out").chmod(0o755)
    assert (ran.code, ran.traced) == (2, False), ran.err
    assert listing(place) == before
    (tmp_path / "closed").mkdir(mode=0o555)
    ran = without_privilege("example", "closed/x", cwd=tmp_path)
    assert (ran.code, ran.traced) == (2, False), ran.err
    assert list((tmp_path / "closed").iterdir()) == []


@pytest.mark.skipif(not sys.platform.startswith("linux"), reason="rights as Linux has them")
def test_file_that_may_not_be_written(before_and_after: tuple[Path, Listing, Listing], tmp_path: Path) -> None:
    """A file protected against writing stays, although its folder would let another take its place."""
    folder, before, _ = before_and_after
    place = _copy(folder, tmp_path / "place")
    (place / "out" / "p.pdf").chmod(0o444)
    ran = without_privilege(*SUBMITTAL, cwd=place)
    assert (ran.code, ran.traced) == (2, False), ran.err
    assert listing(place) == before


def test_two_submittals_at_once(before_and_after: tuple[Path, Listing, Listing], tmp_path: Path) -> None:
    folder, _, after = before_and_after
    place = _copy(folder, tmp_path / "place")
    both = [_started(SUBMITTAL, place) for _ in range(2)]
    assert [process.wait(HARD_TIMEOUT) for process in both] == [0, 0]
    assert listing(place) == after


def test_confirmations_at_once(plain: Path) -> None:
    """None is lost: each waits for the other."""
    rules = ("footing-depth", "footing-width", "footing-bars")
    values = ("14 in", "20 in", "3")
    runs = [
        _started(("confirm", "p", rule, "minimum", *CONFIRM[4:5], value, *CONFIRM[6:]), plain)
        for rule, value in zip(rules, values, strict=True)
    ]
    assert [process.wait(HARD_TIMEOUT) for process in runs] == [0, 0, 0]
    text = (plain / "p" / "amendments.yaml").read_text("utf-8")
    assert [rule for rule in rules if f"rule: {rule}" in text] == list(rules)
    assert shared_host().run(("check", "p", "--quiet"), plain).code == 1


@pytest.mark.parametrize(
    "name", ["p/project.yaml", "p/walls.yaml", "p/lab/compression.csv", "p/photos/mixing.png", "p"]
)
def test_an_input_is_never_written_over(name: str, tmp_path: Path) -> None:
    shutil.copytree(EXAMPLE, tmp_path / "p")
    before = listing(tmp_path)
    ran = shared_host().run(("submittal", "p", "--draft", "--output", name), tmp_path)
    assert (ran.code, ran.traced) == (2, False), ran.err
    assert listing(tmp_path) == before


@pytest.mark.parametrize("name", ["/dev/null", "/dev/full", "/proc/self/mem"])
def test_a_device_is_never_replaced(name: str, tmp_path: Path) -> None:
    shutil.copytree(EXAMPLE, tmp_path / "p")
    kind = Path(name).stat().st_mode
    ran = shared_host().run(("submittal", "p", "--draft", "--force", "--output", name), tmp_path)
    assert (ran.code, ran.traced) == (2, False), ran.err
    assert Path(name).stat().st_mode == kind


def test_output_that_nobody_takes(tmp_path: Path) -> None:
    """A full standard output is told, a closed one is nobody's fault."""
    write(tmp_path / "p", {"project.yaml": SOUND.encode()})
    with Path("/dev/full").open("wb") as full:
        done = subprocess.run(
            command("check", "p"), cwd=tmp_path, env=environment(), stdout=full, stderr=subprocess.PIPE,
            timeout=HARD_TIMEOUT, check=False,
        )  # fmt: skip
    assert done.returncode == 2
    assert b"No space left" in done.stderr
    assert b"Traceback" not in done.stderr
    reading, writing = os.pipe()
    os.close(reading)
    done = subprocess.run(
        command("check", "p"), cwd=tmp_path, env=environment(), stdout=writing, stderr=subprocess.PIPE,
        timeout=HARD_TIMEOUT, check=False,
    )  # fmt: skip
    os.close(writing)
    assert b"Traceback" not in done.stderr
