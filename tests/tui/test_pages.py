"""The list of pages, and the order in which they stand."""

import pytest

from tui import pages
from tui.screens.doors import Doors


def test_every_page_of_the_list_is_a_screen_that_can_be_loaded() -> None:
    for one in pages.ENTRIES:
        assert issubclass(pages.loaded(one.page), Doors)


def test_a_class_is_known_by_its_page() -> None:
    assert [pages.page_of(pages.loaded(one.page)) for one in pages.ENTRIES] == [
        one.page for one in pages.ENTRIES
    ]


def test_a_class_that_is_no_page_has_no_name() -> None:
    assert pages.page_of(Doors) == ""


def test_no_key_opens_two_pages() -> None:
    keys = [key for one in pages.ENTRIES for key in one.key.split(",")]
    assert len(keys) == len(set(keys))


def test_the_pages_stand_in_the_order_water_flows() -> None:
    order = [one.page for one in pages.ENTRIES]
    flow = ["zones", "tests", "field", "packages", "need", "week", "season"]
    flow += ["proof", "cost", "findings"]
    assert [one for one in order if one in flow] == flow


@pytest.mark.parametrize(
    ("page", "by", "there"),
    [("need", 1, "week"), ("need", -1, "spacing"), ("zones", -1, "zones"),
     ("findings", 1, "findings"), ("no such page", 1, "zones")],
)  # fmt: skip
def test_the_path_goes_on_to_its_ends(page: str, by: int, there: str) -> None:
    assert pages.beside(page, by) == there


def test_an_unknown_page_is_refused() -> None:
    with pytest.raises(KeyError, match="moon"):
        pages.entry_of("moon")
