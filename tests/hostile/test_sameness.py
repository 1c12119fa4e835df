"""The same project gives the same bytes: whatever the run, the folder, the zone, the language, the order of sets.

Each paper is made in one other environment, the submittal in all of them; every paper in all with EARTHWALL_WHOLE=1.
"""

from __future__ import annotations

import hashlib
import shutil
from collections.abc import Iterator
from pathlib import Path

import pytest

from compliance.checking import check_folder
from tests.conftest import EXAMPLE
from tests.hostile.running import Host
from tests.tries import WHOLE

# What is written: the command, and the files it writes; none for standard output.
WRITTEN: dict[str, tuple[tuple[str, ...], tuple[str, ...]]] = {
    "submittal and its record": (("submittal", "p", "--output", "o.pdf"), ("o.pdf", "p/issued/*.json")),
    "site cards": (("inspection", "p", "--output", "o.pdf"), ("o.pdf",)),
    "counter sheet": (("counter", "p", "--output", "o.pdf"), ("o.pdf",)),
    "engineer's brief": (("brief", "p", "--output", "o.pdf"), ("o.pdf",)),
    "worksheet": (("worksheet", "p", "--output", "o.pdf"), ("o.pdf",)),
    "checklist as workbook": (("checklist", "p", "--format", "xlsx", "--output", "o.xlsx"), ("o.xlsx",)),
    "checklist as page": (("checklist", "p", "--format", "html", "--output", "o.html"), ("o.html",)),
    "checklist as rows": (("checklist", "p", "--format", "csv", "--output", "o.csv"), ("o.csv",)),
    "findings as JSON": (("check", "p", "--format", "json"), ()),
    "findings as rows": (("check", "p", "--format", "csv"), ()),
    "findings as text": (("check", "p"), ()),
}  # fmt: skip
HERE = {"PYTHONHASHSEED": "0", "TZ": "UTC", "LANG": "C.UTF-8"}
ELSEWHERE = (
    {"PYTHONHASHSEED": "4242", "TZ": "Pacific/Kiritimati", "LANG": "tr_TR.UTF-8", "LC_ALL": "tr_TR.UTF-8"},
    {"PYTHONHASHSEED": "1", "TZ": "UTC-14", "LANG": "C", "LC_ALL": "C", "PYTHONUTF8": "0", "HOME": "/nowhere"},
)
"""Another order of sets, zone and language in another folder; then another home, whose fonts would be others."""


@pytest.fixture(scope="module")
def hosts() -> Iterator[tuple[Host, ...]]:
    """One for each environment: some of it is read when Python starts."""
    started = tuple(Host(COLUMNS="100", **env) for env in (HERE, *ELSEWHERE))
    yield started
    for host in started:
        host.close()


def _made(args: tuple[str, ...], names: tuple[str, ...], place: Path, host: Host) -> list[str]:
    """The hashes of what the command writes for a fresh copy of the example in `place`."""
    place.mkdir(parents=True)
    shutil.copytree(EXAMPLE, place / "p")
    ran = host.run(args, place)
    assert ran.code in (0, 1), ran.err
    written = [path.read_bytes() for name in names for path in sorted(place.glob(name))] or [ran.out.encode()]
    assert len(written) >= len(names)
    assert all(len(data) > 500 for data in written)
    return [hashlib.sha256(data).hexdigest() for data in written]


@pytest.mark.parametrize("what", WRITTEN)
def test_same_bytes(what: str, hosts: tuple[Host, ...], tmp_path: Path) -> None:
    args, names = WRITTEN[what]
    here, *elsewhere = hosts
    written = _made(args, names=names, place=tmp_path / "here", host=here)
    turn = list(WRITTEN).index(what) % len(ELSEWHERE)
    for number, (host, env) in enumerate(zip(elsewhere, ELSEWHERE, strict=True)):
        if not (WHOLE or number == turn or args[0] == "submittal"):
            continue
        there = _made(args, names=names, place=tmp_path / f"in another folder {number} — ä", host=host)
        assert there == written, f"{what} differs: {env}"


def test_fingerprint_goes_by_the_input_alone(tmp_path: Path) -> None:
    """Times of files, their rights and what else lies in the folder are no input; any byte of any input is."""

    def fingerprint() -> str:
        return check_folder(tmp_path / "p").fingerprint

    shutil.copytree(EXAMPLE, tmp_path / "p")
    first = fingerprint()
    (tmp_path / "p" / "project.yaml").touch()
    (tmp_path / "p" / "walls.yaml").chmod(0o600)
    (tmp_path / "p" / "notes of my own.txt").write_text("not named by the project")
    assert fingerprint() == first
    for name in ("project.yaml", "walls.yaml", "lab/compression.csv", "photos/bars.png"):
        path = tmp_path / "p" / name
        data = path.read_bytes()
        path.write_bytes(data + (b"\n" if name.endswith(("yaml", "csv")) else b"\0"))
        assert fingerprint() != first, name
        path.write_bytes(data)
    assert fingerprint() == first
