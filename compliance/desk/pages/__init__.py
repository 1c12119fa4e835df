"""The pages of the desk as HTML, made from what was checked; no routes, no files."""
