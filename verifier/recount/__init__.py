"""The second count, by another kind of solver on an encoding of its own."""
