"""The engineer's brief."""
