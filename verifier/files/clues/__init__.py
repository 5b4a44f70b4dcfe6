"""How the clues of a file are read, one function a rule."""
