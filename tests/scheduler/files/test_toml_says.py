"""A text that says more or less than it should is refused."""

import tomllib

import pytest

from scheduler.errors import SaveError
from scheduler.files.toml_says import checked, inside, named


def test_a_text_that_says_what_it_should_is_given_back() -> None:
    assert checked("a = 1", "a = 2  # two", lambda data: data.update(a=2)) == (
        "a = 2  # two"
    )


def test_a_text_that_says_more_is_refused() -> None:
    with pytest.raises(SaveError, match="does not let"):
        checked("a = 1", "a = 2\nb = 3", lambda data: data.update(a=2))


def test_a_typed_value_that_is_not_toml_is_refused() -> None:
    with pytest.raises(SaveError, match="typed is not TOML"):
        checked("a = 1", "a = .5", lambda data: data.update(tomllib.loads("a = .5")))


def test_a_text_that_is_not_toml_is_refused() -> None:
    with pytest.raises(SaveError, match="does not let"):
        checked("a = 1", "a = .5", lambda data: data.update(a=0.5))


def test_a_place_that_is_not_there_is_named_as_people_count() -> None:
    with pytest.raises(SaveError, match=r"zone\.3 is not there"):
        inside({"zone": [{}, {}]}, ("zone", 2))


def test_a_place_is_named_with_its_number() -> None:
    assert named(("zone", 0, "soil")) == "zone.1.soil"
