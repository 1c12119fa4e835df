"""Pages where what was said, read and seen is recorded, and where papers are made."""
