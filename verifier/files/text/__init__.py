"""From text to nodes, and from values to YAML."""
