"""Pages of photos and papers."""
