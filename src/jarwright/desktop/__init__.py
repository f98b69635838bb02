"""The window: shows a plan and turns what a person does into edits."""
