"""Who judges: processes, their keepers, a cluster."""
