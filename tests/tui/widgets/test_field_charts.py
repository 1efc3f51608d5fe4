"""Pictures of the field test on a canvas: values stand where they should."""

import dataclasses
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tui.widgets.axes import Frame, draw_axes, round_ends, round_ticks
from tui.widgets.box import Box, BoxPlot
from tui.widgets.canvas import Canvas, Chart, Ink
from tui.widgets.du_wind import DuWind, Mark, Series
from tui.widgets.spacing_map import Chosen, Field, SpacingMap
from tui.widgets.wind_day import Shaded, WindDay, WindTrace

INK = Ink("#ffffff", "#888888", "#0178d4", "#102030", "#ffa62b", "#303030")


def drawn(chart: Chart, width: int = 60, height: int = 20, **how: bool) -> Canvas:
    canvas = Canvas(width, height, **how)
    chart.draw(canvas, INK)
    return canvas


def place(canvas: Canvas, text: str) -> tuple[int, int]:
    """Column and row of a text."""
    for y in range(canvas.height):
        if text in canvas.line(y):
            return canvas.line(y).index(text), y
    raise AssertionError(f"{text} is not drawn:\n{canvas.text()}")


# --- axes ---------------------------------------------------------------------


@given(st.floats(-5, 5), st.floats(0.01, 2000), st.integers(2, 12))
def test_ticks_are_round_few_and_inside(low: float, span: float, most: int) -> None:
    ticks, digits = round_ticks(low, low + span, most)
    assert len(ticks) <= most + 1
    assert all(low - 1e-6 <= one <= low + span + 1e-6 for one in ticks)
    assert all(abs(round(one, digits) - one) < 1e-9 * max(1, span) for one in ticks)


def test_ticks_of_a_day_of_wind_are_those_a_person_would_choose() -> None:
    assert round_ticks(0, 6, 6)[0] == pytest.approx([0, 1, 2, 3, 4, 5, 6])


@pytest.mark.parametrize(("rows", "top"), [(6, 0.3), (10, 10.0), (12, 0.4), (8, 1.0)])
def test_ticks_stand_as_far_apart_as_their_values(rows: int, top: float) -> None:
    canvas, frame = Canvas(40, rows + 2), Frame(8, 0, 30, rows, 0.0, 1.0, 0.0, top)
    draw_axes(canvas, INK, frame)
    at = [y for y in range(rows + 2) if canvas.line(y)[:7].strip()]
    assert len({b - a for a, b in pairwise(at)}) == 1


@given(st.floats(0.0, 1.0))
def test_every_value_between_the_ends_lies_in_the_plot(part: float) -> None:
    frame = Frame(8, 2, 30, 9, 0.0, 1.0, -3.0, 5.0)
    assert frame.top <= frame.cell_y(-3.0 + 8.0 * part) <= frame.bottom


def test_ends_move_outward_to_ticks() -> None:
    assert round_ends(0.0, 17.3, 5) == pytest.approx((0.0, 20.0))


@given(st.floats(-1e6, 1e6), st.floats(0, 1e6), st.integers(2, 8))
def test_ends_hold_both_values_and_are_apart(low: float, by: float, most: int) -> None:
    a, b = round_ends(low, low + by, most)
    assert a < b
    assert a <= low + 1e-6
    assert low + by <= b + 1e-6


@given(st.floats(0, 10), st.floats(0, 1))
def test_every_value_within_the_ends_lies_in_the_plot(x: float, y: float) -> None:
    frame = Frame(6, 1, 40, 12, 0.0, 10.0, 0.0, 1.0)
    assert 6 <= frame.cell_x(x) < 46
    assert 1 <= frame.cell_y(y) <= frame.bottom


# --- box ----------------------------------------------------------------------


def box(**changes: object) -> Box:
    made = Box(8, 10, 12, 14, 18, 9, "12.0", "9.0", ("run1", "DU 0.75"), "run1: words")
    return dataclasses.replace(made, **changes)  # type: ignore[arg-type]


def boxes(*made: Box) -> BoxPlot:
    chart = BoxPlot()
    chart.boxes = made or (box(), box(labels=("run2",)))
    return chart


def test_the_median_is_written_beside_its_line() -> None:
    canvas = drawn(boxes())
    x, y = place(canvas, "12.0")
    assert "━" in canvas.line(y)[:x]


def test_a_higher_median_stands_higher() -> None:
    low, high = box(), box(middle=17.0, three_quarters=17.5, middle_text="17.0")
    canvas = drawn(boxes(low, high))
    assert place(canvas, "17.0")[1] < place(canvas, "12.0")[1]


def test_the_driest_quarter_has_a_sign_and_a_number() -> None:
    assert "▾ 9.0" in drawn(boxes()).text()


def test_a_box_without_spread_does_not_vanish() -> None:
    flat = box(low=12, quarter=12, three_quarters=12, high=12, mark=12)
    assert "━" in drawn(boxes(flat)).text()


