"""Findings made ready to be told, for every output: grouping, counting, wording. Knows no PDF, terminal or HTML."""
