"""The order of a walk, what of it is told, and its chapters."""
