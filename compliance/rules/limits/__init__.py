"""Limits from elsewhere: filled into sheets and borrowed from other rule sets."""
