"""Short texts about a zone's week, on a made-up week."""

from types import SimpleNamespace
from typing import Any

import pytest
from rich.cells import cell_len

from scheduler.errors import Finding
from scheduler.trace import Trace
from tests.tui import made
from tui.screens import wording

STOP = Finding("stop", "here", "wrong", "mend it")
WARNING = Finding("warning", "here", "odd", "look")
NOTE = Finding("note", "here", "guess", "replace it")


def test_findings_are_counted_in_words() -> None:
    text = wording.counted([NOTE, WARNING, STOP, WARNING])
    assert text == "✖ 1 stop  ▲ 2 warnings  · 1 note"


def test_no_finding_is_said_too() -> None:
    assert wording.counted([]) == "nothing to report"


@pytest.mark.parametrize(
    ("found", "text"),
    [
        ([WARNING], "▲ 1 warn"),
        ([WARNING] * 2, "▲ 2 warns"),
        ([NOTE] * 12, "· 12 notes"),
    ],
)
def test_several_of_one_level_are_named_as_several(
    found: list[Finding], text: str
) -> None:
    assert wording.flags(found, roomy=False) == text


@pytest.mark.parametrize(
    ("roomy", "text"), [(False, "✖ 1 stop"), (True, "✖ 1 stop  ▲ 2")]
)
def test_a_flag_has_glyph_count_and_word(roomy: bool, text: str) -> None:
    assert wording.flags([WARNING, STOP, WARNING, NOTE], roomy=roomy) == text


def test_the_sentence_says_minutes_change_nights_and_cycles() -> None:
    text = wording.setting_text(made.zone_plan(), "us")
    assert text == (
        "28 min a watering, was 24 (+4): Mon Tue Wed Thu Fri Sat;"
        " 2 cycles of 14 min with 30 min soak."
    )


def test_a_blocked_zone_says_what_stops_it() -> None:
    text = wording.setting_text(made.zone_plan(**made.NO_EVIDENCE), "us")
    assert text.startswith("Blocked: the cans caught 196 %")


@pytest.mark.parametrize(
    ("changes", "text"),
    [
        ({"status": "off"}, "Off: this zone is not watered."),
        ({"minutes_per_day": 0, "days": ()}, "No watering is due this week."),
        ({"status": "blocked"}, "Blocked: no minutes can be given."),
    ],
)
def test_a_zone_without_minutes_says_why(changes: dict[str, Any], text: str) -> None:
    assert wording.setting_text(made.zone_plan(**changes), "us") == text


@pytest.mark.parametrize(
    ("was", "text"), [(24.0, "+4"), (28.0, "same"), (86.0, "−58"), (None, "–")]
)
def test_a_change_has_its_sign(was: float | None, text: str) -> None:
    assert wording.change_text(made.zone_plan(was_minutes=was), "us") == text


def test_the_week_is_seven_signs() -> None:
    plan = made.zone_plan(days=(made.DATES[0], made.DATES[3]))
    assert wording.night_letters(plan) == "M··T···"


def test_one_run_shows_its_range() -> None:
    session = made.session()
    assert wording.du_range_text(session, session.plan.zones[1]) == "0.67–0.79"  # type: ignore[union-attr]


def test_two_runs_show_no_range_of_one_run() -> None:
    session = made.session()
    plan = made.zone_plan()
    plan.evidence.n_runs = 2
    assert wording.du_range_text(session, plan) == "2 runs"


def test_the_range_of_one_run_says_what_is_not_known() -> None:
    session = made.session()
    text = wording.range_note(session, session.plan.zones[1])  # type: ignore[union-attr]
    assert text == "range: this cell in this run, 91%; another night is not known"


def test_a_run_beside_others_does_not_say_that_it_is_alone() -> None:
    session = made.session()
    plan = made.zone_plan()
    plan.evidence.n_runs = 2
    text = wording.range_note(session, plan)
    assert text == "range: this cell in this run, 91%"


def test_several_runs_show_the_range_of_other_nights() -> None:
    many = SimpleNamespace(low=0.61, high=0.88, level=0.84)
    nights = SimpleNamespace(n_runs=2, as_many_nights=many)
    two: dict[str, Any] = {
        "runs": (made.run(),) * 2,
        "together": SimpleNamespace(nights=nights),
    }
    session = made.session(evaluations=(made.evaluation(**two),))
    text = wording.range_note(session, made.zone_plan())
    assert text == "2 other nights together: 0.61–0.88, 84%"


