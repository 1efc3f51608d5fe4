"""What is said of a coefficient that does not fit its area or its days."""

from typing import Any

import pytest

from scheduler.errors import Finding
from scheduler.need.climate import Climate
from scheduler.need.kc_findings import kc_findings
from scheduler.need.plant_kc import plant_kc
from scheduler.site import Plant, StageCurve, Zone
from tests.scheduler.need.made import day, days


def _curve(**changes: Any) -> StageCurve:
    # FAO-56 Example 28 (p. 133), started on 1 May
    given = {
        "start": day("2026-05-01"),
        "initial_days": 25,
        "development_days": 25,
        "mid_days": 30,
        "late_days": 20,
        "kc_initial": 0.15,
        "kc_mid": 1.19,
        "kc_end": 0.35,
    } | changes
    return StageCurve.model_validate(given)


def _found(first: str = "2026-06-01", n: int = 7, **given: Any) -> tuple[Finding, ...]:
    zone_keys = {key: given.pop(key) for key in ("watered", "days") if key in given}
    plant = Plant.model_validate({"name": "shrubs", "kc_from": "measured"} | given)
    zone = Zone(
        id="Z4",
        name="block 4",
        area_m2=100.0,
        grown_in="soil",
        plant=plant,
        **zone_keys,
    )
    kc, _ = plant_kc(plant, Climate(()), "zone Z4")
    return kc_findings(zone, kc, days(first, n))


def test_a_plain_coefficient_has_no_finding() -> None:
    assert _found(kc=0.9, kc_area="bed") == ()


def test_a_pot_coefficient_on_the_bed_is_found_out() -> None:
    (found,) = _found(kc=3.1, kc_area="bed")
    assert found.level == "warning"
    assert "3.1 on the bed" in found.what
    assert "pot top" in found.fix


def test_a_bed_coefficient_on_the_pot_top_is_found_out() -> None:
    (found,) = _found(kc=0.2, kc_area="pot top")
    assert "0.2 on the pot top" in found.what


def test_a_high_coefficient_on_the_pot_top_is_usual() -> None:
    # Regan 1996, HortScience 31(6): below 1 to above 5 on the container top
    assert _found(kc=4.5, kc_area="pot top") == ()


def test_a_coefficient_of_unknown_origin_is_a_note() -> None:
    (found,) = _found(kc=0.9, kc_area="bed", kc_from="")
    assert found.level == "note"


def test_a_table_needs_no_word_on_its_origin() -> None:
    assert _found(crop="turf cool season", kc_from="") == ()


@pytest.mark.parametrize(
    ("first", "says"),
    [("2026-08-08", "after it 0.35"), ("2026-04-26", "before it 0.15")],
)
def test_days_outside_one_planting_are_said(first: str, says: str) -> None:
    (found,) = _found(first, stages=_curve(every_year=False), kc_area="bed")
    assert says in found.what
    assert "2026-05-01 to 2026-08-08" in found.what


def test_the_rest_between_two_seasons_is_said() -> None:
    (found,) = _found("2027-01-01", stages=_curve(), kc_area="bed")
    assert "2026-05-01 to 2026-08-08 each year" in found.what


def test_the_second_year_of_a_bed_is_inside_its_curve() -> None:
    assert _found("2027-06-01", stages=_curve(), kc_area="bed") == ()


def test_a_whole_year_holds_its_rest_without_a_word() -> None:
    assert _found("2026-01-01", 365, stages=_curve(), kc_area="bed") == ()


def test_the_last_day_of_the_curve_is_inside() -> None:
    once = _curve(every_year=False)
    assert _found("2026-08-02", stages=once, kc_area="bed") == ()


# FAO-56 p. 124: 1.1 to 1.3 where crops with Kc mid below 1 are wetted every 3 days
def test_a_low_table_value_on_ground_wetted_daily_is_said() -> None:
    (found,) = _found(crop="turf warm season", watered="every allowed day")
    assert "1.1 to 1.3" in found.what
    assert "dual" in found.fix


def test_a_low_table_value_watered_twice_a_week_is_usual() -> None:
    twice: dict[str, Any] = {"watered": "every allowed day", "days": ("mon", "thu")}
    assert _found(crop="turf warm season", **twice) == ()


def test_a_zone_without_plant_has_nothing_to_say() -> None:
    off = Zone(id="Z9", name="empty", area_m2=10.0, grown_in="soil", watered="off")
    kc, _ = plant_kc(Plant(name="a", kc=3.0, kc_area="bed"), Climate(()), "zone Z9")
    assert kc_findings(off, kc, days("2026-06-01")) == ()


def test_more_than_any_pot_uses_blocks() -> None:
    weighed = Plant(name="holly", kc=8.0, kc_area="pot top", kc_from="weighing: 5 L")
    slip = weighed.model_copy(update={"kc": 197.0})
    zone = Zone(id="Z4", name="yard", area_m2=9.0, grown_in="pots", plant=slip)
    kc, _ = plant_kc(slip, Climate(()), "zone Z4")
    (found,) = kc_findings(zone, kc, days("2026-06-01", 7))
    assert found.level == "stop"
    assert "197 on the pot top" in found.what
    assert "weighing: 5 L" in found.what


def test_pots_are_not_told_to_count_their_ground_by_itself() -> None:
    # dual = true is for beds in soil, and zones.toml refuses it for pots
    plant = Plant(name="olive", crop="olive", planted=day("2026-03-01"), kc_area="bed")
    zone = Zone(
        id="Z4", name="yard", area_m2=9.0, grown_in="pots", plant=plant,
        watered="every allowed day",
    )  # fmt: skip
    kc, _ = plant_kc(plant, Climate(()), "zone Z4")
    (found,) = kc_findings(zone, kc, days("2026-06-01", 7))
    assert "dual" not in found.fix


def test_a_week_that_ends_in_the_next_season_tells_what_the_days_between_use() -> None:
    # the rest of the year runs from 0.35 on day 100 to 0.55 on day 366: the last day
    # of it, day 365, uses 0.55 - 0.2 / 266
    (found,) = _found("2026-04-28", stages=_curve(kc_initial=0.55), kc_area="bed")
    assert "after it 0.549 is used" in found.what
