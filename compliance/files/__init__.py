"""Paths and files for every room: what a path or text may hold, shipped files, writing whole or not at all."""
