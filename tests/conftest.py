"""Which tests run when: samples always, full counts with --long, outside programs where .ci/run asks for them."""

from __future__ import annotations

import pytest


def pytest_addoption(parser: pytest.Parser) -> None:
    """Add `--long`: the full counts that the samples stand for."""
    parser.addoption("--long", action="store_true", help="run the full counts that samples stand for")


def pytest_collection_modifyitems(config: pytest.Config, items: list[pytest.Item]) -> None:
    """Leave out what was not asked for; it counts as deselected, never as passed."""
    wanted = config.getoption("markexpr")
    left_out = []
    for marker, is_asked in (("long", config.getoption("--long")), ("outside", "outside" in wanted)):
        if not is_asked:
            left_out += [item for item in items if item.get_closest_marker(marker) and item not in left_out]
    if left_out:
        config.hook.pytest_deselected(items=left_out)
        items[:] = [item for item in items if item not in left_out]
