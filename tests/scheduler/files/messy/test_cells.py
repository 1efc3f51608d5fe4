"""What kind of cell a piece of text is."""

import pytest

from scheduler.files.messy.cells import cell_of


@pytest.mark.parametrize("text", ["41 mL 52 mL", "41mL/52mL", "41 52 k", "4.1;5.2"])
def test_readings_run_together_in_one_cell_are_asked_about(text: str) -> None:
    assert cell_of(0, 0, text).kind == "odd"


@pytest.mark.parametrize("text", ["Can 3", "A1", "24 cans, 30 min", "north mL", "mL"])
def test_a_name_with_a_number_stays_a_word(text: str) -> None:
    assert cell_of(0, 0, text).kind == "word"


@pytest.mark.parametrize("text", ["41 mL", "1 1/2", "12,5", "41"])
def test_one_reading_stays_a_number(text: str) -> None:
    assert cell_of(0, 0, text).kind == "number"
