"""A corpus of buildings: sound ones that must not be condemned, dangerous ones whose danger must be named."""
