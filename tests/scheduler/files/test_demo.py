"""The demo sites by their names."""

import pytest

from scheduler.errors import QuantityError
from scheduler.files.demo import DEMO, DEMOS, demo_source, known_demo


def test_every_demo_site_that_ships_is_named_and_every_name_ships() -> None:
    shipped = {path.parent.name for path in demo_source().glob("*/site.toml")}
    assert shipped == set(DEMOS)


def test_the_demo_without_a_name_is_the_first() -> None:
    assert DEMO == "tern_hollow"


@pytest.mark.parametrize("typed", ["alder_flat", "Alder Flat", " alder-flat "])
def test_a_demo_site_is_known_however_its_words_are_joined(typed: str) -> None:
    assert known_demo(typed) == "alder_flat"


def test_an_unknown_demo_site_is_refused_with_the_known_ones() -> None:
    with pytest.raises(QuantityError, match="are tern_hollow, alder_flat"):
        known_demo("../alder_flat")
