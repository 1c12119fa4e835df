"""The chain of evidence from the pit to the wall."""
