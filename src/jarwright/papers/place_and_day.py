"""How does a paper name the day and the elevation of a class? In words, in no machine's locale."""

from __future__ import annotations

import datetime
import math

from jarwright.model.plan import Plan


def day_in_words(date: str) -> str:
    """Write an ISO date as people read it, in no machine's locale: 'Saturday, August 14, 2027'."""
    days = ("Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday")
    months = (
        "January", "February", "March", "April", "May", "June", "July", "August", "September", "October", "November", "December",
    )  # fmt: skip
    day = datetime.date.fromisoformat(date)
    return f"{days[day.weekday()]}, {months[day.month - 1]} {day.day}, {day.year}"


def elevation_in_words(plan: Plan) -> str:
    """Write the elevation of the kitchen in whole feet, fractions rounded up as tables are read."""
    return f"{math.ceil(plan.document.site.elevation_ft):,} ft"
