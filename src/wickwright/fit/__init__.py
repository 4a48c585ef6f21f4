"""Does it go together, does it stand, and by which routes is it put right."""
