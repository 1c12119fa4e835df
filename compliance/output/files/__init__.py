"""Writing files: whole or not at all, never over what is not ours, one run at a time."""