def test_too_many_runs_for_the_width_are_said_in_words() -> None:
    canvas = drawn(boxes(*[box()] * 12), 40)
    assert "run1: words" in canvas.text()


# --- wind of the day ----------------------------------------------------------


def wind(*windows: Shaded, gap: bool = False) -> WindDay:
    chart = WindDay()
    minutes = tuple(m for m in range(300, 480, 5) if not (gap and 360 <= m < 420))
    chart.trace = WindTrace(
        tuple(float(one) for one in minutes), 5.0, (2.0,) * len(minutes),
        (float("nan"),) * len(minutes), ((5.0, "5.0 calm"),), ("log said",),
    )  # fmt: skip
    chart.windows = windows
    return chart


def shaded(start: float, length: float, label: str = "run1") -> Shaded:
    return Shaded(label, start, length, f"{label}: words", is_chosen=True)


def backs(canvas: Canvas, y: int) -> list[int]:
    return [x for x in range(canvas.width) if canvas.back(x, y)]


def test_a_run_is_shaded_over_its_own_hours_and_no_others() -> None:
    # the axis holds 05:00 to 08:00: a run from 06:00 to 06:30 is its third sixth
    columns = backs(drawn(wind(shaded(360, 30)), 66), 5)
    left = 66 - 62
    assert columns[0] == pytest.approx(left + 62 / 3, abs=1.5)
    assert columns[-1] == pytest.approx(left + 62 / 2, abs=1.5)


@given(st.floats(300, 470), st.floats(0.01, 5))
def test_the_shortest_run_never_vanishes(start: float, length: float) -> None:
    canvas = drawn(wind(shaded(start, length)))
    assert backs(canvas, 5)
    assert "━" in canvas.line(canvas.height - 2)


def test_a_run_is_labelled_for_those_who_see_no_shade() -> None:
    assert "run1" in drawn(wind(shaded(360, 30))).text()


def test_labels_of_runs_close_together_do_not_touch() -> None:
    windows = shaded(360, 5), shaded(366, 5, "run2")
    assert "run1run2" not in drawn(wind(*windows)).text()


def test_the_name_of_a_run_is_not_read_on_into_that_of_a_limit() -> None:
    def text(start: float) -> str:
        chart = wind(shaded(start, 20))
        assert chart.trace is not None
        high = ((4.7, "4.7 calm"),)  # its name stands on the row of those of runs
        chart.trace = dataclasses.replace(chart.trace, limits=high)
        return drawn(chart).text()

    texts = [text(float(at)) for at in range(400, 470)]
    assert all("run1" in one and "4.7 calm" in one for one in texts)
    assert not any("run1 4.7 calm" in one for one in texts)


def test_a_gap_of_the_log_is_no_line() -> None:
    whole, torn = (drawn(wind(gap=one)).text() for one in (False, True))
    braille = [sum("\u2800" < c <= "\u28ff" for c in one) for one in (whole, torn)]
    assert braille[1] < braille[0]


def test_a_limit_is_named() -> None:
    assert "5.0 calm" in drawn(wind()).text()


# --- DU against wind ----------------------------------------------------------


def series(**changes: object) -> Series:
    line = tuple((float(x), 0.85 - 0.03 * x) for x in range(1, 5))
    made = Series(
        "a", ((1.0, 0.82), (3.0, 0.76)), line,
        tuple((x, y - 0.03, y + 0.03) for x, y in line), (1.0, 4.0), "a: words",
    )  # fmt: skip
    return dataclasses.replace(made, **changes)  # type: ignore[arg-type]


def against(*made: Series, marks: tuple[Mark, ...] = ()) -> DuWind:
    chart = DuWind()
    chart.series, chart.marks, chart.unit = made, marks, "wind, m/s"
    return chart


def test_tests_that_all_ran_in_calm_air_are_drawn() -> None:
    calm = Series("a", ((0.0, 0.82), (0.0, 0.76)), words="a: 2 runs")
    canvas = drawn(against(calm))
    x, y = place(canvas, "└")
    assert [canvas.line(row)[x + 1] for row in range(2, y)].count("●") == 2


def test_two_packages_differ_by_more_than_colour() -> None:
    text = drawn(against(series(), series(name="b"))).text()
    assert "● a" in text
    assert "◇ b" in text


def test_a_run_in_more_wind_stands_further_right() -> None:
    canvas = drawn(against(series()))
    rows = {y: canvas.line(y) for y in range(2, canvas.height)}
    spots = sorted((row.index("●"), y) for y, row in rows.items() if "●" in row)
    assert len(spots) == 2
    assert spots[0][1] < spots[1][1], "less wind is more even"


def test_the_band_lies_behind_the_line() -> None:
    canvas = drawn(against(series()))
    x, y = next((x, y) for y in range(canvas.height) for x in range(canvas.width)
                if canvas.back(x, y))  # fmt: skip
    assert canvas.back(x, y) != INK.accent


