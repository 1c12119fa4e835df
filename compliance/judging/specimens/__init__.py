"""Rules about specimens: which count, which wait, and what is doubtful about them."""
