"""Who judges: processes, their supervisors, a cluster."""
