"""The cautions: one list, picked from by subject."""

import pytest

from scheduler.reports.cautions import CAUTIONS, DEFER, cautions


def test_every_usual_danger_has_a_caution() -> None:
    # what reports must warn of in a nursery: common practice, no source
    assert {subject for subject, _ in CAUTIONS} == {
        "Electrics", "Pressure", "Chemigation", "Re-entry", "Recycled water", "Slips",
        "Heat", "Frost",
    }  # fmt: skip


def test_codes_labels_and_licences_come_first() -> None:
    assert all(word in DEFER for word in ("codes", "labels", "licensed"))


def test_without_a_subject_all_are_given() -> None:
    assert cautions() == CAUTIONS


def test_a_subject_that_has_no_caution_is_an_error() -> None:
    with pytest.raises(ValueError, match="no caution about 'Hail'"):
        cautions("Heat", "Hail")


def test_the_dashboards_help_shows_the_same_list() -> None:
    from tui.screens import help as screen

    assert vars(screen)["CAUTIONS"] is CAUTIONS
