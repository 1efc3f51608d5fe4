"""The cells under every chart: nothing vanishes, nothing runs over the edge."""

import pytest
from hypothesis import given
from hypothesis import strategies as st
from rich.cells import cell_len
from textual.app import App, ComposeResult
from textual.color import Color
from textual.theme import BUILTIN_THEMES

from tui.widgets.canvas import Canvas, Chart, Ink, ascii_only, plain

RED, GREY = "#ff0000", "#808080"
DARK = Color.parse("#121212")


@given(st.floats(0, 30))
def test_a_bar_never_vanishes(length: float) -> None:
    canvas = Canvas(40, 1)
    assert canvas.bar_right(0, 0, length, RED) >= 1
    assert canvas.line(0).strip()


@given(st.floats(0, 6))
def test_an_upright_bar_never_vanishes(height: float) -> None:
    canvas = Canvas(3, 8)
    assert canvas.bar_up(0, 7, (3, height), RED) >= 1
    assert canvas.line(7).strip()


@given(st.floats(0.2, 30))
def test_a_bar_is_as_long_as_its_value_to_an_eighth(length: float) -> None:
    canvas = Canvas(40, 1)
    canvas.bar_right(0, 0, length, RED)
    eighths = {sign: i for i, sign in enumerate(" ▏▎▍▌▋▊▉█")}
    drawn = sum(eighths[sign] for sign in canvas.line(0)) / 8
    assert drawn == pytest.approx(length, abs=1 / 16 + 1e-9)


def test_what_lies_outside_is_dropped() -> None:
    canvas = Canvas(4, 1)
    canvas.write(2, 0, "wide", RED)
    canvas.write(-1, 0, "left", RED)
    canvas.write(0, 5, "below", RED)
    canvas.dot(99, 99, RED)
    assert canvas.line(0) == "eft…"


@pytest.mark.parametrize(
    ("text", "line"),
    [
        ("grey: wettest; dotted", "grey: wett…"),
        ("grey: wet ██", "grey: wet █"),
        ("eleven long", "eleven long"),
    ],
)
def test_words_that_are_cut_say_so_and_bars_do_not(text: str, line: str) -> None:
    canvas = Canvas(11, 1)
    canvas.write(0, 0, text, RED)
    assert canvas.line(0) == line


@pytest.mark.parametrize("text", ["北5 tree yard", "北北北5", "a北b", "北" * 9])
def test_a_sign_of_two_cells_takes_two(text: str) -> None:
    canvas = Canvas(7, 1)
    canvas.write(1, 0, text, RED)
    assert cell_len(canvas.line(0)) == 7
    assert sum(segment.cell_length for segment in canvas.strip(0)) == 7


@given(st.integers(-4, 7), st.integers(-3, 5), st.integers(-2, 6), st.integers(-2, 6))
def test_a_shaded_block_is_every_cell_of_it_on_the_canvas(
    x: int, y: int, width: int, height: int
) -> None:
    canvas = Canvas(5, 3)
    canvas.fill(x, y, (width, height), GREY)
    shaded = {(a, b) for a in range(5) for b in range(3) if canvas.back(a, b) == GREY}
    block = {(a, b) for a in range(x, x + width) for b in range(y, y + height)}
    assert shaded == {(a, b) for a, b in block if 0 <= a < 5 and 0 <= b < 3}


def test_clearing_takes_only_the_signs_that_are_named() -> None:
    canvas = Canvas(6, 1)
    canvas.write(0, 0, "╱·a╱·b", RED)
    canvas.clear(0, range(-3, 4), "╱·", GREY)
    assert canvas.line(0) == "  a ·b"


def test_shading_stays_behind_a_number() -> None:
    canvas = Canvas(3, 1)
    canvas.fill(0, 0, (3, 1), GREY)
    canvas.write(1, 0, "7", RED)
    styles = [segment.style for segment in canvas.strip(0)]
    assert all(style is not None and style.bgcolor is not None for style in styles)


def test_a_dotted_line_does_not_hide_a_glyph() -> None:
    canvas = Canvas(4, 1)
    canvas.write(1, 0, "█", RED)
    canvas.dotted_row(0, 0.5, 4, GREY)
    assert canvas.line(0)[1] == "█"
    assert canvas.line(0)[0] != " "


def test_a_row_below_the_canvas_is_blank() -> None:
    assert Canvas(4, 1).strip(3).text == "    "


@given(st.text(max_size=40))
def test_plain_text_is_ascii_and_as_long(text: str) -> None:
    assert plain(text).isascii()
    assert len(plain(text)) == len(text)


def test_ascii_bars_are_ascii_and_do_not_vanish() -> None:
    canvas = Canvas(10, 3, is_ascii=True)
    canvas.bar_right(0, 0, 0.1, RED)
    canvas.bar_up(2, 2, (2, 0.1), RED)
    canvas.dotted_row(0, 1.5, 10, GREY)
    assert canvas.text().isascii()
    assert canvas.line(0)[0] == "#"
    assert canvas.line(2)[2:4] == "##"
    assert canvas.line(1).strip()


@pytest.mark.parametrize(
    ("environ", "expected"),
    [
        ({"TERM": "linux"}, True),
        ({"TERM": "xterm-256color", "LOWQUARTER_ASCII": "1"}, True),
        ({"TERM": "xterm-256color"}, False),
        ({}, False),
    ],
)
def test_ascii_is_for_bare_consoles_or_when_asked(
    environ: dict[str, str], expected: bool
) -> None:
    assert ascii_only(environ) is expected


@pytest.mark.parametrize("name", sorted(BUILTIN_THEMES))
def test_every_theme_gives_ink(name: str) -> None:
    variables = BUILTIN_THEMES[name].to_color_system().generate()
    ink = Ink.of_theme(variables, DARK)
    for colour in (ink.text, ink.muted, ink.accent, ink.pale, ink.alarm):
        Color.parse(colour)


def test_shades_run_from_pale_to_accent() -> None:
    ink = Ink("#ffffff", "#888888", "#0178d4", "#102030", "#ffa62b")
    assert ink.shade(0) == ink.pale
    assert ink.shade(1) == ink.accent
    assert ink.shade(7) == ink.accent


class Counted(Chart):
    """A picture that counts how often it was drawn."""

    times = 0

    def draw(self, canvas: Canvas, ink: Ink) -> None:
        self.times += 1

    def words(self) -> list[str]:
        return []


class Alone(App[None]):
    """One picture and nothing else."""

    def compose(self) -> ComposeResult:
        yield Counted()


async def test_a_picture_is_drawn_once_for_each_size_and_again_when_it_changed() -> (
    None
):
    async with Alone().run_test(size=(40, 12)) as pilot:
        chart = pilot.app.query_one(Counted)
        for height in (12, 11, 12, 11):
            await pilot.resize_terminal(40, height)
            chart.render_line(0)
        assert chart.times == 2
        chart.say_in_words(False)
        chart.render_line(0)
        assert chart.times == 3
