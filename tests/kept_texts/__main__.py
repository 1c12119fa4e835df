"""Writes every kept text again and names those that changed: python -m tests.kept_texts"""

from __future__ import annotations

import os
import subprocess
import sys

from tests.kept_texts import FOLDER, WRITE


def main() -> int:
    before = {path: path.read_text(encoding="utf-8") for path in FOLDER.glob("*.txt")}
    for path in before:
        path.unlink()
    marked = [sys.executable, "-m", "pytest", "-n", "0", "-m", "kept_text", "tests"]
    code = subprocess.run(marked, cwd=FOLDER.parents[1], env=os.environ | {WRITE: "1"}, check=False).returncode
    after = {path: path.read_text(encoding="utf-8") for path in FOLDER.glob("*.txt")}
    if code:
        for path, text in before.items():
            path.write_text(text, encoding="utf-8")
        print("A test failed: the texts are kept as they were.")
        return code
    for path in sorted(before.keys() | after.keys()):
        if before.get(path) != after.get(path):
            state = "new" if path not in before else "no longer kept" if path not in after else "changed"
            print(f"{path.name}: {state}")
    return 0


if __name__ == "__main__":
    sys.exit(main())
