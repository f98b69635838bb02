"""Money: packages, fuel, a seat, break-even."""

from decimal import Decimal

import pytest

from demo_class import gas, make, people
from jarwright.model.plan import Load, PackageCount, Phase, Quantity, ShoppingLine, Task
from jarwright.planning.cost import break_even, cost, fuel_cost, gas_lb, with_people


def line(item, count, price):
    """Return a shopping line of so many packages of one pound."""
    packages = (PackageCount("bag", 1, "lb", count, price),)
    total = None if price is None else str(Decimal(price) * count)
    amount = Quantity(count, "lb")
    return ShoppingLine(item, amount, Quantity(0, "lb"), amount, packages, {"A": count}, "baking", "demo", cost=total)


def boiling(start, end, burner="b1"):
    """Return a load whose burner is on from one minute until its process ends at another."""
    phases = (
        Phase("preheat", start, start + 10),
        Phase("process", end - 20, end),
        Phase("rest", end, end + 5),
        Phase("unload", end + 5, end + 10),
    )
    return Load("L1", "k1", burner, "boiling-water", "s1", 20, None, None, (), phases)


def test_seat_costs_its_share_of_everything():
    """10.47 of packages, 60 fixed and 2.50 for each of 4 people are 80.47, and 20.12 a seat."""
    document = make(costs={"fixed": "60.00", "per_person": "2.50"})

    found, findings = cost(document, (line("sugar", 3, "3.49"),), (), ())

    assert (found.packages, found.fixed, found.fuel, found.total, found.per_person) == ("10.47", "70.00", "0.00", "80.47", "20.12")
    assert findings == ()


def test_cents_add_up_exactly():
    """A tenth and two tenths are three tenths: money is never binary."""
    found, _ = cost(make(), (line("a", 1, "0.10"), line("b", 1, "0.20")), (), ())

    assert found.total == "0.30"


def test_items_without_a_price_are_named():
    """A cost that leaves out the peppers says so, or the fee is set too low."""
    found, findings = cost(make(), (line("sugar", 1, "3.60"), line("peppers", 2, None)), (), ())

    assert (found.total, found.unpriced) == ("3.60", ("peppers",))
    assert findings[0].says == "1 item has no price and is not in the cost: peppers."


def test_gas_burns_from_on_until_the_process_ends():
    """4,000 W for 90 minutes are 20,473 Btu, 0.952 lb at 21,500 Btu a pound; a pot's 30 minutes add a third of it."""
    document = make(kitchen={"burners": [gas("b1"), gas("b2")]}, costs={"gas_per_lb": "1.10"})
    pot = Task("A1-cook", "A", "A1", "cook", 0, 30, 1, ("b2",), ())

    assert gas_lb(document, (), (boiling(10, 100),)) == pytest.approx(0.952, abs=0.001)
    assert fuel_cost(document, (pot,), (boiling(10, 100),)) == Decimal("1.40")


def test_electric_burners_burn_no_gas():
    """The hall pays for current, the instructor for the bottle."""
    electric = {"id": "b1", "fuel": "electric", "power_w": 1800, "circuit": "c1"}
    document = make(
        kitchen={"burners": [electric], "circuits": [{"id": "c1", "volts": 120, "amps": 20}]}, costs={"gas_per_lb": "1.10"}
    )  # fmt: skip

    assert fuel_cost(document, (), (boiling(10, 100),)) == Decimal("0.00")


def test_break_even_counts_what_that_many_cost():
    """60 fixed and 7.50 each at a fee of 20: five people bring 100 and cost 97.50, four bring 80 and cost 90."""
    document = make(attendance={"maximum": 12, "fee": "20.00"})

    assert break_even(document, lambda heads: Decimal(60) + Decimal("7.50") * heads) == 5


def test_break_even_follows_packages_that_come_in_steps():
    """A second case of jars at the thirteenth person: twelve cover the cost, thirteen do not; the least number counts."""
    document = make(attendance={"maximum": 20, "fee": "10.00"})

    assert break_even(document, lambda heads: Decimal(115) + Decimal(16) * (heads > 12)) == 12


def test_no_break_even_up_to_the_maximum_or_without_a_fee():
    """A class that loses money at every size is told so by no number."""
    expensive = make(attendance={"maximum": 12, "fee": "5.00"})
    free = make(attendance={"maximum": 12})

    assert break_even(expensive, lambda heads: Decimal(100)) is None
    assert break_even(free, lambda heads: Decimal(0)) is None


def test_class_of_another_size_keeps_its_first_people():
    """Fewer: the last ones stay away. More: seats without wishes are added, under names nobody has."""
    document = make(people=[*people(2), {"id": "seat-1", "name": "Someone"}, {"id": "p9", "name": "Absent", "attending": False}])

    assert [person.id for person in with_people(document, 1).attending] == ["p01"]
    assert [person.id for person in with_people(document, 5).attending] == ["p01", "p02", "seat-1", "seat-2", "seat-3"]
