"""A season of weekly boxes: what comes in, and what is known of it. Nothing here ships."""
