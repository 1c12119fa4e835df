"""What the papers of a submittal tell at a glance: items that require action, and design data."""
