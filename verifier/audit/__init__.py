"""Do the steps of a solve follow from their premises? A solver that knows nothing else is the judge."""
