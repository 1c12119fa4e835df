"""The formula language: parsing, dimensions, values, printing."""
