"""What every fact is made with: the fact itself, what it needs, coefficients and reference values."""
