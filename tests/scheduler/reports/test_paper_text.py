"""Papers in plain characters: eighty columns, whatever stands in them."""

import pytest

from scheduler.reports.paper import (
    Block,
    Box,
    Boxes,
    CanBand,
    Cans,
    Column,
    Facts,
    Leaf,
    Legend,
    Paper,
    Photos,
    Picture,
    Section,
    Sketch,
    Table,
    Ticks,
    Words,
)
from scheduler.reports.paper_text import NEW_PAGE, paper_text
from scheduler.reports.text import WIDTH

LONG = "Nordöstliches-Gewächshaus-" * 12


def text(*blocks: Block, title: str = "Z4") -> str:
    leaf = Leaf(title, title, "side 1 of 1", (Section(title, blocks, "1"),))
    return paper_text(Paper("Field sheet", title, (leaf,)))


def grid(n_columns: int, *, named: bool = True, name: str = "A") -> Cans:
    ids = tuple(f"{name}{j}" for j in range(n_columns))
    rows = ("1", "2") if named else ()
    band = CanBand(ids if named else (), rows, (ids, ids))
    return Cans((band,), ("say this", "and that"))


@pytest.mark.parametrize(
    "block",
    [
        Boxes((Box(LONG), Box("b", unit="mL", hint=LONG), Box("c", value=LONG))),
        Boxes((Box("d", choices=(LONG, LONG)),)),
        Table((Column(LONG), Column("b", 3)), ((LONG, ""), ("", LONG))),
        Facts(((LONG, LONG),)),
        Words(LONG),
        Legend((("k", LONG),), LONG, LONG),
        Ticks(tuple(str(i) for i in range(40))),
        grid(12),
        grid(1),
        grid(12, named=False, name=LONG),
        Sketch(),
        Table(
            (Column(LONG), Column("n", is_number=True)), ((LONG, "1"),), is_filled=True
        ),
        Picture(LONG, LONG, "<svg/>", (Table((Column(LONG),), ((LONG,),)),)),
        Photos((LONG,)),
    ],
    ids=lambda one: one.kind,
)
def test_no_line_is_wider_than_eighty_columns(block: Block) -> None:
    assert max(map(len, text(block, title=LONG).splitlines())) <= WIDTH


def test_a_box_to_write_in_has_a_line_and_its_unit() -> None:
    assert "Mouth ____" in text(Boxes((Box("Mouth", unit="in"),)))
    assert "____ in" in text(Boxes((Box("Mouth", unit="in"),)))


def test_a_known_value_stands_instead_of_the_line() -> None:
    line = text(Boxes((Box("Valve", value="7"),)))
    assert "Valve: 7" in line
    assert "_" not in line


def test_choices_are_boxes_to_tick() -> None:
    assert "[ ] yes [ ] no" in text(Boxes((Box("Over", choices=("yes", "no")),)))


def test_a_line_of_boxes_fills_the_width() -> None:
    lines = text(Boxes((Box("a"), Box("b")))).splitlines()
    assert any(line.startswith("a ___") and len(line) >= WIDTH - 2 for line in lines)


def test_a_place_without_a_can_says_so() -> None:
    band = CanBand(("A", "B"), ("1",), (("A1", ""),))
    assert "no can" in text(Cans((band,), ("", "")))


def test_names_of_rows_and_columns_frame_the_grid() -> None:
    lines = text(grid(3)).splitlines()
    assert any(line.split() == ["A0", "A1", "A2"] for line in lines)
    assert any(line.startswith("  1 |") for line in lines)


def test_cans_without_row_names_carry_their_own() -> None:
    assert "|A0       |A1" in text(grid(2, named=False))


def read(*rows: tuple[str, ...], head: str = "n") -> list[str]:
    columns = (Column("place", 3), Column(head, 1, is_number=True))
    return text(Table(columns, rows, is_filled=True)).splitlines()


def test_a_table_to_read_is_as_wide_as_its_words_and_has_no_rules() -> None:
    lines = read(("head 1", "47"), ("head 12", "5"))
    assert "head 1   47" in lines
    assert "head 12   5" in lines
    assert not any("|" in line for line in lines)


def test_a_table_too_wide_to_read_wraps_its_long_cells_only() -> None:
    lines = read(("word " * 40, "47"))
    assert sum("word" in line for line in lines) > 2
    assert sum("47" in line for line in lines) == 1


def test_a_picture_is_told_in_words_and_numbers_without_its_drawing() -> None:
    table = Table((Column("a"), Column("b")), (("driest", "72%"),), is_filled=True)
    picture = Picture("What it shows", "It says so.", "<svg/>", (table,), "See the box")
    said = text(picture)
    assert "What it shows\nIt says so.\n" in said
    assert "driest  72%" in said
    assert "svg" not in said
    assert "See the box" not in said


def test_photos_are_empty_frames_with_what_to_show_under_them() -> None:
    lines = text(Photos(("the worst head", "the driest corner"))).splitlines()
    assert sum(line.startswith("+--") for line in lines) == 4
    assert "the driest corner" in lines


def test_leaves_part_at_a_form_feed() -> None:
    leaf = Leaf("Z4", "run 1", "side 1 of 2", ())
    assert paper_text(Paper("a", "b", (leaf, leaf))).count(NEW_PAGE) == 1


def test_nothing_but_the_users_words_needs_more_than_plain_characters() -> None:
    assert text(grid(3), Sketch(), Ticks(("1",)), Boxes((Box("a"),))).isascii()
