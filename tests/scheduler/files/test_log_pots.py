"""Several pots typed in one go."""

import pytest

from scheduler.errors import QuantityError
from scheduler.files.log_pots import parsed_pots


def pots(text: str) -> tuple[tuple[str, str], ...]:
    return parsed_pots(text, ("in", "out"), ("mL", "mL"), option="--pots")


@pytest.mark.parametrize(
    "text", ["A1 420 160, A2 400 90", "A1 420 160; A2 400 90;", "A1 420 160\nA2 400 90"]
)
def test_each_pot_is_its_place_and_its_numbers_with_units(text: str) -> None:
    assert pots(text) == (
        ("A1", "in 420 mL; out 160 mL"),
        ("A2", "in 400 mL; out 90 mL"),
    )


@pytest.mark.parametrize("place", ["N corner", "row 2 col 3", "pot 7", "by head # 4"])
def test_a_place_may_hold_words_and_its_own_numbers(place: str) -> None:
    assert pots(f"{place} 420 160")[0][0] == place


def test_a_dash_stands_for_nothing_read() -> None:
    found = parsed_pots("A1 1.8 -", ("EC", "pH"), ("mS/cm", ""), option="--pots")
    assert found == (("A1", "EC 1.8 mS/cm"),)


@pytest.mark.parametrize(
    ("text", "message"),
    [
        ("A1 420", "'A1 420' is not a place and 2 numbers \\(in, out\\)"),
        ("420 160", "is not a place"),
        ("A1 420 160 90", "is not a place"),
        ("A1 420mL 160mL", "is not a place"),
        (" , ", "holds no pot"),
    ],
)
def test_what_is_no_pot_is_refused_with_an_example(text: str, message: str) -> None:
    with pytest.raises(QuantityError, match=message) as refused:
        pots(text)
    assert '"A1 420 160, A1' not in str(refused.value)
    assert '"A1 420 160, A2 420 160"' in str(refused.value)
