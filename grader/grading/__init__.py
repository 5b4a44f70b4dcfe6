"""How hard a puzzle is: the replay, the tiers, the effort."""
