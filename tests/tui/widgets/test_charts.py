"""The pictures of a zone, drawn on a canvas without a terminal."""

from collections.abc import Callable

import pytest

from tui.widgets.canvas import Canvas, Chart, Ink
from tui.widgets.charts import (
    CanCell,
    CanGrid,
    CanMap,
    CycleBars,
    CycleLine,
    DayBars,
    DepletionBars,
)
from tui.widgets.rule_bars import RuleBars, RuleColumn

INK = Ink("#ffffff", "#888888", "#0178d4", "#102030", "#ffa62b")
ROWS = ("factor", "minutes", "driest", "2nd", "3rd", "wettest", "over", "dry")
DAYS = ("Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun")


def can_map() -> CanMap:
    readings = ((41, 52, 60, 48), (0, 63, 74, 69), (50, 44, 62, 57))
    cells = tuple(
        tuple(CanCell(float(one), str(one), "▾" if one < 45 else " ") for one in row)
        for row in readings
    )
    coded = (*cells[:2], (*cells[2][:3], CanCell(None, "k")))
    chart = CanMap()
    chart.grid = CanGrid(("A", "B", "C", "D"), ("1", "2", "3"), coded, ("▾ driest",))
    return chart


def rule_bars(quarters: tuple[float, ...] = (0.72, 0.94, 1.1, 1.24)) -> RuleBars:
    chart = RuleBars()
    chart.rows = ROWS
    chart.columns = tuple(
        RuleColumn(
            key=str(i),
            name=name,
            is_chosen=i == 3,
            facts=("×1.00", f"{20 + i} min"),
            bars=quarters,
            bar_texts=tuple(f"{one:.0%}" for one in quarters),
            footing=("9%", "30%"),
        )
        for i, name in enumerate(
            ("average", "low half", "low quarter", "share served"), 1
        )
    )
    return chart


def cycles(number: int = 3, minutes: int = 15, soak: int = 23) -> CycleBars:
    chart = CycleBars()
    days = tuple((day, "8 Jun", "45 min" if day != "Sun" else "") for day in DAYS)
    chart.watering = CycleLine(number, minutes, soak, ("3 cycles of 15 min",), days)
    return chart


def depletion(values: tuple[float, ...] = (1, 2, 3, 0.01, 5, 6, 7)) -> DepletionBars:
    chart = DepletionBars()
    chart.bars = DayBars(
        values=values,
        texts=tuple(f"{one:.2f}" for one in values),
        days=DAYS,
        marks=("water",) * 6 + ("",),
        line=6.0,
        line_text="6.0 mm allowed",
    )
    return chart


CHARTS: dict[str, Callable[[], Chart]] = {
    "cans": can_map,
    "rules": rule_bars,
    "cycles": cycles,
    "depletion": depletion,
}


def drawn(chart: Chart, width: int = 78, height: int = 15) -> Canvas:
    canvas = Canvas(width, height)
    chart.draw(canvas, INK)
    return canvas


# --- cans --------------------------------------------------------------------


def test_every_reading_and_code_is_printed_in_its_row() -> None:
    lines = drawn(can_map()).text().splitlines()
    rows = [line.split() for line in lines if line.strip() and line.split()[0] in "123"]
    assert rows == [
        ["1", "▾41", "52", "60", "48"],
        ["2", "▾0", "63", "74", "69"],
        ["3", "50", "▾44", "62", "k"],
    ]


def test_readings_of_a_column_end_under_each_other() -> None:
    lines = drawn(can_map()).text().splitlines()
    ends = {
        line.index(one) + 2
        for line in lines
        for one in ("52", "63", "44")
        if one in line
    }
    assert len(ends) == 1


@pytest.mark.parametrize(("width", "height"), [(78, 15), (40, 9), (30, 9), (69, 11)])
def test_no_reading_is_lost_at_any_size(width: int, height: int) -> None:
    text = drawn(can_map(), width, height).text()
    for reading in ("41", "52", "60", "48", "63", "74", "69", "50", "44", "62"):
        assert reading in text


