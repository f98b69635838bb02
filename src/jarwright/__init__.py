"""Jarwright plans hands-on classes in home food preservation."""

__version__ = "0.1.0"
