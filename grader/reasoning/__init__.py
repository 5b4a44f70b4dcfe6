"""What techniques reason with: combinations, Hall sets, the rule of 45, links, chains, branches."""
