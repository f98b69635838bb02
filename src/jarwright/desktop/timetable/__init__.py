"""The timetable: lanes of bars on one clock axis, and the story of the bar that is chosen."""
