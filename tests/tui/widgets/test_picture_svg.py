"""A picture as a drawing: areas, dots, lines and words, by themselves."""

from xml.etree import ElementTree as ET

import pytest

from tui.widgets.canvas import Canvas
from tui.widgets.picture_svg import HIGH, PAPER, WIDE, picture_svg

SVG = "{http://www.w3.org/2000/svg}"


def drawn(canvas: Canvas) -> ET.Element:
    return ET.fromstring(picture_svg(canvas, "need <1>", ["so & so"]))


def cells() -> Canvas:
    return Canvas(12, 3)


def test_the_picture_in_words_lies_within() -> None:
    root = drawn(cells())
    assert root.findtext(f"{SVG}title") == "need <1>"
    assert root.findtext(f"{SVG}desc") == "so & so"


def test_words_of_one_colour_are_one_text_of_their_width() -> None:
    canvas = cells()
    canvas.write(2, 1, "0.31 in", PAPER.text)
    [group] = drawn(canvas).findall(f"{SVG}g")
    [text] = group.findall(f"{SVG}text")
    assert text.text == "0.31 in"
    assert float(text.get("textLength", "0")) == 7 * WIDE


def test_a_bar_of_half_a_cell_is_half_as_high() -> None:
    canvas = cells()
    canvas.bar_up(0, 2, (1, 0.5), PAPER.accent)
    [group] = drawn(canvas).findall(f"{SVG}g")
    [bar] = group.findall(f"{SVG}rect")
    assert float(bar.get("height", "0")) == HIGH / 2
    assert float(bar.get("y", "0")) == 2.5 * HIGH


def test_a_dot_is_a_disc() -> None:
    canvas = cells()
    canvas.dot(0, 0, PAPER.alarm)
    [group] = drawn(canvas).findall(f"{SVG}g")
    [disc] = group.findall(f"{SVG}circle")
    assert disc.get("fill") == PAPER.alarm


def test_shaded_cells_beside_each_other_are_one_area() -> None:
    canvas = cells()
    canvas.fill(1, 0, (5, 1), PAPER.pale)
    [group] = drawn(canvas).findall(f"{SVG}g")
    [area] = group.findall(f"{SVG}rect")
    assert float(area.get("width", "0")) == 5 * WIDE


@pytest.mark.parametrize("glyph", "│─━┬┴┤├└╌┄┷╱░▒▓▏▎▍▌▋▊▉█▁▂▃▄▅▆▇▕")
def test_every_line_and_block_is_drawn_and_not_written(glyph: str) -> None:
    canvas = cells()
    canvas.write(0, 0, glyph, PAPER.text)
    [group] = drawn(canvas).findall(f"{SVG}g")
    assert not group.findall(f"{SVG}text")
    assert len(group) == 1
