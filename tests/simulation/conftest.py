"""Where the histories of a test session are played."""

import pytest

from tests.simulation.premises import Premises


@pytest.fixture(scope="session")
def premises():
    """A folder in memory with the founded house."""
    with Premises() as made:
        yield made
