"""Answers into the files of a new project."""
