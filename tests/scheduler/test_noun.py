"""What every noun refuses."""

import pytest
from pydantic import ValidationError

from scheduler.noun import Noun, Positive


class _Sized(Noun):
    size_m: Positive


@pytest.mark.parametrize("size", [float("inf"), float("nan"), True, "3", 0.0])
def test_a_number_that_is_none_is_refused(size: object) -> None:
    with pytest.raises(ValidationError):
        _Sized.model_validate({"size_m": size})


def test_a_key_that_is_not_known_is_refused() -> None:
    with pytest.raises(ValidationError, match="extra"):
        _Sized.model_validate({"size_m": 1.0, "sise_m": 1.0})


def test_a_noun_cannot_be_changed() -> None:
    with pytest.raises(ValidationError, match="frozen"):
        _Sized(size_m=1.0).size_m = 2.0  # type: ignore[misc]
