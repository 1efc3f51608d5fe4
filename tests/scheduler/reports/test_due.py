"""What is due, under the name of its kind."""

from scheduler.proof.due import everything_due
from scheduler.reports.due import due_json, due_text
from tests.scheduler.proof.made import day, dial, history, site
from tests.scheduler.proof.test_due import yard

FOUND = everything_due(site(yard()), history(dial(1, 9.0)), day(29))


def test_each_kind_has_its_own_head() -> None:
    heads = [one for one in due_text(FOUND).splitlines() if one.endswith(" due")]
    assert heads == ["tests due", "leaching checks due", "meter readings due"]


def test_nothing_due_is_no_text() -> None:
    assert due_text(()) == ""


def test_json_names_kind_place_and_last_day() -> None:
    last = due_json(FOUND)[-1]
    assert (last["kind"], last["of"], last["last"]) == (
        "meter reading",
        "pump",
        "2026-06-01",
    )
    assert last["fix"]
