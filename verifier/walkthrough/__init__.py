"""Working a puzzle through for people: the walk as text or YAML, and the next step for who is stuck."""
