"""What is typed for one can, and what is asked about it at once."""

import numpy as np
import pytest

from scheduler.errors import QuantityError
from scheduler.field.as_typed import reading_remark, typed_reading
from scheduler.record import CanRun


def run(*readings: float, unit: str = "ml") -> CanRun:
    n = len(readings)
    return CanRun(
        "1",
        "run1.csv",
        np.array([readings], dtype=np.float64),
        (("",) * n,),  # type: ignore[arg-type]
        (tuple(f"{c}1" for c in "ABCDEFGH"[:n]),),
        unit,  # type: ignore[arg-type]
        30.0,
    )


# --- one text, by hand ---------------------------------------------------------


@pytest.mark.parametrize(
    ("text", "read"),
    [
        ("52", 52.0),
        ("5.5", 5.5),
        ("5,5", 5.5),
        ("0,250", 0.25),
        (".5", 0.5),
        ("½", 0.5),
        ("3½", 3.5),
        ("0", 0.0),
        ("-12", -12.0),
        ("", "-"),
        ("–", "-"),
        ("K", "k"),
        ("l", "l"),
        ("o", "o"),
    ],
)
def test_a_text_is_a_number_or_a_code(text: str, read: float | str) -> None:
    assert typed_reading(text) == read


def test_a_comma_that_could_be_thousands_is_asked_about() -> None:
    with pytest.raises(QuantityError, match=r"1,250 could be 1250 or 1\.250"):
        typed_reading("1,250")


@pytest.mark.parametrize("text", ["5x", "5.5.5", "1,2,3", "5-", "kk"])
def test_anything_else_is_refused(text: str) -> None:
    with pytest.raises(QuantityError, match="neither a reading nor a code"):
        typed_reading(text)


# --- one reading among the others ---------------------------------------------


def test_an_ordinary_reading_is_not_asked_about() -> None:
    assert reading_remark(run(41, 52, 60, 48), 0, 1) is None


def test_a_dry_can_is_not_taken_for_a_slip() -> None:
    assert reading_remark(run(41, 52, 60, 12), 0, 3) is None


def test_a_lost_point_is_asked_about_with_what_was_meant() -> None:
    said = reading_remark(run(5.1, 4.8, 5.5, 52), 0, 3)
    assert said is not None
    assert said.level == "warning"
    assert said.fix.startswith("meant 5.2?")


def test_a_lost_digit_is_asked_about_with_what_was_meant() -> None:
    said = reading_remark(run(41, 52, 60, 5), 0, 3)
    assert said is not None
    assert said.fix.startswith("meant 50?")


def test_two_others_are_too_few_to_call_a_reading_odd() -> None:
    assert reading_remark(run(41, 52, 550), 0, 2) is None


def test_a_zero_is_kept_and_asked_about() -> None:
    said = reading_remark(run(41, 52, 60, 0), 0, 3)
    assert said is not None
    assert (said.level, said.where) == ("warning", "can D1")
    assert said.what.startswith("0 is kept")


def test_a_reading_below_zero_cannot_be() -> None:
    said = reading_remark(run(41, -12), 0, 1)
    assert said is not None
    assert (said.level, said.what) == ("stop", "-12 mL is not possible")


def test_more_than_the_can_holds_cannot_be() -> None:
    said = reading_remark(run(41, 52, 60, 410), 0, 3, capacity_ml=400.0)
    assert said is not None
    assert said.level == "stop"
    assert "more than the can holds (400)" in said.what


def test_a_capacity_is_compared_in_the_unit_of_the_readings() -> None:
    # 1 US fl oz is 29.6 mL: a 400 mL can holds 13.5
    assert reading_remark(run(14.0, unit="fl_oz"), 0, 0, capacity_ml=400.0) is not None
    assert reading_remark(run(13.0, unit="fl_oz"), 0, 0, capacity_ml=400.0) is None


def test_a_place_without_a_reading_is_not_asked_about() -> None:
    assert reading_remark(run(41, float("nan")), 0, 1) is None
