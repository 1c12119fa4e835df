"""The answer of a check: what stops, what to decide, what to ask, what comes later, each once."""
