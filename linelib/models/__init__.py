"""One phenomenon a file."""
