"""An edit changes what it says and not one byte more."""

import tomllib
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from scheduler.errors import SaveError
from scheduler.files.demo import demo_source
from scheduler.files.toml_edit import (
    table_block,
    with_copy,
    with_table,
    with_value,
    without_key,
    without_table,
)
from scheduler.files.toml_says import quoted
from scheduler.files.toml_scan import spots

TEXT = """\
# my zones, by hand
format = 1   # keep

[[zone]]
id   =   "Z1"      # the yard
minutes = 24       # was 30
days = [
  "mon",  # not on Sundays
]
[zone.pots]
width_in = 6.5

# the second one
[[zone]]
id = 'Z2'
plant = {name = "box", kc = 0.8}
"""


def lines_changed(before: str, after: str) -> tuple[list[str], list[str]]:
    old, new = before.splitlines(), after.splitlines()
    return [one for one in old if one not in new], [o for o in new if o not in old]


# --- a value -----------------------------------------------------------------


def test_a_value_is_changed_in_its_line_alone() -> None:
    done = with_value(TEXT, ("zone", 0, "minutes"), "8")
    assert lines_changed(TEXT, done) == (
        ["minutes = 24       # was 30"],
        ["minutes = 8        # was 30"],
    )


def test_a_remark_never_touches_a_longer_value() -> None:
    done = with_value(TEXT, ("zone", 0, "minutes"), "24.123456789")
    assert "minutes = 24.123456789  # was 30\n" in done


def test_another_unit_changes_the_key_where_it_stands() -> None:
    done = with_value(TEXT, ("zone", 0, "pots", "width_in"), "165", key="width_mm")
    assert lines_changed(TEXT, done) == (["width_in = 6.5"], ["width_mm = 165"])


def test_a_new_key_stands_behind_the_last_one_of_its_table() -> None:
    done = with_value(TEXT, ("zone", 0, "name"), quoted("yard"))
    assert ']\nname = "yard"\n[zone.pots]' in done


def test_a_new_key_at_the_top_stands_before_the_first_table() -> None:
    done = with_value(TEXT, ("note",), '"n"')
    assert 'format = 1   # keep\nnote = "n"\n\n[[zone]]' in done


def test_a_value_in_braces_is_changed() -> None:
    done = with_value(TEXT, ("zone", 1, "plant", "kc"), "0.9")
    assert 'plant = {name = "box", kc = 0.9}' in done


def test_a_new_key_goes_into_braces() -> None:
    done = with_value(TEXT, ("zone", 1, "plant", "from"), '"guess"')
    assert 'plant = {name = "box", kc = 0.8, from = "guess" }' in done


def test_remarks_inside_a_list_of_several_lines_come_to_stand_above_it() -> None:
    done = with_value(TEXT, ("zone", 0, "days"), '["tue"]')
    assert '# not on Sundays\ndays = ["tue"]\n[zone.pots]' in done


def test_a_dotted_key_stays_dotted() -> None:
    done = with_value("plant.kc = 0.8  # ours\n", ("plant", "kc"), "0.9")
    assert done == "plant.kc = 0.9  # ours\n"


@pytest.mark.parametrize("name", ["site.toml", "options.toml"])
def test_every_value_of_the_demo_changes_and_changes_back(name: str) -> None:
    text = (Path(str(demo_source())) / "tern_hollow" / name).read_text("utf-8")
    places = [path for path, spot in spots(text).items() if spot.key != (0, 0)]
    for place in places:
        typed = spots(text)[place].typed
        there = with_value(text, place, '"changed to something much longer"')
        assert with_value(there, place, typed).split() == text.split()


@settings(max_examples=40)
@given(
    st.sampled_from(
        [("zone", 0, "id"), ("zone", 1, "id"), ("zone", 1, "plant", "name")]
    ),
    st.text(st.characters(codec="utf-8", exclude_categories=("Cc", "Cs"))),
)
def test_any_text_reads_back_as_it_was_typed(
    place: tuple[str | int, ...], text: str
) -> None:
    inside: Any = tomllib.loads(with_value(TEXT, place, quoted(text)))
    for part in place:
        inside = inside[part]
    assert inside == text


