"""Random buildings by the thousand, from the model to the findings and a share of them to the papers.

    python -m tests.hostile.many_buildings CASES [--papers EVERY] [--seed SEED] [--seconds MOST]

Goes on after a failure. Prints how many there were, what came of them and, for each way to fail, the number of the
first building that failed so: `from_the_model(NUMBER, True)` does it again. Leaves with 1 where any failed.
"""

from __future__ import annotations

import argparse
import sys
import time
import traceback
from collections import Counter

from hypothesis import given, seed, settings

from tests.hostile.test_random_buildings import GENERATED, NUMBERS, from_the_model

TELL_EVERY = 200


def pass_through(cases: int, papers_every: int, start: int, most_seconds: float) -> tuple[Counter[str], dict[str, int]]:
    """What came of the buildings, and the first number of each way to fail."""
    came: Counter[str] = Counter()
    failed: dict[str, int] = {}
    until = time.monotonic() + most_seconds

    @seed(start)
    @settings(GENERATED, max_examples=cases, derandomize=False)
    @given(NUMBERS)
    def one(number: int) -> None:
        if time.monotonic() > until:
            return
        papers = papers_every > 0 and came.total() % papers_every == 0
        try:
            came[from_the_model(number, papers) + (", with its papers" if papers else "")] += 1
        except Exception as error:
            place = traceback.extract_tb(error.__traceback__)[-1]
            failed.setdefault(f"{type(error).__name__}: {error} ({place.filename}:{place.lineno})"[:300], number)
            came["failed"] += 1
        if came.total() % TELL_EVERY == 0:
            print(f"{came.total()} buildings, {came['failed']} failed", flush=True)

    one()
    return came, failed


def main() -> None:
    asked = argparse.ArgumentParser()
    asked.add_argument("cases", type=int)
    asked.add_argument("--papers", type=int, default=100, metavar="EVERY")
    asked.add_argument("--seed", type=int, default=1)
    asked.add_argument("--seconds", type=float, default=float("inf"), metavar="MOST")
    told = asked.parse_args()
    came, failed = pass_through(told.cases, told.papers, told.seed, told.seconds)
    print(f"{came.total()} buildings from seed {told.seed}")
    print("\n".join(f"{count:7} {what}" for what, count in came.most_common()))
    for what, number in failed.items():
        print(f"building {number}: {what}")
    sys.exit(1 if failed else 0)


if __name__ == "__main__":
    main()
