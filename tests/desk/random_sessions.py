"""Random sessions at the desk: edits, steps back, an editor that saves at the same time, kills of the server.

    python -m tests.desk.random_sessions 200 [SEED]

After each step: what the desk says it wrote stands in the files, what it refused does not, everything an editor saved
is there, the files can be read. At the end of each session the page says what a check of the same files says.
"""

from __future__ import annotations

import contextlib
import html
import json
import random
import re
import signal
import subprocess
import sys
import tempfile
import threading
from collections.abc import Callable, Mapping
from http.client import HTTPConnection, HTTPException
from pathlib import Path
from typing import Any
from urllib.parse import urlencode

from compliance.checking import check_folder
from compliance.reading.project_folder import read_project
from compliance.report.answer.answer import answer
from compliance.report.words.answer_words import answer_sentence, cause_words, clause_words
from compliance.report.words.page_words import item_on_page
from compliance.units import Writer

Stated = dict[tuple[str | int, ...], Any]
"""Values of the project by path, None where nothing stands."""

_HEAD = """\
# a project of two files
project: {{name: Sessions, date: 2026-12-30}}{eol}\
jurisdiction: {{name: Nowhere, rule_sets: [cob-irc-2021-au, cob-practice]}}
include: [walls.yaml]
soils: {{S1: {{name: clay}}}}
mixes: {{M1: {{name: mix, parts: {{S1: 1}}, straw: wheat, stabilised: no}}}}
site:
  seismic_category: B   # from the map
  wind_speed: 110 mph
  # ground_snow: 20 psf   # as the office says
"""
_WALLS = """\
wall_types:
  all: {use: exterior, thickness: 16 in, mix: M1, bears_load: yes, method: A}
walls:
  W1:
    type: all
    height: 8 ft   # to the plate
    run: {from: [0 ft, 0 ft], to: [20 ft, 0 ft]}
  W2: {type: all, height: 8 ft, run: {from: [20 ft, 0 ft], to: [20 ft, 15 ft]}}
  # between
  W3: {type: all, height: 8 ft,
       run: {from: [20 ft, 15 ft], to: [0 ft, 15 ft]}}
  W4:
    type: all
    height: 8 ft
    run: {from: [0 ft, 15 ft], to: [0 ft, 0 ft]}
    # name: west wall
"""
_FIELDS: tuple[tuple[tuple[str | int, ...], Callable[[random.Random], str]], ...] = (
    (("project", "description"), lambda rng: f"note {rng.randrange(10**6)}: #\"'{{}}"),
    (("project", "number"), lambda rng: f"N{rng.randrange(10**6)}"),
    (("site", "ground_snow"), lambda rng: f"{rng.randrange(5, 90)} psf"),
    (("site", "wind_speed"), lambda rng: f"{rng.randrange(85, 180)} mph"),
    (("wall_types", "all", "thickness"), lambda rng: f"{rng.randrange(8, 30)} in"),
    (("walls", "W1", "height"), lambda rng: f"{rng.randrange(5, 14)} ft {rng.randrange(12)} in"),
    (("walls", "W2", "height"), lambda rng: f"{rng.randrange(5, 14)} ft"),
    (("walls", "W3", "name"), lambda rng: f"wall <{rng.randrange(10**6)}>, north"),
    (("walls", "W4", "name"), lambda rng: f"west {rng.randrange(10**6)}"),
)
_REFUSED = (
    (("walls", "W1", "height"), "8 bananas"),
    (("walls", "W1", "hight"), "8 ft"),
    (("project", "name", "x"), "8 ft"),
    (("include", 0), "../x"),
)
_MOST_WAIT = 60


class FoundError(AssertionError):
    """What went wrong, and how to see it again."""


