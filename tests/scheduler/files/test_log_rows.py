"""Lines of log.csv, each by itself: what one line lacks costs no other."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from scheduler.files.log_rows import LogRows, log_rows, text_lines

HEAD = "# format = 1\ndate,time,what,zone,item,details,note,entered\n"
ONE = "2026-06-03,,watering,Z4,,ran 24 min,,\n"
TWO = "2026-06-04,,watering,Z4,,ran 26 min,,2026-06-08T14:03:22Z\n"


def read(text: str | bytes) -> LogRows:
    return log_rows(text.encode() if isinstance(text, str) else text)


def details(found: LogRows) -> list[str]:
    return [row.cells["details"] for row in found.rows]


def said(found: LogRows) -> str:
    return "\n".join(f"{one.level} {one}" for one in found.findings)


BOTH = ["ran 24 min", "ran 26 min"]


# --- what is read without a word ---------------------------------------------


def test_a_line_is_its_cells_by_column() -> None:
    row = read(HEAD + TWO).rows[0]
    assert (row.where, row.typed) == ("log.csv:3", TWO.strip())
    assert row.cells["date"] == "2026-06-04"
    assert row.cells["entered"] == "2026-06-08T14:03:22Z"


@pytest.mark.parametrize(
    "text",
    [
        HEAD + ONE + TWO,
        HEAD + ONE + TWO.rstrip("\n"),  # no line end at the end
        HEAD + "\n# a remark, with a comma\n" + ONE + "  \n" + TWO + "\n\n",
        "\ufeff" + (HEAD + ONE + TWO).replace("\n", "\r\n"),
        # as a spreadsheet pads and quotes
        "# format = 1,,,,,,,\ndate,time,what,zone,item,details,note,entered,,\n"
        + ONE.replace(",,\n", ',,,"",\n')
        + '"# remark",,,,,,,\n'
        + TWO,
        # as a spreadsheet of another country writes
        (HEAD + ONE + TWO).replace(",", ";"),
        (HEAD + ONE + TWO).replace(",", "\t"),
        # in another order
        "# format = 1\nwhat,date,entered,details,note,zone,item,time\n"
        "watering,2026-06-03,,ran 24 min,,Z4,,\n"
        "watering,2026-06-03,,ran 26 min,,Z4,,\n",
        # columns are known without a heading
        "# format = 1\n" + ONE + TWO,
        # a heading in the middle holds from there on
        HEAD + ONE + "date;time;what;zone;item;details;note;entered\n"
        "2026-06-04;;watering;Z4;;ran 26 min;;\n",
    ],
)
def test_both_lines_are_read_without_a_finding(text: str) -> None:
    found = read(text)
    assert (details(found), found.findings) == (BOTH, ())


def test_text_with_commas_and_quotes_stands_between_quotes() -> None:
    text = HEAD + '2026-06-03,,dry spot,Z4,"N, by the gate",,"a ""bad"" one",\n'
    cells = read(text).rows[0].cells
    assert (cells["item"], cells["note"]) == ("N, by the gate", 'a "bad" one')


# --- what costs one line and no other ----------------------------------------


@pytest.mark.parametrize(
    ("line", "message"),
    [
        ('2026-06-03,,dry spot,Z4,"N corner,,,\n', "a quote is left open"),
        ("2026-06-03,06:40,leaching,Z4,A1,in 42\n", "cut short: it has 6 of 8 cells"),
        ("2026-0\n", "cut short: it has 1 of 8 cells ('2026-0')"),
        ("2026-06-03,,dry spot,Z4,N, by the gate,,,,x\n", 'between "quotes"'),
        ("\0\0\0\0\0\n", "cut short: it has 1 of 8 cells ('?????')"),
    ],
)
def test_a_line_that_cannot_be_read_is_said_and_the_others_are_read(
    line: str, message: str
) -> None:
    found = read(HEAD + ONE + line + TWO)
    assert details(found) == BOTH
    assert message in said(found)
    assert [one.where for one in found.findings] == ["log.csv:4"]


@pytest.mark.parametrize("cut", range(1, len(TWO) - 1))
def test_a_last_line_cut_anywhere_is_said_or_whole(cut: int) -> None:
    found = read(HEAD + ONE + TWO[:cut])
    is_whole = TWO[:cut].count(",") == 7
    assert details(found)[:1] == ["ran 24 min"]
    assert details(found)[1:] in ([], ["ran 26 min"])
    assert bool(found.findings) != is_whole


def test_a_line_without_its_last_cell_is_used_and_said() -> None:
    found = read(HEAD + ONE.replace(",,\n", ",\n") + TWO)
    assert details(found) == BOTH
    assert "warning log.csv:3: ends before its last cell" in said(found)


def test_one_line_of_another_encoding_is_read_and_said() -> None:
    text = (HEAD + ONE).encode() + "2026-06-04,,moved,Z4,,,Café,\n".encode("cp1252")
    found = read(text + "2026-06-04,,moved,Z4,,,Tür,\n".encode())
    assert [row.cells["note"] for row in found.rows] == ["", "Café", "Tür"]
    assert "note log.csv:4: is not UTF-8" in said(found)


def test_a_column_that_is_not_known_is_said() -> None:
    text = HEAD.replace("entered", "entered,weather") + ONE
    assert "column weather is not read" in said(read(text))


@pytest.mark.parametrize("head", ["date,time,wh\n", "date\n"])
def test_a_heading_cut_short_is_said_and_the_lines_are_read(head: str) -> None:
    found = read("# format = 1\n" + head + ONE + TWO)
    assert details(found) == BOTH
    assert "has no column" in said(found)
    assert not found.is_standard


# --- the format --------------------------------------------------------------


def test_a_log_without_its_format_is_read_and_said() -> None:
    found = read(HEAD.split("\n", 1)[1] + ONE + TWO)
    assert details(found) == BOTH
    assert "warning log.csv: does not say its format" in said(found)


def test_a_log_of_another_format_is_not_read() -> None:
    found = read((HEAD + ONE).replace("format = 1", "format = 2"))
    assert (found.rows, found.is_refused) == ((), True)
    assert "stop log.csv:1: format: is 2" in said(found)


# --- laws --------------------------------------------------------------------


@given(st.binary(max_size=80))
def test_no_bytes_raise_or_hide_the_line_behind_them(data: bytes) -> None:
    is_other = b"format" in data or b"date" in data.lower()
    found = read(HEAD.encode() + data + b"\n" + TWO.encode())
    assert is_other or details(found)[-1] == "ran 26 min"


@given(st.binary(max_size=80))
def test_every_byte_is_some_text(data: bytes) -> None:
    assert len(text_lines(data)) >= 1
