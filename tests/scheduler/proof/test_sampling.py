"""Positions of checked pots in; what must be said of them out."""

import pytest

from scheduler.log import LeachingCheck, LeachingPot, Log
from scheduler.proof.sampling import place_findings
from tests.scheduler.proof.yard import DAY, pots_of_check

GRID = (3, 8)


def check_at(*places: str) -> LeachingCheck:
    pots = tuple(
        LeachingPot(where="log.csv:5", typed="", date=DAY, zone="Z4", place=place,
                    stated_fraction=0.2)
        for place in places
    )  # fmt: skip
    return Log(pots).leaching_checks()[0]


def said(*places: str, grid: tuple[int, int] | None = GRID) -> list[str]:
    return [one.what for one in place_findings(check_at(*places), grid)]


def test_pots_from_all_over_the_block_are_not_remarked_on() -> None:
    assert place_findings(Log(pots_of_check()).leaching_checks()[0], GRID) == ()


def test_pots_of_one_corner_do_not_speak_for_the_zone() -> None:
    assert said("A1", "B1", "C1", "D1") == [
        "all pots stood in the first rows and first columns: they do not speak for the "
        "zone"
    ]


def test_the_last_rows_and_columns_are_a_corner_as_well() -> None:
    assert "in the last rows and last columns" in said("F3", "G3", "H3", "G3")[0]


def test_one_row_over_all_columns_is_no_corner() -> None:
    assert said("A1", "D1", "F1", "H1") == []


def test_without_a_can_map_no_corner_is_named() -> None:
    assert said("A1", "B1", "A1", "B1", grid=None) == []


def test_one_place_in_words_for_all_pots_is_a_corner() -> None:
    words = "N corner"
    assert said(words, words, words, words) == [
        "all pots stood at N corner: they do not speak for the zone"
    ]


def test_running_numbers_say_nothing_of_places() -> None:
    assert said("pot 1", "pot 2", "pot 3", "pot 4") == [
        "where the pots stood was not written down"
    ]


def test_places_in_several_words_are_taken_as_they_are() -> None:
    assert said("N corner", "middle", "S edge", "gate") == []


@pytest.mark.parametrize(
    ("places", "many"), [(["A1"], "1 pot was"), (["A1", "H3"], "2 pots were")]
)
def test_few_pots_are_said(places: list[str], many: str) -> None:
    assert said(*places) == [f"only {many} checked: the range is wide"]


def test_a_block_of_one_row_has_no_corner_by_rows() -> None:
    assert said("A1", "B1", "A1", "B1", grid=(1, 8)) == []
