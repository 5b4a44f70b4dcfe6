"""Keys that are equal for the same puzzle in another guise."""
