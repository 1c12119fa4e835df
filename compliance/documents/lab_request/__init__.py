"""What goes to the laboratory with the specimens."""
