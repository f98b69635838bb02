"""The open class: its history, when to plan again, what is unsaved. No window."""
