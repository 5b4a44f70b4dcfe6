"""All sentences that people read about steps, in one place."""
