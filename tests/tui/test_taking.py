"""Tables as text and names of files: aligned, tabbed, never written over."""

from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tui.taking import (
    Table,
    aligned,
    claimed,
    file_name,
    of_lines,
    slug,
    tabbed,
    whole_text,
)

WEEK = Table(
    ("zone", "min"), (("Z1", "26"), ("Z10", "9")), (False, True)
)  # two rows of a week


def test_columns_stand_under_each_other_numbers_at_the_right() -> None:
    assert aligned(WEEK) == "zone  min\nZ1     26\nZ10     9"


def test_cells_are_parted_by_tabs() -> None:
    assert tabbed(WEEK) == "zone\tmin\nZ1\t26\nZ10\t9"


def test_a_line_break_within_a_cell_does_not_break_the_row() -> None:
    table = Table(("what",), (("one\ntwo\tthree",),), (False,))
    assert tabbed(table) == "what\none two three"


def test_columns_two_spaces_apart_are_read_as_a_table_up_to_its_end() -> None:
    lines = ["quarter  on in", "driest   37.4", "wettest  65.1", "", "and more"]
    table = of_lines(lines)
    assert table is not None
    assert table.heads == ("quarter", "on in")
    assert table.rows == (("driest", "37.4"), ("wettest", "65.1"))


def test_a_sentence_is_no_table() -> None:
    assert of_lines(["One tested run stands for every night."]) is None


def test_a_file_is_named_by_site_zone_page_and_day() -> None:
    parts = ("Tern Hollow", "zone 3", "need", "", "2026-06-08")
    assert file_name(parts, "txt") == "tern-hollow_zone-3_need_2026-06-08.txt"


@given(st.text())
def test_a_part_of_a_name_can_stand_in_any_folder(text: str) -> None:
    assert set(slug(text)) <= set("abcdefghijklmnopqrstuvwxyz0123456789-")


def test_a_taken_name_gets_a_number(tmp_path: Path) -> None:
    (tmp_path / "week.txt").write_text("of before", encoding="utf-8")
    assert claimed(tmp_path, "week.txt").name == "week-2.txt"
    assert claimed(tmp_path, "week.txt").name == "week-3.txt"
    assert (tmp_path / "week.txt").read_text(encoding="utf-8") == "of before"


def test_a_folder_that_cannot_be_made_is_an_error(tmp_path: Path) -> None:
    (tmp_path / "file").write_text("", encoding="utf-8")
    with pytest.raises(OSError, match="file"):
        claimed(tmp_path / "file" / "folder", "week.txt")


def test_empty_parts_leave_no_gap() -> None:
    assert whole_text(["head ", "", "  \n", "foot"]) == "head\n\nfoot\n"
