"""What stays the same when a puzzle is turned, relabelled, exchanged."""
