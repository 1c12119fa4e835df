"""The commands, by what they are about. Each module only parses, calls and prints."""
