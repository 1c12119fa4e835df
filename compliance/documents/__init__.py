"""The PDFs. Each document is a room; `page` and `tagging` serve all of them."""
