"""Documents on disk: read, saved safely, started from a template."""
