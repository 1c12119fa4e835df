"""The commands of `rules`: rule sets, and the vocabulary they are written in."""
