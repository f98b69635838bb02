"""The words that people read for figures."""

import pytest

from jarwright.model.chance_words import chance_words


@pytest.mark.parametrize(
    ("chance", "words"),
    [
        (1.0, "nearly every morning like this ends on time (over 99 %)"),
        (0.98, "nearly every morning like this ends on time (98 %)"),
        (0.97, "about 19 mornings in 20 like this end on time (97 %)"),
        (0.88, "about 9 mornings in 10 like this end on time (88 %)"),
        (0.5, "about 1 morning in 2 like this ends on time (50 %)"),
        (0.26, "about 1 morning in 4 like this ends on time (26 %)"),
        (0.03, "about 1 morning in 20 like this ends on time (3 %)"),
        (0.01, "hardly any morning like this ends on time (1 %)"),
        (0.0, "hardly any morning like this ends on time (under 1 %)"),
    ],
)
def test_a_chance_is_said_as_days_in_ten(chance: float, words: str):
    """1 in 4 is understood at once, a bare percentage is not."""
    assert chance_words(chance, "09:00") == words


def test_the_day_is_called_after_the_hour():
    """A class after work is no morning."""
    assert chance_words(0.75, "13:00") == "about 3 afternoons in 4 like this end on time (75 %)"
    assert chance_words(0.75, "17:30") == "about 3 evenings in 4 like this end on time (75 %)"


def test_the_words_are_never_far_from_the_figure():
    """Every whole percent is said by a share within five points of it."""
    for percent in range(3, 98):
        said = chance_words(percent / 100, "09:00").split()
        assert abs(int(said[1]) / int(said[4]) - percent / 100) < 0.05, said
