"""Links between candidates, their graph, and the chains along it."""
