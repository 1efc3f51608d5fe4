"""Texts by the cells that they take."""

import pytest
from hypothesis import given
from hypothesis import strategies as st
from rich.cells import cell_len

from tui.widgets.cells import by_cell, fitted

WORDS = st.text("aZ5 北区", max_size=12)


@given(WORDS)
def test_there_is_a_sign_for_each_cell(text: str) -> None:
    assert len(by_cell(text)) == cell_len(text) == cell_len(by_cell(text))


@given(WORDS, st.integers(1, 20))
def test_a_fitted_text_has_room_and_says_when_it_is_cut(text: str, room: int) -> None:
    said = fitted(text, room)
    assert cell_len(said) <= room
    assert (said == text) is (cell_len(text) <= room)
    assert said == text or said.endswith("…")


@pytest.mark.parametrize(("room", "said"), [(2, "…"), (3, "北…"), (4, "北区")])
def test_a_sign_that_is_halved_is_left_out(room: int, said: str) -> None:
    assert fitted("北区", room).replace(" ", "") == said
