"""What is wrong with a broken puzzle, and repairs that are proved to work."""
