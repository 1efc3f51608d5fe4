"""A form filled in; lines of the log, or what is wrong with it."""

import dataclasses
import datetime as dt
import shutil
from pathlib import Path

import pytest

from scheduler.errors import SaveError
from scheduler.files.site_folder import read_site_folder
from scheduler.log import MeterReading, Override
from tui import log_entry
from tui.log_entry import LogForm, What, log_form
from tui.session import Session

TODAY = dt.date(2026, 6, 8)
LAST = MeterReading(
    where="log.csv:9", typed="", date=TODAY, meter="pump house", reading=110250.0,
    unit="gal",
)  # fmt: skip
NOW = "2026-06-08T14:03:22Z"


def form(what: What, last: MeterReading | None = LAST) -> LogForm:
    return LogForm(what, "Z5", TODAY, ("pump house",), last)


def texts(what: What, **typed: str) -> dict[str, str]:
    made = form(what)
    empty = dict.fromkeys((one.cell for one in made.fields), "")
    return empty | made.filled | typed


def written(what: What, **typed: str) -> list[str]:
    lines, wrong = form(what).lines(texts(what, **typed))
    assert wrong is None
    return [one.text(NOW) for one in lines]


def refused(what: What, **typed: str) -> tuple[str, str]:
    _, wrong = form(what).lines(texts(what, **typed))
    assert wrong is not None
    return wrong.cell, wrong.text


def test_a_leaching_check_is_a_line_a_pot() -> None:
    assert written("leaching", pots="A1 420 160, A2 400 90", ran="24") == [
        f"2026-06-08,,leaching,Z5,A1,in 420 mL; out 160 mL; ran 24 min,,{NOW}",
        f"2026-06-08,,leaching,Z5,A2,in 400 mL; out 90 mL; ran 24 min,,{NOW}",
    ]


def test_how_long_it_ran_may_be_left_out() -> None:
    (line,) = written("leaching", pots="A1 420 160")
    assert "ran" not in line


def test_an_override_takes_minutes_and_a_reason() -> None:
    line = f"2026-06-08,,override,Z5,,set 26 min,leaves rolled,{NOW}"
    assert written("override", set="26", note="leaves rolled") == [line]


def test_a_unit_that_was_typed_stays() -> None:
    (line,) = written("override", set="0.5 h", note="dry")
    assert "set 0.5 h" in line


def test_a_skip_is_of_the_evening_before() -> None:
    line = f"2026-06-07,,skipped,Z5,,,rain,{NOW}"
    assert written("skipped", note="rain") == [line]


def test_a_reading_takes_the_unit_of_the_last_one() -> None:
    line = f"2026-06-08,,meter,,pump house,reading 126310 gal,,{NOW}"
    assert written("meter", reading="126310") == [line]


def test_a_reading_of_another_meter_needs_its_unit() -> None:
    cell, text = refused("meter", item="north well", reading="120")
    assert cell == "reading"
    assert "unit" in text


@pytest.mark.parametrize(
    ("what", "cell", "example"),
    [("meter", "reading", "48213 gal"), ("override", "set", "minutes, such as 26")],
)
def test_a_field_that_is_empty_is_named_with_an_example(
    what: What, cell: str, example: str
) -> None:
    where, text = refused(what, note="because")
    assert where == cell
    assert text.startswith("it is empty; type it")
    assert example in text


def test_the_first_reading_asks_for_the_meter() -> None:
    first = form("meter", last=None)
    assert [one.cell for one in first.fields if one.is_asked] == ["item", "reading"]


def test_a_meter_that_is_new_is_said() -> None:
    said = form("meter").warning(texts("meter", item="pump hose", reading="1 gal"))
    assert "first reading of 'pump hose'; so far: pump house" in said


def test_a_reading_below_the_last_is_a_slip_or_a_roll_over() -> None:
    bare = form("meter")
    assert bare.last is not None
    six = dataclasses.replace(bare, last=dataclasses.replace(bare.last, digits=6))
    said = six.warning(texts("meter", reading="12"))
    assert said == "below 110250 of 2026-06-08: a slip, unless the dial rolled over"


def test_a_fallen_dial_without_digits_asks_for_them() -> None:
    said = form("meter").warning(texts("meter", reading="12"))
    assert "enter the digits" in said
    assert "rolled over" not in said


def test_a_reading_above_the_last_is_quiet() -> None:
    assert form("meter").warning(texts("meter", reading="126310")) == ""


def test_pots_without_numbers_are_refused_at_their_field() -> None:
    cell, text = refused("leaching", pots="A1")
    assert cell == "pots"
    assert "place, in, out" in text


def test_more_out_than_in_is_refused_at_the_pots() -> None:
    cell, _ = refused("leaching", pots="A1 160 420")
    assert cell == "pots"


def test_a_reason_that_lacks_is_refused_at_its_field() -> None:
    assert refused("skipped")[0] == "note"


def test_minutes_that_are_no_number_are_refused() -> None:
    cell, text = refused("override", set="abc", note="dry")
    assert cell == "set"
    assert "'abc' is not a number" in text


def test_tomorrow_is_refused() -> None:
    cell, text = refused("override", set="26", note="dry", date="2026-06-09")
    assert cell == "date"
    assert "after today" in text


@pytest.mark.parametrize(("field", "typed"), [("date", "June 3"), ("time", "6.40 am")])
def test_a_day_or_time_that_cannot_be_read_is_refused(field: str, typed: str) -> None:
    assert refused("leaching", pots="A1 420 160", **{field: typed})[0] == field


# --- a real folder ---------------------------------------------------------------


@pytest.fixture
def folder(tmp_path: Path, demo: Path) -> Path:
    return shutil.copytree(demo, tmp_path / "site")


def test_a_form_knows_the_meter_of_its_zone(opened: Session) -> None:
    found = log_form(opened, "meter", "Z5")
    assert found.filled["item"] == "pump house"
    assert found.today == TODAY


def test_what_is_written_is_read_again(folder: Path) -> None:
    lines, _ = form("override").lines(texts("override", set="26", note="dry"))
    log_entry.write(folder, lines)
    read = read_site_folder(folder).history.log.of(Override, "Z5")
    assert (read[-1].minutes, read[-1].reason) == (26.0, "dry")


def test_taking_back_leaves_the_log_as_it_was(folder: Path) -> None:
    before = (folder / "log.csv").read_bytes()
    lines, _ = form("leaching").lines(texts("leaching", pots="A1 420 160, A2 400 90"))
    log_entry.write(folder, lines)
    log_entry.take_back(folder, log_entry.last_own(folder))
    assert (folder / "log.csv").read_bytes() == before


def test_a_line_by_hand_is_not_taken_back(folder: Path) -> None:
    with (folder / "log.csv").open("a", encoding="utf-8") as file:
        file.write("2026-06-08,,dry spot,Z5,row 2,,,\n")
    with pytest.raises(SaveError, match="written by hand"):
        log_entry.last_own(folder)


def test_an_empty_log_has_nothing_to_take_back(folder: Path) -> None:
    (folder / "log.csv").unlink()
    with pytest.raises(SaveError, match="nothing to take back"):
        log_entry.last_own(folder)


def test_what_changed_meanwhile_is_not_taken_back(folder: Path) -> None:
    lines, _ = form("override").lines(texts("override", set="26", note="dry"))
    log_entry.write(folder, lines)
    entry = log_entry.last_own(folder)
    more, _ = form("skipped").lines(texts("skipped", note="rain"))
    log_entry.write(folder, more)
    with pytest.raises(SaveError):
        log_entry.take_back(folder, entry)
