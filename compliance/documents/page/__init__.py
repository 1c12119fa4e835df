"""Page layout on reportlab: rows, columns, typefaces, contents, page references."""
