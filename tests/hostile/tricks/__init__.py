"""Ways to turn a failing set into a passing one, by a slip or by a trick."""