class Session:
    """One folder, the desk over it in a process of its own, and what its files ought to hold."""

    def __init__(self, folder: Path, seed: int) -> None:
        self.folder, self.rng = folder, random.Random(seed)
        self.did: list[str] = []
        end = self.rng.choice(["\n", "\r\n"])
        folder.mkdir(parents=True)
        for name, text in (("project.yaml", _HEAD.format(eol="\n")), ("walls.yaml", _WALLS)):
            (folder / name).write_bytes(text.replace("\n", end).encode())
        self.saved: list[tuple[str, str]] = []  # what an editor wrote into which file
        self.stated = self._read()
        self.steps: list[tuple[Stated, Stated]] = []
        self.undone: list[tuple[Stated, Stated]] = []
        self._start()

    def run(self, actions: int) -> None:
        """Raises FoundError."""
        kinds = [self._edit, self._edit, self._edit, self._comment, self._refused, self._undo, self._undo, self._redo,
                 self._editor, self._editor_meanwhile, self._editor_meanwhile, self._killed]  # fmt: skip
        for _ in range(actions):
            self.rng.choice(kinds)()
            self._compare()
        self._page_says_what_a_check_says()

    def close(self) -> None:
        self._process.kill()
        self._process.wait()

    # What is done.

    def _edit(self) -> None:
        fields = self.rng.sample(_FIELDS, self.rng.randint(1, 3))
        values = {path: make(self.rng) for path, make in fields}
        self._note("edit", values)
        self._settle(values, self._post("/edit", self._form(values)))

    def _comment(self) -> None:
        count = len([path for path in self.stated if path[0] == "comments"])
        text = f"comment {self.rng.randrange(10**6)}: <b>"
        self._note("comment", text)
        fields = [("do", "comment"), ("seen", self._seen()), ("comment", text), ("comment-by", ""), ("comment-on", "")]
        self._settle({("comments", count): {"comment": text}}, self._post("/papers", fields))

    def _refused(self) -> None:
        path, value = self.rng.choice(_REFUSED)
        self._note("refused", path)
        status = self._post("/edit", self._form({path: value}))
        self._want(status == 422, f"{path} is answered with {status}")

    def _undo(self) -> None:
        self._step("/undo", self.steps, self.undone, 0)

    def _redo(self) -> None:
        self._step("/redo", self.undone, self.steps, 1)

    def _step(self, way: str, have: list[tuple[Stated, Stated]], other: list[tuple[Stated, Stated]], side: int) -> None:
        status = self._post(way, [])
        self._note(way, status)
        if not have:
            self._want(status == 409, f"{way} without a step is answered with {status}")
        elif status == 303:
            step = have.pop()
            other.append(step)
            self._lay(step[side])
        else:
            self._want(status == 409 and bool(self.saved), f"{way} is answered with {status}")

    def _editor(self) -> None:
        name = self.rng.choice(["project.yaml", "walls.yaml"])
        token = f"# saved {self.rng.randrange(10**9)}"
        self._note("editor", name, token)
        self._save(name, token)

    def _editor_meanwhile(self) -> None:
        """The editor saves while a form is on its way: either what was typed is refused, or both stand there."""
        fields = self.rng.sample(_FIELDS, 2)
        values = {path: make(self.rng) for path, make in fields}
        name, token = self.rng.choice(["project.yaml", "walls.yaml"]), f"# saved {self.rng.randrange(10**9)}"
        wait = self.rng.random() * 0.1
        self._note("editor meanwhile", values, name, token, wait)
        form = self._form(values)
        editor = threading.Timer(wait, lambda: self._save(name, token))
        editor.start()
        status = self._post("/edit", form)
        editor.join()
        self._settle(values, status, may_conflict=True)

    def _killed(self) -> None:
        """The server is killed while a form is on its way, and started anew: all of it was written, or nothing."""
        values = {path: make(self.rng) for path, make in self.rng.sample(_FIELDS, 2)}
        wait = self.rng.random() * 0.15
        self._note("killed", values, wait)
        form = self._form(values)
        killer = threading.Timer(wait, lambda: self._process.send_signal(signal.SIGKILL))
        killer.start()
        status = 0
        with contextlib.suppress(OSError, HTTPException):
            status = self._post("/edit", form)
        killer.join()
        self._process.wait()
        after = {**self.stated, **values}
        now = self._read()
        if status == 303 or now == after:
            self.stated = after
        elif any(now[path] == value != self.stated.get(path) for path, value in values.items()):
            files = {self._file_of(path) for path in values}  # two files are not written in one stroke
            self._want(len(files) > 1, "half of an edit of one file was written")
            self.stated = {path: now.get(path) for path in {*now, *values}}
        self.steps, self.undone = [], []
        self._start()

    # How it is done.

    def _settle(self, values: Mapping[tuple[str | int, ...], Any], status: int, may_conflict: bool = False) -> None:
        if status == 303:
            before = {path: self.stated.get(path) for path in values}
            self._lay(dict(values))
            self.steps.append((before, dict(values)))
            self.undone.clear()
        else:
            self._want(status == 409 and may_conflict, f"a sound edit is answered with {status}")

    def _lay(self, values: Stated) -> None:
        for path, value in values.items():
            self.stated[path] = value
            if path[0] == "comments" and value is None:
                del self.stated[path]

    def _save(self, name: str, token: str) -> None:
        """As an editor does that looks once more before it saves."""
        path, part = self.folder / name, self.folder / f".{name}.editor"
        while True:
            old = path.read_bytes()
            end = b"\r\n" if b"\r\n" in old else b"\n"
            part.write_bytes(old + (b"" if old.endswith(b"\n") else end) + token.encode() + end)
            if path.read_bytes() == old:
                part.replace(path)
                break
        self.saved.append((name, token))

    def _read(self) -> Stated:
        tree = read_project(self.folder).tree
        found: Stated = {}
        for path, _ in _FIELDS:
            node: Any = tree
            for part in path:
                node = node.get(part) if isinstance(node, dict) else None
            found[path] = node
        for number, one in enumerate(tree.get("comments") or []):
            found["comments", number] = dict(one)
        return found

    def _file_of(self, path: tuple[str | int, ...]) -> str:
        return "walls.yaml" if path[0] in ("walls", "wall_types") else "project.yaml"

    def _start(self) -> None:
        command = [sys.executable, "-m", "compliance", "desk", str(self.folder), "--no-open"]
        self._process = subprocess.Popen(command, stdout=subprocess.PIPE, stderr=subprocess.STDOUT, text=True)
        assert self._process.stdout is not None
        said = ""
        while not (found := re.search(r"http://(\S+:\d+)(/open\?token=\S+)", said)):
            line = self._process.stdout.readline()
            self._want(bool(line), f"the desk does not start: {said}")
            said += line
        self._host, self._cookie = found[1], ""
        status, cookie, _ = self._ask("GET", found[2])
        self._want(status == 200, "the address does not let in")
        self._cookie = cookie.partition(";")[0]

    def _form(self, values: Mapping[tuple[str | int, ...], Any]) -> list[tuple[str, str]]:
        fields = [("seen", self._seen()), ("back", "/")]
        for path, value in values.items():
            fields += [("path", json.dumps(path)), ("value", value)]
        return fields

    def _seen(self) -> str:
        _, _, text = self._ask("GET", "/papers")
        found = re.search(r'name="seen" value="([^"]*)"', text)
        self._want(found is not None, "the page has no form")
        assert found is not None
        return html.unescape(found[1])

    def _post(self, path: str, fields: list[tuple[str, str]]) -> int:
        return self._ask("POST", path, urlencode(fields).encode())[0]

    def _ask(self, method: str, path: str, body: bytes | None = None) -> tuple[int, str, str]:
        headers = {"Host": self._host, "Cookie": self._cookie}
        if method == "POST":
            headers |= {"Origin": f"http://{self._host}", "Content-Type": "application/x-www-form-urlencoded"}
        with contextlib.closing(HTTPConnection(self._host, timeout=_MOST_WAIT)) as connection:
            connection.request(method, path, body=body, headers=headers)
            reply = connection.getresponse()
            return reply.status, reply.headers.get("set-cookie", ""), reply.read().decode()

    # What must hold.

    def _compare(self) -> None:
        now = self._read()
        wanted = {path: value for path, value in self.stated.items() if value is not None}
        found = {path: value for path, value in now.items() if value is not None}
        self._want(found == wanted, f"the files hold {found}, wanted {wanted}")
        for name, token in self.saved:
            text = (self.folder / name).read_text("utf-8")
            self._want(text.count(f"{token}\n") + text.count(f"{token}\r\n") > 0, f"{token!r} is lost from {name}")
        left = [one.name for one in self.folder.iterdir() if one.name not in ("project.yaml", "walls.yaml")]
        self._want([one for one in left if not one.startswith(".")] == [], f"left over: {left}")

    def _page_says_what_a_check_says(self) -> None:
        checked = check_folder(self.folder)
        found, writer = answer(checked), Writer(checked.project.project.units)
        wanted = [answer_sentence(found, len(checked.findings)), *(cause_words(one, writer) for one in found.stops),
                  *(item_on_page(one, writer) for one in found.to_write),
                  *map(clause_words, found.to_read)]  # fmt: skip
        text = _plain(self._ask("GET", "/")[2])
        missing = [one for one in wanted if _plain(html.escape(one)) not in text]
        self._want(missing == [], f"the page does not say {missing}")

    def _note(self, *what: object) -> None:
        self.did.append(" ".join(map(str, what)))

    def _want(self, holds: bool, says: str) -> None:
        if not holds:
            raise FoundError("\n".join([*self.did, says]))


def _plain(text: str) -> str:
    return re.sub(r"\s+", " ", html.unescape(re.sub(r"<[^>]+>", " ", text)))


def run_session(folder: Path, seed: int, actions: int) -> int:
    """How many steps were taken. Raises FoundError."""
    session = Session(folder, seed)
    try:
        session.run(actions)
    finally:
        session.close()
    return len(session.did)


def main() -> None:
    count = int(sys.argv[1]) if len(sys.argv) > 1 else 200
    first = int(sys.argv[2]) if len(sys.argv) > 2 else random.randrange(10**6)
    print(f"{count} sessions from seed {first}", flush=True)
    failed = steps = 0
    for seed in range(first, first + count):
        with tempfile.TemporaryDirectory() as name:
            try:
                steps += run_session(Path(name) / "house", seed, actions=12)
            except FoundError as found:
                failed += 1
                print(f"seed {seed}:\n{found}\n", flush=True)
        if (seed + 1 - first) % 10 == 0:
            print(f"{seed + 1 - first} sessions, {steps} steps, {failed} failed", flush=True)
    print(f"{count} sessions, {steps} steps, {failed} failed")
    raise SystemExit(bool(failed))


if __name__ == "__main__":
    main()
