"""Pages as pictures, against pictures that were looked at. `python -m tests.pictures` makes those anew."""
