"""What one part of a project says about another, checked after reading."""
