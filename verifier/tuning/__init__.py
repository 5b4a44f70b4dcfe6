"""Towards a wish: the changes that make a sound puzzle easier, harder or otherwise what its setter wants."""
