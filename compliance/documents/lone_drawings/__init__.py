"""One drawing by itself, as a PDF or an SVG."""
