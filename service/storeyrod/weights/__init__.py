"""Weight of the cladding and of what is handled, and the load path from slip to structure."""
