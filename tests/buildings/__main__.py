"""`python -m tests.buildings` checks the whole corpus and prints its table; `--known` lists today's errors anew."""

from __future__ import annotations

import sys
import time

from tests.buildings.judging import check_corpus
from tests.buildings.known import compare, gather, read_known, write_known
from tests.buildings.printing import print_table


def main(arguments: list[str]) -> int:
    """Exit code 0 where the table is as `known.yaml` lists it, else 1."""
    start = time.process_time()
    results = check_corpus()
    print_table(results)
    print(f"{len(results)} checks in {time.process_time() - start:.0f} s of processor time")
    if "--known" in arguments:
        write_known(results)
    differing = compare(read_known(), gather(results))
    for line in differing:
        print(f"  NOT AS LISTED {line}")
    return 1 if differing else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
