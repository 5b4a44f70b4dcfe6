"""The first witness: every solution counted by a constraint solver, up to a limit."""
