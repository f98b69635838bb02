"""What does the class cost, what does a seat cost, and at how many people do the fees cover it? Decimal money throughout."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import replace
from decimal import ROUND_HALF_UP, Decimal

from jarwright.model.document import ClassDocument, Participant
from jarwright.model.plan import Cost, Finding, Load, ShoppingLine, Task
from jarwright.planning.settings import COMMON_PRACTICE, SETTINGS

CENT = Decimal("0.01")
JOULES_PER_BTU = 1055.05585262


def cost(
    document: ClassDocument,
    shopping: tuple[ShoppingLine, ...],
    tasks: tuple[Task, ...],
    loads: tuple[Load, ...],
    *,
    break_even_people: int | None = None,
) -> tuple[Cost, tuple[Finding, ...]]:
    """
    Return what the class costs, and a note on what has no price.

    `fixed` holds the fixed costs and those for each person who comes.
    """
    packages, people = packages_cost(shopping), len(document.attending)
    fixed = Decimal(document.costs.fixed) + Decimal(document.costs.per_person) * people
    fuel = fuel_cost(document, tasks, loads)
    total = packages + fixed + fuel
    unpriced = tuple(line.item for line in shopping if line.buy.amount > 0 and line.cost is None)
    found = Cost(
        currency=document.attendance.currency,
        total=money(total),
        per_person=money(total / people) if people else "0.00",
        break_even_people=break_even_people,
        packages=money(packages),
        fixed=money(fixed),
        fuel=money(fuel),
        unpriced=unpriced,
    )
    return found, (_unpriced(unpriced),) if unpriced else ()


def packages_cost(shopping: tuple[ShoppingLine, ...]) -> Decimal:
    """Return what the packages cost whose price is known."""
    return sum(
        (Decimal(package.price) * package.count for line in shopping for package in line.packages if package.price is not None),
        Decimal(0),
    )


def fuel_cost(document: ClassDocument, tasks: tuple[Task, ...], loads: tuple[Load, ...]) -> Decimal:
    """
    Return what the gas costs: 0.00 where its price is not set.

    A canner's burner counts from on until its process ends, a pot's while it cooks, both at full power: an upper limit.
    """
    if document.costs.gas_per_lb is None:
        return Decimal("0.00")
    return (Decimal(str(gas_lb(document, tasks, loads))) * Decimal(document.costs.gas_per_lb)).quantize(CENT, ROUND_HALF_UP)


def gas_lb(document: ClassDocument, tasks: tuple[Task, ...], loads: tuple[Load, ...]) -> float:
    """Return the LP gas burnt. [lb]"""
    watts = {burner.id: burner.power_w for burner in document.kitchen.burners if burner.fuel == "gas"}
    watt_minutes = math.fsum(watts.get(burner, 0.0) * (task.end - task.start) for task in tasks for burner in task.burners)
    for load in loads:
        process = load.phase("process")
        watt_minutes += watts.get(load.burner, 0.0) * ((process.end if process else load.end) - load.start)
    return watt_minutes * 60 / JOULES_PER_BTU / SETTINGS.lp_gas_btu_per_lb


def break_even(document: ClassDocument, cost_for: Callable[[int], Decimal]) -> int | None:
    """
    Return the least number of people whose fees cover the cost of that many; None where none up to the maximum does.

    Parameters
    ----------
    cost_for
        The whole cost of a class of so many people.
    """
    fee = Decimal(document.attendance.fee)
    if fee <= 0:
        return None
    most = document.attendance.maximum or max(SETTINGS.break_even_most, len(document.attending))
    return next((people for people in range(1, most + 1) if fee * people >= cost_for(people)), None)


def with_people(document: ClassDocument, count: int) -> ClassDocument:
    """Return the class with so many people: the first of those who come, then people without a wish or an allergy."""
    kept = document.attending[:count]
    names = {person.id for person in document.people}
    more: list[Participant] = []
    number = 0
    while len(kept) + len(more) < count:
        number += 1
        if f"seat-{number}" not in names:
            more.append(Participant(id=f"seat-{number}", name=f"Seat {number}"))
    return replace(document, people=(*kept, *more))


def money(amount: Decimal) -> str:
    """Write an amount of money with two decimals, half a cent up."""
    return str(amount.quantize(CENT, ROUND_HALF_UP))


def _unpriced(items: tuple[str, ...]) -> Finding:
    named = ", ".join(items[:4]) + (f" and {len(items) - 4} more" if len(items) > 4 else "")
    many = f"{len(items)} items have no price and are" if len(items) > 1 else "1 item has no price and is"
    says = f"{many} not in the cost: {named}."
    return Finding("cost", "note", "class", says, "Enter what your shop asks under packages.", COMMON_PRACTICE)
