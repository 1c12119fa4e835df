"""Shipped reference data: coefficients, load tables, material practice, counter questions."""
