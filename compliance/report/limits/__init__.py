"""The limits that findings rest on, listed for a reader."""
