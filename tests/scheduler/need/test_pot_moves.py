"""Pots that are moved apart, and what the plan says of it."""

import datetime as dt

import pytest

from scheduler.need.pot_moves import move_findings, pots_on, zone_on
from scheduler.site import Basis, Plant, PotMove, Pots, Zone

MOVED = dt.date(2026, 6, 2)
POTS = Pots(
    top_diameter_mm=254.0,
    gap_m=0.0,
    capture_factor=2.0,
    moved=(
        PotMove(on=MOVED, gap_m=0.30),
        PotMove(on=dt.date(2026, 7, 1), gap_m=0.6, pattern="offset"),
    ),
)


def yard(kc_area: Basis = "pot top", pots: Pots = POTS) -> Zone:
    plant = Plant(name="holly", kc=1.0, kc_area=kc_area)
    return Zone(
        id="Z4", name="yard", area_m2=9.0, grown_in="pots", plant=plant, pots=pots
    )


@pytest.mark.parametrize(
    ("day", "gap_m"),
    [("2026-06-01", 0.0), ("2026-06-02", 0.30), ("2026-07-15", 0.6)],
)
def test_pots_stand_as_the_newest_move_left_them(day: str, gap_m: float) -> None:
    assert pots_on(POTS, dt.date.fromisoformat(day)).gap_m == gap_m


def test_a_zone_without_moves_is_itself() -> None:
    zone = yard(pots=POTS.model_copy(update={"moved": ()}))
    assert zone_on(zone, MOVED) is zone


def said(zone: Zone, first: str) -> list[str]:
    day = dt.date.fromisoformat(first)
    found = move_findings(
        zone, day, day + dt.timedelta(6), net_rate_mm_per_h=12.0, units="metric"
    )
    return [one.what for one in found]


def test_what_a_pot_now_gets_is_said_after_a_move() -> None:
    # touching: at most 4/pi over the top; 0.2 mm/min x 506.7 cm2 x 1.273 / 10 = 12.9
    # apart: factor 2 again: 20.3 mL a minute; tops pi/4 x (254 / 554)^2 of the bed
    assert "a pot gets 20.3 mL/min, was 12.9" in said(yard(), "2026-06-08")[0]
    assert "pot tops are 17 % of the bed, were 79 %" in said(yard(), "2026-06-08")[0]


def test_a_move_of_two_months_ago_is_not_said() -> None:
    assert said(yard(), "2026-09-08") == []


def test_a_move_within_the_week_is_not_planned_for_and_says_so() -> None:
    assert "not planned for" in said(yard(), "2026-06-28")[-1]


def test_a_coefficient_on_the_bed_must_be_entered_anew_after_a_move() -> None:
    found = move_findings(yard("bed"), MOVED, MOVED, net_rate_mm_per_h=12.0, units="us")
    assert (found[0].level, "on the bed it goes with" in found[0].fix) == (
        "warning",
        True,
    )


def test_two_moves_on_one_day_are_refused() -> None:
    day = dt.date(2026, 6, 11)
    moves = (PotMove(on=day, spacing_m=0.5), PotMove(on=day, spacing_m=0.6))
    with pytest.raises(ValueError, match="moved twice on 2026-06-11"):
        Pots(top_diameter_mm=254.0, moved=moves)
