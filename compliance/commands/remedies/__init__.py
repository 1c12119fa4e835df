"""Commands that say what to change."""