def test_a_fuller_can_has_another_shade() -> None:
    canvas = drawn(can_map())
    assert canvas._back[1][4] != canvas._back[1][20]


def test_a_coded_place_is_not_shaded() -> None:
    canvas = drawn(can_map())
    line = next(y for y, text in enumerate(canvas.text().splitlines()) if "k" in text)
    assert canvas._back[line][canvas.line(line).index("k")] == ""


# --- rules -------------------------------------------------------------------


def test_all_four_rules_stand_side_by_side() -> None:
    head = drawn(rule_bars(), 69, 11).line(0)
    for name in ("1 average", "2 low half", "3►low quarter", "4 share served"):
        assert name in head


def test_names_of_rows_stand_beside_their_numbers() -> None:
    lines = drawn(rule_bars()).text().splitlines()
    beside = {line.split()[0]: line for line in lines if line.strip()}
    assert "72%" in beside["driest"]
    assert "124%" in beside["wettest"]
    assert "9%" in beside["over"]
    assert "30%" in beside["dry"]


def test_the_need_is_marked_on_every_bar() -> None:
    text = drawn(rule_bars((0.5, 1.5, 1.5, 2.0))).text()
    assert text.count("│") >= 4 * 3


def test_a_tiny_quarter_still_has_a_bar() -> None:
    lines = drawn(rule_bars((0.001, 1.0, 1.0, 2.0))).text().splitlines()
    assert "▏" in next(line for line in lines if line.startswith("driest"))


# --- cycles ------------------------------------------------------------------


def test_as_many_blocks_as_cycles() -> None:
    lines = drawn(cycles()).text().splitlines()
    blocks = next(line for line in lines if "█" in line)
    assert len(blocks.split()) == 3


@pytest.mark.parametrize("soak", [30, 600, 1400])
def test_a_short_cycle_between_long_soaks_does_not_vanish(soak: int) -> None:
    lines = drawn(cycles(4, 1, soak)).text().splitlines()
    first = min(y for y, line in enumerate(lines) if any(s in line for s in "▏▎▍▌▋▊▉█"))
    assert len(lines[first].split()) == 4


def test_a_night_without_water_shows_a_dash() -> None:
    assert drawn(cycles()).text().count("–") == 1


# --- depletion ---------------------------------------------------------------


def test_a_day_of_hardly_any_depletion_still_has_a_bar() -> None:
    canvas = drawn(depletion())
    assert "▁" in canvas.text()


def test_every_day_has_its_number_and_name() -> None:
    text = drawn(depletion()).text()
    for day in DAYS:
        assert day in text
    assert "0.01" in text


def test_the_allowed_line_is_named() -> None:
    assert "6.0 mm allowed" in drawn(depletion()).text()


def test_a_day_above_the_line_reaches_above_it() -> None:
    canvas = drawn(depletion())
    lines = canvas.text().splitlines()
    line = next(y for y, text in enumerate(lines) if "allowed" in text)
    top = next(y for y, text in enumerate(lines) if "█" in text)
    assert top <= line


# --- all of them -------------------------------------------------------------


@pytest.mark.parametrize("name", CHARTS)
def test_a_small_chart_says_it_in_words(name: str) -> None:
    chart = CHARTS[name]()
    text = chart.painted(29, 8, INK).text().split()
    assert text[:3] == " ".join(chart.words()).split()[:3]


@pytest.mark.parametrize("name", CHARTS)
@pytest.mark.parametrize("size", [(78, 15), (20, 5)])
def test_plain_mode_has_only_ascii(
    name: str, size: tuple[int, int], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("LOWQUARTER_ASCII", "1")
    text = CHARTS[name]().painted(*size, INK).text()
    assert text.strip()
    assert text.isascii()


@pytest.mark.parametrize("chart", [CanMap, RuleBars, CycleBars, DepletionBars])
def test_a_chart_without_data_says_why(chart: type[Chart]) -> None:
    empty = chart()
    assert drawn(empty).line(0).strip() == empty.words()[0]
