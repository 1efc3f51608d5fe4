"""A check that goes against ET in; its likely causes, ranked, out."""

import dataclasses
import datetime as dt
import math

import pytest

from scheduler.log import Log, Respacing
from scheduler.proof.causes import Circumstances, conflict_finding, ranked_causes
from scheduler.proof.leaching_check import checked_pots
from scheduler.proof.observed import SeenCheck, seen_check
from scheduler.site import Plant, PotMove, Pots, Zone
from tests.scheduler.proof.yard import (
    DAY,
    HOLLY,
    POTS,
    TODAY,
    catch,
    nights_of,
    past_days,
    pots_of_check,
    use_of,
    yard,
)

NOTED = Respacing(where="log.csv:8", typed="", date=DAY - dt.timedelta(days=1),
                  zone="Z4", spacing_m=0.45)  # fmt: skip


def seen(ratio: float | None = None, zone: Zone | None = None) -> SeenCheck:
    whole = zone or yard()
    check = checked_pots(Log(pots_of_check()).leaching_checks()[0], None)
    found, _ = seen_check(
        check, use_of(whole), catch(), nights=nights_of(whole, Log()), days=past_days()
    )
    assert found is not None
    if ratio is None:
        return found
    look = dataclasses.replace(found.seen, log_ratio=math.log(ratio))
    return dataclasses.replace(found, seen=look)


def about(
    zone: Zone | None = None,
    *,
    noted: Respacing | None = None,
    tested: dt.date | None = dt.date(2026, 4, 1),
) -> Circumstances:
    return Circumstances(zone or yard(), catch(date=tested), noted, TODAY, "metric")


def first(found: SeenCheck, circumstances: Circumstances) -> str:
    return ranked_causes(found, circumstances)[0].what


def test_a_ratio_at_the_share_under_pot_tops_names_the_wrong_area_first() -> None:
    # 254 mm pots 0.4 m apart: pi/4 x (0.254/0.4)^2 = 0.317
    assert first(seen(0.32), about()).startswith(
        "Kc meant per pot top, used on the bed: tops are 32 % of the bed"
    )


def test_a_ratio_at_one_over_capture_names_the_leaves_first() -> None:
    assert "1/1.25 = 0.80" in first(seen(0.79), about())


def test_a_ratio_at_one_names_no_area() -> None:
    assert first(seen(1.05), about()).startswith("Kc as entered (a guess)")


def test_a_noted_spacing_that_the_file_does_not_know_is_named_with_its_ratio() -> None:
    # (0.40 / 0.45)^2 = 0.79
    causes = ranked_causes(seen(0.79), about(noted=NOTED))
    respaced = next(one for one in causes if one.what.startswith("block respaced"))
    assert respaced.expected_ratio == pytest.approx(0.79, abs=0.002)
    assert "log.csv:8 says 450.0 mm since 2026-06-02" in respaced.what
    assert respaced.fix.startswith("confirm the new spacing")


def test_pots_moved_not_long_ago_are_named_with_their_ratio() -> None:
    moved = POTS.model_copy(update={"moved": (PotMove(on=NOTED.date, spacing_m=0.5),)})
    causes = ranked_causes(seen(), about(yard(pots=moved)))
    found = next(one for one in causes if one.what.startswith("pots moved"))
    assert found.expected_ratio == pytest.approx(0.64)


def test_pots_moved_in_winter_are_no_cause() -> None:
    moved = POTS.model_copy(
        update={"moved": (PotMove(on=dt.date(2026, 2, 1), spacing_m=0.5),)}
    )
    causes = ranked_causes(seen(), about(yard(pots=moved)))
    assert not any("moved" in one.what for one in causes)


def test_a_stale_test_names_the_rate_it_would_take() -> None:
    causes = ranked_causes(seen(0.8), about(tested=dt.date(2025, 4, 1)))
    found = next(one for one in causes if one.what.startswith("stale test"))
    assert "the rate would have to be 15.0 mm/h, not 12.0 mm/h" in found.what


def test_a_fresh_test_is_no_cause() -> None:
    assert not any("test" in one.what for one in ranked_causes(seen(0.8), about()))


def test_an_assumed_rate_is_a_cause() -> None:
    causes = ranked_causes(seen(0.8), about(tested=None))
    assert any(one.what.startswith("rate assumed") for one in causes)


def test_a_kc_on_the_pot_top_has_no_wrong_area() -> None:
    tree = Plant(name="maples", kc=2.0, kc_area="pot top", kc_from="weighed")
    causes = ranked_causes(seen(0.3), about(yard(plant=tree), noted=NOTED))
    assert [one.what[:13] for one in causes] == ["Kc as entered"]


def test_without_a_source_the_coefficient_is_named_bare() -> None:
    bare = yard(plant=HOLLY.model_copy(update={"kc_from": ""}))
    assert any(
        one.what.startswith("Kc as entered: ")
        for one in ranked_causes(seen(0.9), about(bare))
    )


def test_et_up_and_the_check_down_is_a_conflict_with_both_numbers() -> None:
    found = conflict_finding(seen(), about(), plan_minutes=27, nights=7)
    assert found is not None
    assert found.what.startswith(
        "ET asks for more, the leaching check for less: 24 min ran, the plan says 27, "
        "the check 22 (17.5 by the mean of the pots, 21.1 by the driest one)"
    )


def test_the_remedy_is_that_of_the_likeliest_cause() -> None:
    found = conflict_finding(seen(0.79), about(noted=NOTED), plan_minutes=27, nights=7)
    assert found is not None
    assert found.fix in {
        one.fix for one in ranked_causes(seen(0.79), about(noted=NOTED))
    }


@pytest.mark.parametrize("minutes", [None, 0, 20, 22, 24])
def test_both_down_or_nothing_planned_is_no_conflict(minutes: int | None) -> None:
    assert conflict_finding(seen(), about(), plan_minutes=minutes, nights=7) is None


def test_pots_without_a_spacing_have_no_ratio_of_it() -> None:
    bare = yard(pots=Pots(top_diameter_mm=254.0))
    whats = [one.what for one in ranked_causes(seen(0.8), about(bare))]
    assert [one[:13] for one in whats] == ["Kc as entered"]


def test_a_noted_spacing_without_one_before_it_has_no_ratio() -> None:
    bare = yard(pots=Pots(top_diameter_mm=254.0))
    whats = [one.what for one in ranked_causes(seen(0.8), about(bare, noted=NOTED))]
    assert not any("respaced" in one for one in whats)


def test_pots_moved_from_nowhere_known_have_no_ratio() -> None:
    moved = Pots(top_diameter_mm=254.0, moved=(PotMove(on=NOTED.date, spacing_m=0.5),))
    whats = [one.what for one in ranked_causes(seen(0.8), about(yard(pots=moved)))]
    assert not any("moved" in one for one in whats)
