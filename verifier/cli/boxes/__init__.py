"""The commands on a whole box."""
