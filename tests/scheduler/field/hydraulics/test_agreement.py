"""Cans, nozzles and meter: which one is off."""

from typing import Any

import pytest

from scheduler.field.catch import catch
from scheduler.field.hydraulics.agreement import Agreement, agreement
from scheduler.field.hydraulics.gross import best_gross_rate
from scheduler.field.hydraulics.meter import meter_check
from scheduler.site import Package
from tests.scheduler.field.hydraulics.made import PACKAGE, ZONE, bucket, card, visit
from tests.scheduler.field.made import FIRST_VISIT_ML, MOUTH_CM2, can_test, run

RIGHT_GAL = 3312.0


def weighed(
    *,
    cans: float = 1.0,
    gallons: float | None = RIGHT_GAL,
    package: Package | None = PACKAGE,
    flows: Any = (),
    **given: Any,
) -> Agreement:
    """The worked first visit with one or more of its three witnesses turned."""
    readings = [[cell * cans for cell in row] for row in FIRST_VISIT_ML]
    dial = None if gallons is None else card(0.5, 0.5 + gallons, **given)
    test = can_test(run(readings), flows=flows, meter=dial)
    caught = catch(run(readings), mouth_area_cm2=MOUTH_CM2)
    meter, _ = meter_check(test, ZONE, package, units="us")
    gross = best_gross_rate(test, None, package, ZONE)
    return agreement([caught], gross, meter, test.where, "us")


def test_a_sound_visit_adds_up() -> None:
    found = weighed()
    assert (found.odd, found.findings) == ("", ())
    assert found.net_over_gross == pytest.approx(0.977, abs=2e-3)
    assert found.meter_over_gross == pytest.approx(1.0, abs=1e-3)


@pytest.mark.parametrize(
    ("turned", "odd"),
    [
        ({"gallons": RIGHT_GAL / 10}, "meter"),
        ({"gallons": RIGHT_GAL * 7.48}, "meter"),
        ({"cans": 2.0}, "cans"),
        ({"cans": 0.4}, "cans"),
        ({"cans": 1.6, "gallons": RIGHT_GAL * 1.6}, "nozzles or minutes"),
        (
            {"cans": 1.6, "gallons": RIGHT_GAL * 1.6, "minutes": 30.0},
            "nozzles",
        ),
        ({"gallons": RIGHT_GAL * 1.2}, "meter or nozzles"),
        ({"cans": 4.0, "gallons": RIGHT_GAL * 16}, "cannot tell"),
    ],
)
def test_the_one_against_two_is_off(turned: dict[str, Any], odd: str) -> None:
    assert weighed(**turned).odd == odd


def test_two_alone_cannot_tell_which() -> None:
    assert weighed(cans=2.0, gallons=None).odd == "cans or nozzles"
    assert weighed(cans=2.0, package=None).odd == "cans or meter"


def test_buckets_that_agree_with_the_package_leave_the_cans() -> None:
    flows = (bucket("head 1", 4.6),)
    assert weighed(cans=2.0, gallons=None, flows=flows).odd == "cans"


def test_buckets_against_package_and_cans_are_off() -> None:
    flows = (bucket("head 1", 2.3),)
    assert weighed(gallons=None, flows=flows).odd == "nozzles"


def test_other_zones_on_the_meter_only_add_to_it() -> None:
    assert weighed(gallons=RIGHT_GAL * 2, other_zones=("Z3",)).odd == ""
    assert weighed(gallons=RIGHT_GAL / 10, other_zones=("Z3",)).odd == "meter"


def test_a_little_over_is_within_what_the_cans_can_tell() -> None:
    # 103 %; the mean of 24 cans with a CV of 0.21 is known to 4 %
    assert weighed(cans=1.06, gallons=None).odd == ""


def test_the_finding_names_the_three_rates_the_odd_one_and_the_slip() -> None:
    (said,) = weighed(gallons=RIGHT_GAL / 10).findings
    assert said.what == (
        "the cans caught 0.48 in/h, the nozzles deliver (nominal) 0.49 in/h, "
        "the meter counted 0.05 in/h: the meter must be off"
    )
    assert said.fix.startswith(
        "likeliest first: 1 multiplier: a multiplier of 10 where 1 was used"
    )


def test_cans_against_a_package_alone_are_left_to_the_screening() -> None:
    found = weighed(cans=2.0, gallons=None)
    assert found.findings == ()
    assert found.causes


def test_one_rate_alone_is_not_checked() -> None:
    found = weighed(gallons=None, package=None)
    assert (found.is_checked, found.odd) == (False, "")


def test_nothing_is_made_of_nothing() -> None:
    gross = best_gross_rate(visit(), None, None)
    found = agreement((), gross, None, "tests/a", "us")
    assert (found.net_mm_per_h, found.gross_mm_per_h, found.odd) == (None, None, "")


def test_without_cans_a_leak_is_between_meter_and_nozzles() -> None:
    test = visit(
        flows=(bucket("head 1", 4.6),), meter=card(0.5, 0.5 + 1.25 * RIGHT_GAL)
    )
    meter, _ = meter_check(test, ZONE, PACKAGE, units="us")
    gross = best_gross_rate(test, None, PACKAGE, ZONE)
    found = agreement((), gross, meter, test.where, "us")
    assert found.odd == "meter or nozzles"
    assert [one.name for one in found.causes][:2] == ["other zones on", "leak"]
