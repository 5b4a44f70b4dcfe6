"""Mutants: one small change to a module each, which some test should notice."""
