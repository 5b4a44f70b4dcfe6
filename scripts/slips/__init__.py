"""Sound killers broken by one slip each, for the study of repairs."""
