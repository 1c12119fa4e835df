"""Pages of the sets of specimens, and of the tables of a laboratory that are taken in."""
