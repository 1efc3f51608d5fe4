"""Lines written to log.csv, read back, and taken back."""

import datetime as dt
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from scheduler.errors import SaveError
from scheduler.files.log_rows import log_rows
from scheduler.files.log_writing import (
    TypedLine,
    add_to_log,
    checked_lines,
    last_entry,
    take_back,
)
from scheduler.log import DrySpot, Log

DAY = dt.date(2026, 6, 3)
NOW = "2026-06-08T14:03:22Z"
LATER = "2026-06-08T14:05:00Z"
HEADING = "date,time,what,zone,item,details,note,entered"


def night(day: int = 3, minutes: int = 24) -> TypedLine:
    date = dt.date(2026, 6, day)
    return TypedLine(date, "watering", zone="Z4", details=f"ran {minutes} min")


def pot(place: str) -> TypedLine:
    return TypedLine(
        DAY,
        "leaching",
        time=dt.time(6, 40),
        zone="Z4",
        item=place,
        details="in 420 mL; out 160 mL",
    )


def text(folder: Path) -> str:
    return (folder / "log.csv").read_bytes().decode()


def last(folder: Path) -> tuple[str, ...]:
    entry = last_entry(folder)
    assert entry is not None
    return entry.lines


# --- writing -----------------------------------------------------------------


def test_a_log_begins_with_its_format_and_its_columns(tmp_path: Path) -> None:
    add_to_log(tmp_path, [night()], entered=NOW)
    lines = text(tmp_path).splitlines()
    assert lines[0] == "# format = 1"
    assert lines[-2] == HEADING
    assert lines[-1] == f"2026-06-03,,watering,Z4,,ran 24 min,,{NOW}"


def test_the_next_line_goes_to_the_end_and_nothing_else_changes(tmp_path: Path) -> None:
    add_to_log(tmp_path, [night()], entered=NOW)
    before = text(tmp_path)
    add_to_log(tmp_path, [night(4, 26)], entered=LATER)
    line = f"2026-06-04,,watering,Z4,,ran 26 min,,{LATER}\n"
    assert text(tmp_path) == before + line


def test_a_log_in_another_order_gets_its_columns_named_again(tmp_path: Path) -> None:
    other = "# format = 1\nwhat,date,time,zone,item,details,note,entered\n"
    (tmp_path / "log.csv").write_text(other, encoding="utf-8")
    add_to_log(tmp_path, [night()], entered=NOW)
    assert text(tmp_path).splitlines()[2] == HEADING
    assert log_rows(text(tmp_path).encode()).rows[0].cells["zone"] == "Z4"


@pytest.mark.parametrize("torn", ["# for", "# format = 1\ndate,time,wh"])
def test_a_log_whose_beginning_was_cut_short_is_begun_again(
    tmp_path: Path, torn: str
) -> None:
    (tmp_path / "log.csv").write_text(torn, encoding="utf-8")
    add_to_log(tmp_path, [night()], entered=NOW)
    assert text(tmp_path).splitlines()[-2] == HEADING
    assert len(log_rows(text(tmp_path).encode()).rows) == 1


def test_a_log_whose_last_line_was_cut_short_goes_on_below_it(tmp_path: Path) -> None:
    add_to_log(tmp_path, [night()], entered=NOW)
    path = tmp_path / "log.csv"
    path.write_bytes(path.read_bytes()[:-30])
    add_to_log(tmp_path, [night(4, 26)], entered=LATER)
    found = log_rows(path.read_bytes())
    assert [row.cells["details"] for row in found.rows] == ["ran 26 min"]
    assert "cut short" in str(found.findings[0])


def test_a_log_of_another_format_is_not_written_to(tmp_path: Path) -> None:
    (tmp_path / "log.csv").write_text("# format = 2\n", encoding="utf-8")
    with pytest.raises(SaveError, match="is 2; this program"):
        add_to_log(tmp_path, [night()], entered=NOW)
    assert text(tmp_path) == "# format = 2\n"


WORDS = st.text(
    st.characters(exclude_categories=["Cs", "Cc"], exclude_characters="\u2028\u2029"),
    max_size=30,
)


@given(WORDS, WORDS.filter(str.strip))
def test_words_come_back_as_they_were_typed(note: str, place: str) -> None:
    line = TypedLine(DAY, "dry spot", zone="Z4", item=place, note=note)
    row = log_rows(f"# format = 1\n{line.text(NOW)}\n".encode()).rows[0]
    assert row.cells["item"] == " ".join(place.split())
    assert row.cells["note"] == " ".join(note.split())


def test_line_ends_in_words_are_spaces() -> None:
    line = TypedLine(DAY, "dry spot", zone="Z4", item="N\ncorner", note="a\r\nb")
    (fact,), said = checked_lines([line])
    assert isinstance(fact, DrySpot)
    assert (fact.place, fact.note, said) == ("N corner", "a b", ())


def test_lines_are_checked_as_they_will_be_read() -> None:
    wrong = TypedLine(DAY, "watering", zone="Z4", details="ran 24")
    facts, said = checked_lines([night(), wrong])
    assert Log(facts).entries == facts
    assert [one.where for one in said] == ["line 2: ran"]


# --- taking back -------------------------------------------------------------


def test_the_last_entry_is_all_its_lines(tmp_path: Path) -> None:
    add_to_log(tmp_path, [night()], entered=NOW)
    before = text(tmp_path)
    add_to_log(tmp_path, [pot("A1"), pot("A2"), pot("A3")], entered=NOW)
    entry = last_entry(tmp_path)
    assert entry is not None
    assert (len(entry.lines), entry.is_ours) == (3, True)
    take_back(tmp_path, entry)
    assert text(tmp_path) == before


def test_pots_entered_at_another_moment_are_another_entry(tmp_path: Path) -> None:
    add_to_log(tmp_path, [pot("A1")], entered=NOW)
    add_to_log(tmp_path, [pot("A2")], entered=LATER)
    assert len(last(tmp_path)) == 1


@pytest.mark.parametrize(
    "line", ["2026-06-04,,moved,Z4,,,,", "# a remark", "2026-06-04,,mov"]
)
def test_a_last_line_by_hand_is_not_ours(tmp_path: Path, line: str) -> None:
    add_to_log(tmp_path, [night()], entered=NOW)
    with (tmp_path / "log.csv").open("a", encoding="utf-8") as file:
        file.write(line + "\n\n")
    entry = last_entry(tmp_path)
    assert entry is not None
    assert (entry.lines, entry.is_ours) == ((line,), False)


def test_a_log_that_holds_nothing_has_no_last_entry(tmp_path: Path) -> None:
    assert last_entry(tmp_path) is None
    add_to_log(tmp_path, [night()], entered=NOW)
    entry = last_entry(tmp_path)
    assert entry is not None
    take_back(tmp_path, entry)
    assert last_entry(tmp_path) is None


def test_an_entry_behind_which_somebody_wrote_stays(tmp_path: Path) -> None:
    add_to_log(tmp_path, [night()], entered=NOW)
    entry = last_entry(tmp_path)
    assert entry is not None
    add_to_log(tmp_path, [night(4)], entered=LATER)
    before = text(tmp_path)
    with pytest.raises(SaveError, match="changed by somebody else"):
        take_back(tmp_path, entry)
    assert text(tmp_path) == before


def test_a_log_that_cannot_be_read_is_said(tmp_path: Path) -> None:
    (tmp_path / "log.csv").mkdir()
    with pytest.raises(SaveError, match="cannot be read"):
        last_entry(tmp_path)
