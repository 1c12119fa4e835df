"""`python -m tests.fuzz NAME --seconds 600` runs one target and says how many inputs it took.

With atheris installed, inputs are guided by coverage; without it, or with --plain, they are changed at random. An
input that breaks the target is kept in --keep and named; the command then leaves with 1.
"""

from __future__ import annotations

import argparse
import os
import random
import sys
import tempfile
import time
from collections import Counter
from pathlib import Path
from types import ModuleType


def main() -> int:
    parser = argparse.ArgumentParser(prog="python -m tests.fuzz", description=__doc__)
    parser.add_argument("name")
    parser.add_argument("--seconds", type=float, default=60.0)
    parser.add_argument("--seed", type=int, default=1, help="of the random numbers; the same gives the same inputs")
    parser.add_argument("--plain", action="store_true", help="random changes even where atheris is installed")
    parser.add_argument("--keep", type=Path, default=Path(tempfile.gettempdir()), help="folder for inputs that break")
    asked = parser.parse_args()
    atheris = None if asked.plain else _atheris()
    if atheris is None:
        return _plainly(asked)
    return _guided(atheris, asked)


def _atheris() -> ModuleType | None:
    try:
        import atheris  # type: ignore[import-untyped]
    except ImportError:
        return None
    return atheris  # type: ignore[no-any-return]


def _plainly(asked: argparse.Namespace) -> int:
    from tests.fuzz.mutating import changed
    from tests.fuzz.seeds import SEEDS, cases
    from tests.fuzz.targets import TARGETS

    seeds, hostile, target = list(SEEDS[asked.name]()), cases(asked.name), TARGETS[asked.name]
    dice, counts, broken = random.Random(asked.seed), Counter[str](), set[str]()
    end = time.monotonic() + asked.seconds
    while time.monotonic() < end:
        data = changed(dice, seeds, hostile)
        try:
            counts["sound" if target(data) else "refused"] += 1
        except Exception as error:
            counts["broken"] += 1
            _keep(asked, data, error, broken)
    print(f"{asked.name}: {sum(counts.values())} inputs in {asked.seconds:g} s: {dict(counts)}")
    return 1 if broken else 0


def _keep(asked: argparse.Namespace, data: bytes, error: BaseException, broken: set[str]) -> None:
    """One input for each place in the code that breaks."""
    trace = error.__traceback__
    while trace is not None and trace.tb_next is not None:
        trace = trace.tb_next
    where = f"{trace.tb_frame.f_code.co_filename}:{trace.tb_lineno}" if trace else "?"
    if where in broken:
        return
    broken.add(where)
    path = asked.keep / f"fuzz-{asked.name}-{len(broken)}"
    path.write_bytes(data)
    print(f"{path}: {type(error).__name__} at {where}: {str(error)[:300]}", flush=True)


def _guided(atheris: ModuleType, asked: argparse.Namespace) -> int:
    """Coverage is watched in the package alone. libFuzzer ends the process by itself and prints the number of runs."""
    with atheris.instrument_imports(include=["compliance"]):
        from tests.fuzz.seeds import SEEDS, cases
        from tests.fuzz.targets import TARGETS
    target = TARGETS[asked.name]
    corpus = Path(tempfile.mkdtemp(prefix=f"corpus-{asked.name}-"))
    for number, seed in enumerate([*SEEDS[asked.name](), *cases(asked.name)]):
        (corpus / str(number)).write_bytes(seed)

    def one(data: bytes) -> None:
        target(data)

    longest = max(path.stat().st_size for path in corpus.iterdir()) * 2 + 64
    options = [
        f"-max_total_time={asked.seconds:.0f}", f"-max_len={longest}", "-print_final_stats=1", "-verbosity=0",
        f"-seed={asked.seed}", f"-artifact_prefix={asked.keep}{os.sep}fuzz-{asked.name}-", "-timeout=20",
        "-rss_limit_mb=2048",
    ]  # fmt: skip
    atheris.Setup([sys.argv[0], *options, str(corpus)], one)
    atheris.Fuzz()
    return 0


if __name__ == "__main__":
    sys.exit(main())
