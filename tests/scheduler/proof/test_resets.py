"""Repairs and moves in; from when evidence counts out."""

import datetime as dt

import pytest

from scheduler.log import Log, Repair, Respacing
from scheduler.proof.resets import (
    noted_pots,
    resets_of,
    respacings,
    unconfirmed_spacing,
)
from scheduler.site import PotMove, Pots
from tests.scheduler.proof.yard import DAY, POTS, TODAY, yard

LATER = DAY + dt.timedelta(days=1)


def change(
    day: dt.date = DAY, *, zone: str = "Z4", package: str = "", real: bool = True
) -> Repair:
    return Repair(where="log.csv:9", typed="", date=day, zone=zone, package=package,
                  what="new nozzles", is_change=real)  # fmt: skip


def apart(
    spacing_m: float | None = 0.45, day: dt.date = DAY, rows: float | None = None
) -> Respacing:
    return Respacing(where="log.csv:8", typed="", date=day, zone="Z4",
                     spacing_m=spacing_m, row_spacing_m=rows)  # fmt: skip


def test_new_hardware_of_the_zone_resets_its_checks() -> None:
    found = resets_of(yard(), Log((change(),)), TODAY)
    assert (found.hardware and found.hardware.date, found.standing) == (DAY, None)


def test_new_hardware_of_its_package_does_as_well() -> None:
    log = Log((change(zone="", package="yard-30"),))
    assert resets_of(yard(), log, TODAY).hardware is not None


def test_hardware_of_another_package_does_not() -> None:
    log = Log((change(zone="", package="liner-25"), change(zone="Z5")))
    assert resets_of(yard(), log, TODAY).hardware is None


def test_a_repair_that_changes_nothing_resets_nothing() -> None:
    assert resets_of(yard(), Log((change(real=False),)), TODAY).hardware is None


def test_a_respaced_block_resets_everything() -> None:
    found = resets_of(yard(), Log((apart(),)), TODAY).standing
    assert found is not None
    assert found.where == "log.csv:8"


def test_a_move_in_the_zone_file_does_as_well() -> None:
    moved = POTS.model_copy(update={"moved": (PotMove(on=DAY, spacing_m=0.5),)})
    found = resets_of(yard(pots=moved), Log(), TODAY).standing
    assert found is not None
    assert found.date == DAY


def test_the_newest_change_of_all_voids_older_checks() -> None:
    log = Log((change(), apart(day=LATER)))
    newest = resets_of(yard(), log, TODAY).check_from()
    assert newest is not None
    assert newest.date == LATER


def test_a_change_of_tomorrow_voids_nothing_yet() -> None:
    tomorrow = TODAY + dt.timedelta(days=1)
    found = resets_of(yard(), Log((change(tomorrow), apart(day=tomorrow))), TODAY)
    assert found.check_from() is None


@pytest.mark.parametrize("lines", [(0, 1, 2), (2, 1, 0)])
def test_the_order_of_lines_of_one_day_does_not_matter(lines: tuple[int, ...]) -> None:
    every = [change(), apart(), change(real=False)]
    found = resets_of(yard(), Log(tuple(every[i] for i in lines)), TODAY)
    assert found == resets_of(yard(), Log(tuple(every)), TODAY)


def test_a_noted_spacing_other_than_the_file_is_not_confirmed() -> None:
    assert unconfirmed_spacing(yard(), Log((apart(),)), TODAY) is not None


def test_a_noted_spacing_like_the_file_is_confirmed() -> None:
    assert unconfirmed_spacing(yard(), Log((apart(0.405),)), TODAY) is None


def test_rows_are_compared_where_they_were_noted() -> None:
    assert unconfirmed_spacing(yard(), Log((apart(0.4, rows=0.6),)), TODAY) is not None


def test_a_move_without_a_measure_asks_for_no_spacing() -> None:
    assert unconfirmed_spacing(yard(), Log((apart(None),)), TODAY) is None


def test_a_move_entered_since_answers_it() -> None:
    moved = POTS.model_copy(update={"moved": (PotMove(on=DAY, spacing_m=0.45),)})
    assert unconfirmed_spacing(yard(pots=moved), Log((apart(),)), TODAY) is None


def test_pots_without_a_spacing_are_asked_for_one() -> None:
    bare = Pots(top_diameter_mm=254.0)
    assert unconfirmed_spacing(yard(pots=bare), Log((apart(),)), TODAY) is not None


def test_pots_stand_as_noted() -> None:
    assert noted_pots(POTS, apart(0.45, rows=0.6)).row_spacing_m == 0.6


def test_respacings_of_other_zones_are_left_out() -> None:
    other = Respacing(where="log.csv:8", typed="", date=DAY, zone="Z5")
    assert respacings(yard(), Log((other, apart())), TODAY) == (apart(),)


def test_a_zone_in_soil_has_no_moves() -> None:
    assert resets_of(yard(pots=None), Log((change(),)), TODAY).standing is None
