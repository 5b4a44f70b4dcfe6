"""How results reach a person: streams, tables, progress, exit codes."""
