"""The papers an official reads: the answer, its code path, and what is still to be done."""
