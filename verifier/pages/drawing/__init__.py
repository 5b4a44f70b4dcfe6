"""A puzzle as a picture."""
