"""The example with one thing changed, over and over: every key of its files, every cell of its tables.

    python -m tests.hostile.mutate --seconds N [--seed SEED]

N is processor time of the runs. Each change is made on a copy and checked, one in ten also written as a submittal. A
run fails that leaves a traceback, an exit code other than 0, 1 and 2, or anything written that is not whole. A finding
that did not meet and meets after the change, without a warning or a finding that got worse beside it, is listed to be
looked at: a change can mend a building. Exits with 1 where a run failed.
"""

from __future__ import annotations

import argparse
import csv
import io
import shutil
import sys
import tempfile
from collections import Counter
from collections.abc import Callable, Iterator
from pathlib import Path
from random import Random

from tests.conftest import EXAMPLE
from tests.hostile.mutating_files import Mutation, mutations_of_table, mutations_of_yaml
from tests.hostile.running import Host, Ran, listing

AMENDMENTS = """\
changes:
  - {rule_set: RULE_SET, rule: RULE, limit: LIMIT, value: VALUE, standing: confirmed, by: R. Pell, on: 2026-03-01,
     where: adopted copy, reason: read at the counter, authority: County}
"""
_WORSE = ("engineer", "revise", "missing", "confirm")
_PAPER_EVERY = 10
Key = tuple[str, str, str]


def lay_out(folder: Path) -> None:
    """The example with an amendment of a limit that it rests on, so that amendments are changed too."""
    shutil.copytree(EXAMPLE, folder, ignore=shutil.ignore_patterns("issued"))
    text = AMENDMENTS.replace("RULE_SET", "cob-irc-2021-au").replace("RULE", "wall-thickness-least")
    text = text.replace("LIMIT", "minimum").replace("VALUE", "10 in")
    (folder / "amendments.yaml").write_text(text, encoding="utf-8")
    with (folder / "project.yaml").open("a", encoding="utf-8") as file:
        file.write("\namendments:\n  - amendments.yaml\n")


def every_change(folder: Path) -> list[tuple[Path, Callable[[Random], Mutation]]]:
    changes: list[tuple[Path, Callable[[Random], Mutation]]] = []
    for path in sorted(folder.glob("*.yaml")):
        changes += [(path, one) for one in mutations_of_yaml(path.name, path.read_text(encoding="utf-8"))]
    for path in sorted((folder / "lab").glob("*.csv")):
        changes += [(path, one) for one in mutations_of_table(path.name, path.read_text(encoding="utf-8"))]
    return changes


def outcomes(ran: Ran) -> tuple[dict[Key, str], set[str]]:
    """The outcome of each finding, and the warnings without their places."""
    rows = csv.DictReader(io.StringIO(ran.out))
    found = {(one["rule_set"], one["rule"], one["subject"]): one["outcome"] for one in rows}
    return found, {line.partition(": ")[2] for line in ran.err.splitlines() if ": warning: " in line}


def faults(ran: Ran, before: dict[str, bytes | str], cwd: Path) -> Iterator[str]:
    """What no change may lead to."""
    if ran.traced:
        yield f"traceback: {ran.err.strip().splitlines()[-1][:200]}"
    elif ran.code not in (0, 1, 2):
        yield f"exit code {ran.code}"
    elif ran.code == 2 and not ran.err.strip():
        yield "exit code 2 without a word"
    after = listing(cwd)
    changed = [name for name, data in after.items() if before.get(name) != data and name != "out.pdf"]
    if changed or before.keys() - after.keys():
        yield f"left behind or changed: {', '.join(changed) or 'a file is gone'}"
    paper = after.get("out.pdf")
    if isinstance(paper, bytes) and not (paper.startswith(b"%PDF-") and paper.rstrip().endswith(b"%%EOF")):
        yield "half a paper"
    if isinstance(paper, bytes) and ran.code != 0:
        yield f"a paper in spite of exit code {ran.code}"


def turned(base: dict[Key, str], now: dict[Key, str]) -> list[Key]:
    """Findings that meet and did not, where no finding about the same subject got worse or is new and does not meet."""
    worse = {
        key[2].partition(".")[0]
        for key, outcome in now.items()
        if outcome in _WORSE and base.get(key, "meets") in ("meets", "not-applicable")
    }
    return [
        key for key, outcome in now.items()
        if outcome == "meets" and base.get(key) in _WORSE and key[2].partition(".")[0] not in worse
    ]  # fmt: skip


def run(seconds: float, seed: int) -> int:
    random = Random(seed)
    counts: Counter[str] = Counter()
    failed: dict[str, str] = {}
    listed: set[str] = set()
    host = Host()
    with tempfile.TemporaryDirectory() as scratch:
        cwd = Path(scratch)
        lay_out(cwd / "p")
        base, warned = outcomes(host.run(["check", "p", "--format", "csv"], cwd))
        changes = every_change(cwd / "p")
        used = 0.0
        while used < seconds:
            path, change = random.choice(changes)
            sound = path.read_bytes()
            mutation = change(random)
            path.write_text(mutation.text, encoding="utf-8")
            before = listing(cwd)
            paper = counts.total() % _PAPER_EVERY == 0
            args = ["submittal", "p", "--draft", "--output", "out.pdf"] if paper else ["check", "p", "--format", "csv"]
            ran = host.run(args, cwd)
            used += ran.used
            for fault in faults(ran, before, cwd):
                if failed.setdefault(fault, mutation.said) == mutation.said:
                    print(f"FAILED {fault}: {mutation.said}", flush=True)
            counts["paper" if paper else f"exit code {ran.code}"] += 1
            if not paper and ran.code in (0, 1) and not ran.traced:
                now, warnings = outcomes(ran)
                if (better := turned(base, now)) and not warnings - warned:
                    if mutation.said not in listed:
                        print(
                            f"meets now: {mutation.said}: {'; '.join(' '.join(key[1:]) for key in better[:4])}"
                            f"{' ...' if len(better) > 4 else ''}",
                            flush=True,
                        )
                    listed.add(mutation.said)
            (cwd / "out.pdf").unlink(missing_ok=True)
            path.write_bytes(sound)
    host.close()
    print(f"{counts.total()} changes of {len(changes)} places, seed {seed}, {used:.0f} s: {dict(counts)}")
    return 1 if failed else 0


def main() -> None:
    options = argparse.ArgumentParser()
    options.add_argument("--seconds", type=float, required=True)
    options.add_argument("--seed", type=int, default=1)
    given = options.parse_args()
    sys.exit(run(given.seconds, given.seed))


if __name__ == "__main__":
    main()
