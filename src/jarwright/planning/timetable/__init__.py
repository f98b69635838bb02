"""The timetable: a placement problem, its model for the solver, the search, and what the answer means on the day."""
