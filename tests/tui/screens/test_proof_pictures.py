"""What the pictures of the proof show, from logs made by hand."""

import datetime as dt

from scheduler.log import FrostNight
from scheduler.proof.meter import plan_against_meter
from scheduler.proof.zone_proof import ZoneProof, zone_proof
from tests.scheduler.proof import made
from tests.scheduler.proof.test_zone_proof import EVEN, proof
from tests.scheduler.proof.yard import DAY, SIX, TODAY, pots_of_check
from tui.screens.proof_pictures import (
    drift_panels,
    leaching_points,
    meter_pairs,
    meter_words,
    unbroken,
)

EARLY = DAY - dt.timedelta(days=7)


def metered(*readings: float, frost: bool = False) -> ZoneProof:
    """Weeks of 7 m3 of plan, of one zone."""
    lines = [made.dial(1 + 7 * i, one) for i, one in enumerate(readings)]
    more = [FrostNight(minutes=60.0, **made.at(3))] if frost else []
    found = plan_against_meter(made.site(), made.history(*lines, *more))
    mine = made.site().zones[0]
    return zone_proof(mine, None, found, (), planned=(10, 7), today=TODAY)


def test_a_check_is_drawn_in_percent() -> None:
    found = leaching_points(proof(*pots_of_check(SIX)))
    assert found is not None
    (one,) = found.points
    # 768 mL of 2020 drained; the driest was 28 of 232
    assert (round(one.value), round(one.least)) == (38, 12)
    assert one.texts == ("38 %", "12 % E2")


def test_the_band_is_ten_to_twenty() -> None:
    found = leaching_points(proof(*pots_of_check(SIX)))
    assert found is not None
    assert found.band == (10.0, 20.0)


def test_a_check_that_teaches_nothing_is_said_in_words() -> None:
    found = leaching_points(
        proof(
            *pots_of_check(EVEN),
            *pots_of_check(EVEN, day=EARLY, minutes=None, line=40),
        )
    )
    assert found is not None
    assert "does not count" in found.words[1]
    assert "asks for no minutes" in found.words[1]


def test_the_newest_check_is_told_first() -> None:
    found = leaching_points(
        proof(*pots_of_check(SIX), *pots_of_check(EVEN, day=EARLY, line=40))
    )
    assert found is not None
    assert "3 Jun" in found.words[0]
    assert "22 (17.5 by the mean, 21.1 by the driest pot)" in found.words[0]


def test_a_check_tells_the_percent_adjust_instead_and_never_both() -> None:
    found = leaching_points(proof(*pots_of_check(SIX)))
    assert found is not None
    assert "or percent adjust 92\u00a0% instead, not both" in found.words[0]


def test_no_check_is_no_picture() -> None:
    assert leaching_points(proof()) is None


def test_both_corrections_have_a_panel() -> None:
    found = drift_panels(proof(*pots_of_check(EVEN)))
    assert found is not None
    assert [one.title.split()[0] for one in found.panels] == ["Kc", "rate"]


def test_the_words_of_a_drift_name_the_looks() -> None:
    found = drift_panels(proof(*pots_of_check(EVEN)))
    assert found is not None
    assert "leaching check, 0.90 (log.csv:10)" in found.words[2]


def test_without_a_look_there_is_no_drift_to_draw() -> None:
    assert drift_panels(proof()) is None


def test_frost_water_stands_apart() -> None:
    found = meter_pairs(metered(100.0, 113.0, frost=True), "metric")
    assert found is not None
    (one,) = found.pairs
    assert (one.expected, one.apart, one.measured) == (7.0, (6.0, 0.0), 13.0)
    assert (one.note, one.top) == ("frost", "0 %")


def test_us_faces_are_in_thousands_of_gallons() -> None:
    found = meter_pairs(metered(100.0, 107.0), "us")
    assert found is not None
    assert round(found.pairs[0].expected, 2) == 1.85
    assert "kgal" in found.legend[1]


def test_too_much_carries_a_sign() -> None:
    found = meter_pairs(metered(100.0, 114.0), "metric")
    assert found is not None
    assert found.pairs[0].top == "▲+100 %"


def test_words_of_the_meter_name_who_else_it_serves() -> None:
    assert "(alone)" in meter_words(metered(100.0, 107.0), "metric")[0]


def test_a_percent_sign_stays_with_its_number() -> None:
    assert unbroken(["12 % of"]) == ("12\u00a0% of",)
