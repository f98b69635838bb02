"""How is a chance said? As people say it, one morning in four, with the percentage beside it."""

from __future__ import annotations

# Shares that people say, from the plainest on; the first that is near enough is said.
_SHARES = ((1, 2), (1, 3), (2, 3), (1, 4), (3, 4), (1, 10), (9, 10), (1, 5), (2, 5), (3, 5), (4, 5), (3, 10), (7, 10), (1, 20), (19, 20))
_NEAR_ENOUGH = 0.025


def chance_words(chance: float, start: str) -> str:
    """Say a chance to end on time: 'about 1 morning in 4 like this ends on time (26 %)'. `start`: the class's "HH:MM"."""
    hour = int(start[:2])
    day = "morning" if hour < 12 else "afternoon" if hour < 17 else "evening"
    if chance >= 0.975:
        return f"nearly every {day} like this ends on time ({'over 99' if chance > 0.99 else format(100 * chance, '.0f')} %)"
    if chance <= 0.025:
        return f"hardly any {day} like this ends on time ({'under 1' if chance < 0.01 else format(100 * chance, '.0f')} %)"
    near = [(some, of) for some, of in _SHARES if abs(some / of - chance) <= _NEAR_ENOUGH]
    some, of = near[0] if near else min(_SHARES, key=lambda share: abs(share[0] / share[1] - chance))
    which = f"1 {day} in {of} like this ends" if some == 1 else f"{some} {day}s in {of} like this end"
    return f"about {which} on time ({chance:.0%}".replace("%", " %)")
