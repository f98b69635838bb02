"""Timetable: the chart, what its patterns mean, and the story of the chosen bar."""

from __future__ import annotations

from jarwright.desktop.place import Place
from jarwright.desktop.timetable.chart import TimetableChart
from jarwright.desktop.timetable.lanes import Bar
from jarwright.desktop.timetable.legend import Legend
from jarwright.desktop.timetable.story import story_of
from jarwright.desktop.timetable.story_card import StoryCard
from jarwright.model.plan import Plan


class TimetablePlace(Place):
    """The centrepiece of the window."""

    key, title, purpose = "timetable", "Timetable", "When each canner is turned on, filled and emptied, and who watches it."

    def __init__(self) -> None:
        super().__init__()
        self.chart, self.story = TimetableChart(), StoryCard()
        self.add_heading()
        self.column.setSpacing(8)
        self.column.addWidget(self.chart, 1)
        self.column.addWidget(Legend())
        self.column.addWidget(self.story)
        self.chart.bar_chosen.connect(self._tell)
        self.chart.story_wanted.connect(self.story.toggle)

    def show_plan(self, plan: Plan) -> None:
        """Draw the plan."""
        self.chart.show_plan(plan)

    def show_field(self, about: str, rule: str) -> bool:
        """Choose the bar that a finding concerns; the chart itself where it is about none."""
        self.chart.setFocus()
        return self.chart.choose(about) if about.startswith(("load ", "task ")) else True

    def _tell(self, bar: Bar | None) -> None:
        plan = self.chart.plan()
        self.story.show_story(story_of(plan, bar) if plan is not None and bar is not None else None)
