"""The questions, in order, and what an answer may be."""
