"""The rules a filling obeys, one kind a module."""
