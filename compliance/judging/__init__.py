"""Facts and rule sets in, findings out. No files are read and nothing is printed here."""

from compliance.judging.judge import judge

__all__ = ["judge"]
