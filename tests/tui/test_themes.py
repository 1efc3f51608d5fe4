"""Colours that can be read: the ratio, the faces, the stark filter."""

import pytest
from rich.segment import Segment
from rich.style import Style
from textual.color import Color

from tui.themes import (
    BLACK,
    FACES,
    OWN,
    READABLE,
    STARK_READABLE,
    WHITE,
    StarkFilter,
    contrast,
    next_face,
    readable_on,
)
from tui.widgets.canvas import Ink


def test_black_on_white_is_twenty_one_to_one() -> None:
    # WCAG 2.2, definition of contrast ratio: (1 + 0.05) / (0 + 0.05)
    assert contrast(BLACK, WHITE) == pytest.approx(21.0)


def test_a_known_grey_has_its_known_ratio() -> None:
    # WCAG technique G18: #767676 on white is the lightest grey at 4.5 to 1
    assert contrast(Color.parse("#767676"), WHITE) == pytest.approx(4.54, abs=0.01)


@pytest.mark.parametrize("grey", range(0, 256, 5))
def test_black_or_white_is_read_on_any_ground(grey: int) -> None:
    ground = Color(grey, grey, grey)
    assert contrast(readable_on(ground), ground) >= READABLE


@pytest.mark.parametrize("part", [i / 20 for i in range(21)])
def test_shades_of_a_stark_picture_carry_words(part: float) -> None:
    stark = next(one for one in OWN if one.name == FACES["contrast"])
    variables = {**stark.to_color_system().generate(), **stark.variables}
    shade = Ink.of_theme(variables, BLACK).shade(part)
    assert contrast(Color.parse(Ink.on(shade)), Color.parse(shade)) >= STARK_READABLE


def test_dim_words_become_plain_in_the_stark_face() -> None:
    dim = Segment("word", Style.parse("#999999 on #000000"))
    [plain] = StarkFilter().apply([dim], BLACK)
    assert plain.style is not None
    assert plain.style.color is not None
    assert plain.style.color.name == "#ffffff"


def test_blocks_of_a_picture_keep_their_colour() -> None:
    bar = Segment("███", Style.parse("#555555 on #000000"))
    assert StarkFilter().apply([bar], BLACK) == [bar]


def test_the_key_goes_through_all_faces_and_round() -> None:
    faces = [next_face(theme) for theme in FACES.values()]
    assert faces == [*list(FACES)[1:], next(iter(FACES))]


def test_a_theme_of_somebody_else_goes_on_to_the_first_face() -> None:
    assert next_face("elsewhere") == "dark"
