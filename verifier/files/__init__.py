"""Puzzle files: reading them with every fault told, and writing them."""
