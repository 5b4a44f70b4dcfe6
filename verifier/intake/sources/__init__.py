"""Where submissions come from: folders, archives, tables, streams."""
