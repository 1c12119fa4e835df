"""YAML read strictly, every value with its line and column."""
