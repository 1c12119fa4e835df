"""Structure of tagged PDF, and packing it into a file."""
