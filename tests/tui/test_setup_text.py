"""The form of a test: what is understood, and what is asked again."""

import datetime as dt

import pytest

from tui.setup_text import read_setup, setup_texts

GOOD = {
    "date": "2026-06-08",
    "condition": "as found",
    "mouth": "4 1/4 in",
    "unit": "ml",
    "minutes": "30",
    "start": "6:10",
    "wind": "2,5 m/s",
    "capacity": "400 mL",
    "grid": "3x8",
}


def test_a_form_is_read_with_its_units() -> None:
    setup, wrong = read_setup(GOOD)
    assert wrong == {}
    assert setup is not None
    assert (setup.mouth, setup.wind) == ((4.25, "in"), (2.5, "m_per_s"))
    assert setup.start == dt.datetime.fromisoformat("2026-06-08T06:10")
    assert (setup.shape, setup.labels[2][7]) == ((3, 8), "H3")


def test_what_may_be_unknown_may_be_empty() -> None:
    empty = dict.fromkeys(("mouth", "minutes", "start", "wind", "capacity"), "")
    setup, _ = read_setup({**GOOD, **empty})
    assert setup is not None
    assert (setup.mouth, setup.minutes, setup.start) == (None, None, None)


@pytest.mark.parametrize(
    ("field", "text", "says"),
    [
        ("date", "8 June", "year-month-day"),
        ("condition", "", "as found"),
        ("mouth", "4.25", "has no unit"),
        ("mouth", "4.25 psi", "does not fit"),
        ("mouth", "0 in", "it is 0"),
        ("mouth", "-4 in", "below zero"),
        ("unit", "psi", "mL, fl oz, mm or in"),
        ("minutes", "0", "not between 0 and the 1440"),
        ("minutes", "0:30", "clock time"),
        ("start", "30", "not a time"),
        ("start", "25:10", "not a time"),
        ("wind", "3", "has no unit"),
        ("grid", "", "missing"),
        ("grid", "24", "not a grid"),
        ("grid", "0 x 8", "too small"),
        ("grid", "3 x 27", "too large"),
    ],
)
def test_a_wrong_field_is_named_with_what_to_do(
    field: str, text: str, says: str
) -> None:
    setup, wrong = read_setup({**GOOD, field: text})
    assert setup is None
    assert list(wrong) == [field]
    assert says in wrong[field]


def test_a_form_reads_back_as_it_was_filled_in() -> None:
    setup, _ = read_setup(GOOD)
    assert setup is not None
    assert read_setup(setup_texts(setup)) == (setup, {})


def test_a_run_of_the_next_morning_keeps_its_day() -> None:
    setup, _ = read_setup({**GOOD, "start": "2026-06-09 05:40"})
    assert setup is not None
    assert setup_texts(setup)["start"] == "2026-06-09 05:40"


def test_names_of_cans_stay_where_the_grid_does() -> None:
    before, _ = read_setup(GOOD)
    assert before is not None
    names = tuple(tuple(f"{c}{j}" for j in range(8)) for c in "ABC")
    from dataclasses import replace

    again, _ = read_setup(
        {**GOOD, "minutes": "26"}, before=replace(before, labels=names)
    )
    assert again is not None
    assert again.labels == names