def test_without_a_band_nothing_is_shaded() -> None:
    canvas = drawn(against(series(band=())))
    assert not any(backs(canvas, y) for y in range(canvas.height))


def test_the_wind_compared_at_and_the_tie_are_marked_with_text() -> None:
    marks = Mark(2.0, "▼ 2.0 m/s", "words"), Mark(3.5, "tie 3.5", "words", 0.745)
    text = drawn(against(series(), marks=marks)).text()
    assert "▼ 2.0 m/s" in text
    assert "✖" in text
    assert "tie 3.5" in text


def test_a_tie_beyond_the_picture_is_only_said() -> None:
    chart = against(series(), marks=(Mark(40.0, "tie 40", "cross at 40", 0.2),))
    assert "✖" not in drawn(chart).text()
    assert "cross at 40" in " ".join(chart.words())


# --- spacing map --------------------------------------------------------------


def spacing(n: int = 12, at: tuple[int, int] = (3, 2), **own: object) -> SpacingMap:
    chart = SpacingMap()
    values = tuple(tuple(0.95 - 0.5 * (i + j) / (2 * n) for i in range(n))
                   for j in range(n))  # fmt: skip
    sides = tuple(str(8 + i) for i in range(n))
    chart.field = Field(values, sides, sides, "along", "between")
    chart.chosen = Chosen(at, "77", words=("in words",), **own)  # type: ignore[arg-type]
    return chart


def test_the_chosen_place_carries_its_number_where_it_lies() -> None:
    canvas = drawn(spacing(at=(3, 2)), 28, 20)
    x, y = place(canvas, "77")
    # labels of two digits and an axis take 4 columns; places are 2 wide, up is more
    assert (x, y) == (4 + 3 * 2, 1 + 11 - 2)


@pytest.mark.parametrize("i", range(12))
def test_no_other_number_touches_that_of_the_chosen_place(i: int) -> None:
    for j in range(12):
        canvas = drawn(spacing(at=(i, j)), 28, 20)
        x, y = place(canvas, "77")
        line = canvas.line(y)
        assert not line[x - 1].isdigit()
        assert not line[x + 2 : x + 3].isdigit()


def test_more_between_rows_stands_higher() -> None:
    rows = [place(drawn(spacing(at=(3, j)), 28, 20), "77")[1] for j in (1, 9)]
    assert rows[1] < rows[0]


def test_the_spacing_as_built_keeps_its_mark() -> None:
    canvas = drawn(spacing(own=(8, 8)), 28, 20)
    assert "[]" in canvas.text()


def test_the_contour_runs_between_above_and_below_the_target() -> None:
    chart = spacing()
    chart.target = 0.8
    assert "◦" in "\n".join(drawn(chart, 28, 20).text().split("\n")[1:13])
    chart.target = 0.3
    assert "◦" not in "\n".join(drawn(chart, 28, 20).text().split("\n")[1:13])


@given(st.integers(2, 50), st.integers(30, 120), st.integers(9, 50))
def test_both_ends_of_every_map_are_drawn(n: int, width: int, height: int) -> None:
    canvas = drawn(spacing(n, at=(n - 1, n - 1)), width, height)
    assert "77" in canvas.line(1)
    assert canvas.line(1 + min(n, height - 4) - 1).split()[0] == "8"


# --- all of them --------------------------------------------------------------

ALL = [boxes(), wind(shaded(360, 30)), against(series()), spacing()]


@pytest.mark.parametrize("chart", ALL, ids=lambda one: type(one).__name__)
def test_every_picture_has_its_words(chart: Chart) -> None:
    assert any("words" in one or "log said" in one for one in chart.words())


@pytest.mark.parametrize("chart", ALL, ids=lambda one: type(one).__name__)
def test_a_small_cell_gets_the_words(chart: Chart) -> None:
    assert "w" in chart.painted(29, 9, INK).text().lower()
    assert "│" not in chart.painted(29, 9, INK).text()


@pytest.mark.parametrize("chart", ALL, ids=lambda one: type(one).__name__)
def test_every_picture_can_be_asked_for_its_words(chart: Chart) -> None:
    chart.is_in_words = True
    text = " ".join(chart.painted(80, 20, INK).text().split())
    chart.is_in_words = False
    assert " ".join(chart.words()[0].split()) in text


@pytest.mark.parametrize("chart", ALL, ids=lambda one: type(one).__name__)
@pytest.mark.parametrize("size", [(30, 9), (48, 18), (140, 44)])
def test_every_picture_can_be_drawn_in_ascii(
    chart: Chart, size: tuple[int, int]
) -> None:
    text = drawn(chart, *size, is_ascii=True).text()
    assert text.isascii()
    assert "?" not in text


@pytest.mark.parametrize("kind", [BoxPlot, WindDay, DuWind, SpacingMap])
def test_a_picture_of_nothing_says_so(kind: type[Chart]) -> None:
    assert drawn(kind()).text().strip()
