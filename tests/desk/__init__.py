"""The desk over a real port, and in a browser where one is installed."""
