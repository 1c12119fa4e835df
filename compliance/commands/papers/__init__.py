"""Commands that write papers."""
