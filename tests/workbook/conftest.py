"""What every test of a panel needs."""

from __future__ import annotations

import asyncio
from collections.abc import Iterator

import pytest


@pytest.fixture(autouse=True)
def no_loop_left() -> Iterator[None]:
    """As in a script: a browser test of the same process leaves its event loop, and lists and followers would wait."""
    left = asyncio._get_running_loop()
    asyncio._set_running_loop(None)
    yield
    asyncio._set_running_loop(left)
