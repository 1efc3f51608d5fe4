"""What the pictures are given to draw, on a made-up test and week."""

from types import SimpleNamespace as Made

from tests.tui import made
from tui.screens import pictures

ONE_KNOCKED = (("", "k", *[""] * 6), ("",) * 8, ("",) * 7 + ("-",))
ONE_OUT = (Made(row=0, column=0, reason="leaf"),)


def test_the_driest_quarter_is_marked() -> None:
    grid = pictures.can_grid(made.run(), "us")
    marked = {
        (i, j)
        for i, row in enumerate(grid.cells)
        for j, one in enumerate(row)
        if one.mark == pictures.DRY
    }
    assert marked == set(made.DRIEST)


def test_heads_are_the_letters_and_numbers_of_the_labels() -> None:
    grid = pictures.can_grid(made.run(), "us")
    assert grid.columns == tuple("ABCDEFGH")
    assert grid.rows == ("1", "2", "3")


def test_labels_of_another_kind_give_places() -> None:
    label = tuple(tuple(f"can-{i}-{j}" for j in range(8)) for i in range(3))
    grid = pictures.can_grid(made.run(label=label), "us")
    assert grid.columns == tuple("12345678")
    assert grid.rows == ("1", "2", "3")


def test_a_coded_place_shows_its_code_and_no_value() -> None:
    grid = pictures.can_grid(made.run(code=ONE_KNOCKED), "us")
    assert (grid.cells[0][1].value, grid.cells[0][1].text) == (None, "k")
    assert grid.cells[2][7].text == "–"
    assert "k knocked" in grid.legend[0]


def test_a_can_left_out_is_marked_and_named() -> None:
    grid = pictures.can_grid(made.run(excluded=ONE_OUT), "us")
    assert (grid.cells[0][0].mark, grid.cells[0][0].text) == ("×", "41")
    assert "× left out" in grid.legend[0]


def test_the_result_with_all_cans_stands_before_marks_that_may_be_cut() -> None:
    run = made.run(excluded=ONE_OUT, code=ONE_KNOCKED)
    run.as_kept = Made(du_lq=0.69)
    legend = pictures.can_grid(run, "us").legend[0]
    assert legend.startswith("▾ driest quarter  × left out, DU 0.69 if kept  – ")


def test_millilitres_stay_millilitres_in_both_systems() -> None:
    us, metric = (pictures.can_grid(made.run(), one) for one in ("us", "metric"))
    assert us.cells == metric.cells


def test_the_chosen_rule_is_the_one_of_the_plan() -> None:
    columns = pictures.rule_columns(made.zone_plan(), "us")
    assert [one.name for one in columns if one.is_chosen] == ["low quarter"]


def test_bars_are_the_quarters_of_the_engine() -> None:
    columns = pictures.rule_columns(made.zone_plan(), "us")
    assert columns[1].bars == (0.86, 1.13, 1.31, 1.5)
    assert columns[1].bar_texts == ("86%", "113%", "131%", "150%")


def test_rows_of_the_rules_have_a_name_each() -> None:
    one = pictures.rule_columns(made.zone_plan(), "us")[0]
    assert len(pictures.RULE_ROWS) == len(one.facts) + len(one.bars) + len(one.footing)


def test_only_watered_nights_have_minutes() -> None:
    line = pictures.cycle_line(made.zone_plan())
    assert line is not None
    assert [text for _, _, text in line.days] == ["28 min"] * 6 + [""]


def test_a_zone_without_water_has_no_cycles() -> None:
    assert pictures.cycle_line(made.zone_plan(**made.NO_EVIDENCE)) is None


def test_depletion_is_shown_in_the_units_of_the_face() -> None:
    bars = pictures.day_bars(made.zone_plan(), "us")
    assert bars is not None
    assert bars.texts[0] == "0.15"
    assert bars.line_text == "0.24 in allowed"
    assert bars.line == 6.0


def test_a_zone_without_balance_has_no_days() -> None:
    assert pictures.day_bars(made.zone_plan(served_depletion_mm=()), "us") is None
