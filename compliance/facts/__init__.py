"""What follows from a description by computation. `derive` is the door; no files are read here."""
