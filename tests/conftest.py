"""What all tests share."""

from __future__ import annotations

import os
from pathlib import Path

import pytest
from hypothesis import settings

ROOT = Path(__file__).parent.parent

# The tests run in the Python at hand; none of them may start a set-up of its own.
os.environ["TUTORIAL_NO_SETUP"] = "1"
# They hold what is worked out; what is kept from an earlier command is tried by tests of its own.
os.environ["TUTORIAL_NO_MEMORY"] = "1"

settings.register_profile("house", deadline=None, max_examples=60, derandomize=True, database=None)
settings.load_profile("house")


@pytest.fixture(scope="session")
def root() -> Path:
    """The project's folder."""
    return ROOT