# --- keys and tables ---------------------------------------------------------


def test_a_key_goes_with_its_line_and_its_remark() -> None:
    done = without_key(TEXT, ("zone", 0, "minutes"))
    assert lines_changed(TEXT, done) == (["minutes = 24       # was 30"], [])


def test_a_key_goes_out_of_braces_with_one_comma() -> None:
    assert "plant = {kc = 0.8}" in without_key(TEXT, ("zone", 1, "plant", "name"))
    assert 'plant = {name = "box"}' in without_key(TEXT, ("zone", 1, "plant", "kc"))


def test_a_new_table_stands_behind_its_like() -> None:
    done = with_table(TEXT, ["[[zone]]"], ['id = "Z3"'])
    assert done == TEXT + '\n[[zone]]\nid = "Z3"\n'


def test_a_table_inside_another_stands_behind_what_is_in_it() -> None:
    done = with_table(TEXT, ["[zone.soil]"], ["slope = 0.1"], within=("zone", 0))
    assert "width_in = 6.5\n[zone.soil]\nslope = 0.1\n\n# the second one" in done


def test_a_table_goes_with_the_remark_above_it_and_no_more() -> None:
    done = without_table(TEXT, ("zone", 1))
    assert done == TEXT[: TEXT.index("\n# the second one")]


def test_a_table_goes_with_the_tables_inside_it() -> None:
    done = without_table(TEXT, ("zone", 0))
    assert done == TEXT[: TEXT.index("[[zone]]")] + TEXT[TEXT.index("# the second") :]


def test_the_last_of_several_lists_inside_a_table_goes_with_it() -> None:
    item = "[[o]]\nid = 1\n[[o.items]]\nx = 1\n"
    text = f"{item}\n{item}\n{item}"
    assert without_table(text, ("o", 2)) == f"{item}\n{item}"
    assert without_table(text, ("o", 0)) == f"{item}\n{item}"


def test_a_copy_has_everything_but_what_is_said() -> None:
    done = with_copy(TEXT, ("zone", 0), {"id": '"Z3"'})
    copy = table_block(done, ("zone", 2))
    assert copy == table_block(TEXT, ("zone", 0)).replace('"Z1"     ', '"Z3"     ')


def test_adding_and_taking_out_leaves_the_text_as_it_was() -> None:
    done = with_table(TEXT, ["[zone.soil]"], ["slope = 0.1"], within=("zone", 0))
    assert without_table(done, ("zone", 0, "soil")) == TEXT


# --- refused -----------------------------------------------------------------


def test_what_is_not_toml_is_refused() -> None:
    with pytest.raises(SaveError, match="not TOML"):
        with_value(TEXT, ("zone", 0, "minutes"), "24 25")


def test_a_value_that_breaks_out_of_its_line_is_refused() -> None:
    with pytest.raises(SaveError, match="does not let"):
        with_value(TEXT, ("zone", 0, "minutes"), "24\nv2 = 3")


def test_a_table_that_is_not_there_is_refused() -> None:
    with pytest.raises(SaveError, match=r"zone\.3 is not there"):
        with_table(TEXT, ["[zone.soil]"], [], within=("zone", 2))


def test_a_table_written_in_braces_is_no_table_of_its_own() -> None:
    with pytest.raises(SaveError, match="not a table of its own"):
        without_table(TEXT, ("zone", 1, "plant"))


def test_a_file_that_cannot_be_read_is_refused() -> None:
    with pytest.raises(SaveError, match="cannot be read as TOML"):
        with_value("a = .5\n", ("a",), "1")


def test_a_list_in_braces_is_not_said_to_be_typed_wrongly() -> None:
    with pytest.raises(SaveError, match="layout of the file"):
        with_table("a = [{x = 1}]\n", ["[[a]]"], ["x = 2"])
