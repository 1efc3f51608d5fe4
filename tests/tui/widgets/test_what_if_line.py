"""One line: what is tried and what it does, as far as there is room."""

import pytest

from tui.widgets.what_if_line import GIVES, HEAD, fitted, way_out

TRIED = ("Z4 DU 0.72 → 0.80", "Z4 rule low half → average")
DOES = ("need 1.12 → 1.19 in", "min a night 33 → 25", "nights 6 → 5")


def test_everything_is_told_where_there_is_room() -> None:
    what, does = fitted(TRIED, DOES, 200)
    assert what == ", ".join(TRIED)
    assert all(one in does for one in DOES)


def test_effects_go_before_older_what_ifs() -> None:
    what, does = fitted(TRIED, DOES, 104)
    assert what == f"{TRIED[0]} (+1)"
    assert DOES[1] in does


@pytest.mark.parametrize("width", [40, 60, 78, 100, 138])
def test_one_line_is_never_wider_than_the_page(width: int) -> None:
    what, does = fitted(TRIED, DOES, width)
    whole = HEAD + what + GIVES + does + way_out(width)
    assert len(whole) <= max(width, 62)


def test_one_effect_stands_even_at_eighty_columns() -> None:
    what, does = fitted(TRIED, DOES, 78)
    assert what.startswith("Z4 DU 0.72")
    assert DOES[0] in does
