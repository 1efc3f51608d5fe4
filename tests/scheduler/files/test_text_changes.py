"""What differs between two texts, and the same made again on a third."""

import pytest

from scheduler.files.text_changes import Change, changes, reapplied
from scheduler.files.toml_edit import (
    with_copy,
    with_table,
    with_value,
    without_key,
    without_table,
)

OLD = """\
[[zone]]
id = "Z1"
area_ft2 = 100  # paced
[zone.pots]
width_in = 6

[[zone]]
id = "Z2"
area_ft2 = 200
note = "sand"

[[zone]]
id = "Z3"
area_ft2 = 300
"""
THEIRS = OLD.replace("[[zone]]", "# theirs\n[[zone]]", 1).replace("200", "222")


@pytest.fixture(scope="module")
def mine() -> str:
    text = with_value(OLD, ("zone", 0, "area_ft2"), "9", key="area_m2")
    text = without_key(text, ("zone", 1, "note"))
    text = with_table(text, ["[zone.soil]"], ["slope = 0.1"], within=("zone", 1))
    text = with_copy(text, ("zone", 0), {"id": '"Z4"'})
    return without_table(text, ("zone", 2))


def test_a_value_in_another_unit_is_one_change() -> None:
    new = with_value(OLD, ("zone", 0, "area_ft2"), "9", key="area_m2")
    assert changes(OLD, new) == (
        Change(("zone", "Z1"), "area_ft2", "100", "area_m2", "9"),
    )


def test_every_change_is_named_by_ids(mine: str) -> None:
    places = [one.place for one in changes(OLD, mine)]
    assert places == [("zone", "Z3"), ("zone", "Z2", "soil"), ("zone", "Z4"),
                      ("zone", "Z1"), ("zone", "Z2")]  # fmt: skip


def test_a_table_that_went_is_one_change_with_its_lines() -> None:
    (gone,) = changes(OLD, without_table(OLD, ("zone", 2)))
    assert gone.is_table
    assert gone.was == '[[zone]]\nid = "Z3"\narea_ft2 = 300\n'


def test_changes_made_again_on_the_old_text_give_the_new_one(mine: str) -> None:
    assert reapplied(OLD, changes(OLD, mine)) == (mine, ())


def test_what_others_changed_stays_where_i_changed_nothing(mine: str) -> None:
    text, lost = reapplied(THEIRS, changes(OLD, mine))
    assert lost == ()
    assert "# theirs" in text
    assert "area_ft2 = 222" in text
    assert "area_m2 = 9     # paced" in text


def test_a_change_of_a_zone_that_is_gone_is_said_to_be_lost() -> None:
    new = with_value(OLD, ("zone", 1, "area_ft2"), "250")
    text, lost = reapplied(without_table(OLD, ("zone", 1)), changes(OLD, new))
    assert "250" not in text
    assert [why for _, why in lost] == ["zone Z2 is not there"]


def test_zones_in_another_order_are_found_by_their_ids() -> None:
    new = with_value(OLD, ("zone", 2, "area_ft2"), "333")
    third = without_table(OLD, ("zone", 0))
    assert "area_ft2 = 333" in reapplied(third, changes(OLD, new))[0]


def test_no_change_is_none() -> None:
    assert changes(OLD, OLD) == ()


def test_another_id_is_one_change_and_the_rest_goes_by_the_old_one() -> None:
    new = with_value(OLD, ("zone", 1, "id"), '"Z22"')
    new = with_value(new, ("zone", 1, "note"), '"loam"')
    found = changes(OLD, new)
    assert [(one.place, one.key, one.now) for one in found] == [
        (("zone", "Z2"), "note", '"loam"'),
        (("zone", "Z2"), "id", '"Z22"'),
    ]
    assert reapplied(OLD, found) == (new, ())
