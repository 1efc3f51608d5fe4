"""Words of the proof page."""

import datetime as dt

from scheduler.log import Respacing
from scheduler.proof.zone_proof import ZoneProof
from tests.scheduler.proof.test_zone_proof import EVEN, due_of, proof
from tests.scheduler.proof.yard import DAY, SIX, pots_of_check
from tests.tui.screens.test_proof_pictures import metered
from tui.screens.proof_words import due_line, learned_line, said

# far below what the driest pot allows
WET = dict.fromkeys(SIX, (400.0, 240.0))


def text(found: ZoneProof) -> str:
    return said(found).plain


def test_what_is_due_is_counted_by_kind() -> None:
    due = (due_of("test", "Z1"), due_of("test", "Z2"), due_of("meter reading", "pump"))
    assert due_line(due) == "due: 2 tests, 1 meter reading"


def test_where_room_is_short_only_the_count_stands() -> None:
    assert due_line((due_of("test", "Z1"),), roomy=False) == "1 due (l)"


def test_nothing_due_says_nothing() -> None:
    assert due_line(()) == ""


def test_what_the_week_uses_is_said() -> None:
    assert "The week uses it" in learned_line(proof(*pots_of_check(EVEN)))


def test_what_waits_says_why() -> None:
    day = DAY - dt.timedelta(days=1)  # the evening of the check
    moved = Respacing(where="log.csv:9", typed="", date=day, zone="Z4", spacing_m=0.6)
    line = learned_line(proof(moved, *pots_of_check(EVEN)))
    assert "It waits: the spacing noted on 2026-06-02" in line


def test_a_single_odd_check_waits_for_a_second() -> None:
    assert "waits for a second look" in learned_line(proof(*pots_of_check(WET)))


def test_without_a_look_nothing_was_learned() -> None:
    assert "Nothing was learned" in learned_line(proof())


def test_a_conflict_names_its_causes_in_order() -> None:
    told = text(proof(*pots_of_check(SIX), minutes=33))
    assert "ET asks for more, the leaching check for less" in told
    assert told.index("1. ") < told.index("2. ")
    assert "Likely causes" not in told


def test_a_meter_that_is_off_names_the_first_cause() -> None:
    assert "1. the program runs twice" in text(metered(100.0, 114.0))


def test_lines_that_teach_nothing_say_why() -> None:
    told = text(proof(*pots_of_check(EVEN, minutes=None)))
    assert "how long the water ran was not noted" in told


def test_what_is_due_says_what_to_do() -> None:
    told = text(proof(due=(due_of("test", "Z4"),)))
    assert "test: is due" in told
    assert "→ do it" in told


def test_a_meter_of_one_zone_says_what_it_takes_to_teach() -> None:
    assert "with buckets in a test" in text(metered(100.0, 107.0))
