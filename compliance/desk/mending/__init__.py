"""Files that do not read mended line by line on a page."""
