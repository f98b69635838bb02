"""Published tables, recipes and rules, read-only, each figure with its source."""
