"""Text for the terminal."""
