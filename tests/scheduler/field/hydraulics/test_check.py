"""The whole check of a test, and what it says was missing."""

from dataclasses import replace

from scheduler.field.catch import catch
from scheduler.field.hydraulics import hydraulics
from scheduler.site import Package
from tests.scheduler.field.hydraulics.made import (
    PACKAGE,
    ZONE,
    bucket,
    card,
    gauge,
    visit,
)
from tests.scheduler.field.made import MOUTH_CM2, can_test, run

CAUGHT = (catch(run(), mouth_area_cm2=MOUTH_CM2),)


def test_everything_entered_leaves_nothing_missing() -> None:
    test = visit(
        pressures=(gauge("head 1", 46), gauge("head 2", 44)),
        flows=(bucket("head 1", 4.6),),
        meter=card(0, 3312),
    )
    found = hydraulics(test, ZONE, PACKAGE, CAUGHT)
    assert found.is_entered
    assert (found.missing, found.agreement.odd) == ((), "")


def test_nothing_entered_says_which_checks_are_missing() -> None:
    found = hydraulics(visit(), ZONE, PACKAGE, CAUGHT)
    assert not found.is_entered
    assert found.missing == (
        "gross rate at nominal pressure: no pressure and no bucket flow entered",
        "no meter cross-check: no meter entered",
    )


def test_without_any_flow_there_is_no_gross_check() -> None:
    found = hydraulics(visit(), ZONE, Package(id="p"), CAUGHT)
    assert found.missing[0] == "no gross cross-check: no flow entered"


def test_a_flow_without_spacing_asks_for_the_spacing() -> None:
    test = visit(flows=(bucket("head 1", 4.6),))
    found = hydraulics(test, ZONE, None, CAUGHT)
    assert found.missing[0] == "no gross cross-check: no spacing of heads entered"


def test_a_meter_that_cannot_be_used_is_missing_too() -> None:
    found = hydraulics(visit(meter=card(5, 5)), ZONE, PACKAGE, CAUGHT)
    assert found.missing[-1] == "no meter cross-check: the meter card cannot be used"


def test_a_meter_without_a_zone_has_no_area() -> None:
    found = hydraulics(visit(meter=card(0, 3312)), None, PACKAGE, CAUGHT)
    assert "the zone and so its area is not known" in found.missing[-1]


def test_a_meter_card_of_one_run_is_weighed_against_that_run() -> None:
    dry = run([[20.0] * 8] * 3, name="run2")
    test = can_test(run(), dry, meter=card(0, 3312, run="run1"))
    caught = tuple(catch(one, mouth_area_cm2=MOUTH_CM2) for one in test.runs)
    found = hydraulics(test, ZONE, PACKAGE, caught)
    assert found.agreement.net_mm_per_h == caught[0].net_rate_mm_per_h


def test_a_noted_pressure_is_something_entered() -> None:
    test = can_test(replace(run(), pressure_kpa=300.0))
    found = hydraulics(test, ZONE, PACKAGE, CAUGHT)
    assert found.is_entered
    assert found.missing[0] == "gross rate not measured: no bucket flow entered"