def test_no_range_before_it_is_computed() -> None:
    two = made.evaluation(runs=(made.run(),) * 2)
    session = made.session(evaluations=(two,))
    assert wording.range_note(session, made.zone_plan()) == ""


@pytest.mark.parametrize("basis", ["assumed", "stated"])
def test_a_number_nobody_measured_says_so(basis: str) -> None:
    plan = made.zone_plan()
    plan.evidence.basis = basis
    assert wording.du_range_text(made.session(), plan) == basis


def test_figures_leave_out_what_is_not_known() -> None:
    names = [name for name, _ in wording.figures(made.session(), made.zone_plan())]
    bare = made.zone_plan(eto_mm=None, kc=None)
    fewer = [name for name, _ in wording.figures(made.session(), bare)]
    assert set(names) - set(fewer) == {"ETo", "Kc"}


def test_a_name_and_its_value_stay_on_one_line() -> None:
    pairs = [("net rate", "0.48 in/h")] * 5
    lines = wording.packed(pairs, 45)
    assert [len(line) for line in lines] == [2, 2, 1]


def test_the_trace_shows_units_of_the_face() -> None:
    trace = Trace("net_rate_mm_per_h", 12.17, "", "")
    assert wording.trace_value(trace, "us") == "0.48 in/h"
    assert wording.trace_value(trace, "metric") == "12.2 mm/h"


def test_the_trace_keeps_minutes_before_rounding() -> None:
    assert wording.trace_value(Trace("minutes_exact_min", 27.25, "", ""), "us") == (
        "27.2 min"
    )


@pytest.mark.parametrize(
    ("name", "value", "text"),
    [
        ("minutes_per_day", 32, "32 min"),
        ("minutes_per_watering", 25.526, "25.5 min"),
        ("cycles", 4, "4"),
        ("kc", 1.0, "1.000"),  # measured, not counted
    ],
)
def test_what_is_counted_has_no_digits_and_minutes_have_their_unit(
    name: str, value: float, text: str
) -> None:
    assert wording.trace_value(Trace(name, value, "", ""), "us") == text


def test_a_day_of_the_trace_has_unit_and_date() -> None:
    trace = Trace("eto_mm_per_day[2026-06-08]", 3.9, "", "")
    assert wording.trace_name(trace) == "reference ET (ETo), 2026-06-08"
    assert wording.trace_value(trace, "metric") == "3.9 mm/day"


@pytest.mark.parametrize("name", ["Z4", "北5", "greenhouse-2", "北の畑とても"])
def test_a_name_takes_the_cells_of_its_column(name: str) -> None:
    width = wording.name_width(["Z4", name], 9)
    cell = wording.name_cell(name, width)
    assert cell_len(cell) == width
    assert cell.endswith(" ")


def test_a_long_number_makes_its_column_wider_for_all_rows() -> None:
    rows = [("water", "worth"), ("1,065", "252,081,051"), ("3", "7")]
    assert wording.number_lines(rows, (7, 8), 40) == [
        "  water       worth",
        "  1,065 252,081,051",
        "      3           7",
    ]


def test_columns_that_may_go_make_room_one_after_another() -> None:
    rows = [("own", "range", "average"), ("1", "2", "3")]
    assert wording.number_lines(rows, (6, 8, 9), 15, "range average") == [
        "   own  average",
        "     1        3",
    ]


def test_a_uniformity_has_two_digits_outside_its_chain() -> None:
    du = Trace("du_lq", 0.8604, "", "")
    assert wording.trace_value(du, "us", in_chain=False) == "0.86"
    assert wording.trace_value(du, "us") == "0.860"  # what rests on it adds up


@pytest.mark.parametrize(
    ("where", "room", "text"),
    [
        ("tests/2026-05-27-Z9/run1.csv", 21, "…26-05-27-Z9/run1.csv"),
        ("tests/2026-05-27-Z9/run1.csv:2 can F1", 23, "…26-05-27-Z9/run1.csv:2 can F1"),
        ("tests/2026-05-27-Z9/run1.csv", 28, "tests/2026-05-27-Z9/run1.csv"),
        ("zone Z8: flow", 5, "zone Z8: flow"),
    ],
)
def test_a_path_is_cut_at_its_beginning(where: str, room: int, text: str) -> None:
    assert wording.short_path(where, room) == text
