"""The nouns refuse what cannot be, and derive what follows from what was entered."""

import datetime as dt
from typing import Any

import pytest
from pydantic import ValidationError

from scheduler.site import Package, Place, Plant, Pots, Soil, Station, Window, Zone

PLANT = Plant(name="holly", kc=0.85, kc_area="bed")


def _zone(**given: Any) -> Zone:
    base: dict[str, Any] = {
        "id": "Z1",
        "name": "yard",
        "area_m2": 100.0,
        "grown_in": "pots",
    }
    return Zone(**(base | {"plant": PLANT} | given))


@pytest.mark.parametrize("value", [float("inf"), float("nan"), True, "3"])
def test_a_latitude_is_a_finite_number(value: object) -> None:
    with pytest.raises(ValidationError):
        Place(
            latitude_deg=value,  # type: ignore[arg-type]
            longitude_deg=0.0,
            elevation_m=0.0,
            time_zone="UTC",
        )


def test_an_unknown_key_is_refused() -> None:
    with pytest.raises(ValidationError, match="extra"):
        _zone(colour="green")


def test_a_window_may_cross_midnight() -> None:
    assert Window(start=dt.time(22), end=dt.time(4, 30)).minutes == 390


def test_an_equilateral_layout_waters_less_ground_a_head() -> None:
    # geometry: rows of an equilateral triangle stand sqrt(3)/2 of the spacing apart
    package = Package(id="p", spacing_m=10.0, layout="triangular")
    assert package.area_per_head_m2 == pytest.approx(86.6025, abs=1e-4)


def test_a_package_without_spacing_has_no_area_a_head() -> None:
    assert Package(id="p").area_per_head_m2 is None


def test_low_quarter_is_the_rule_of_pots() -> None:
    assert _zone().chosen_rule == "low quarter"


def test_low_half_is_the_rule_of_soil() -> None:
    zone = _zone(grown_in="soil", soil=Soil(texture="loam"))
    assert zone.chosen_rule == "low half"


def test_an_entered_rule_is_kept() -> None:
    assert _zone(rule="average").chosen_rule == "average"


@pytest.mark.parametrize(
    ("given", "message"),
    [
        ({"watered": "fixed minutes"}, "needs fixed_minutes"),
        ({"fixed_minutes": 5.0}, "needs watered"),
        ({"plant": None}, "plant"),
        ({"soil": Soil(texture="loam")}, "pots are not soil"),
        ({"grown_in": "soil", "pots": Pots(top_diameter_mm=200.0)}, "has no"),
    ],
)
def test_a_zone_that_contradicts_itself_is_refused(
    given: dict[str, Any], message: str
) -> None:
    with pytest.raises(ValidationError, match=message):
        _zone(**given)


@pytest.mark.parametrize("size", [1e-300, 1e300])
def test_heads_that_no_pipe_can_carry_are_refused(size: float) -> None:
    with pytest.raises(ValidationError):
        Package(id="p", spacing_m=size)


TODAY = dt.date(2026, 6, 8)


@pytest.mark.parametrize(
    ("given", "why"),
    [
        ({"is_forecast": True}, "needs issued"),
        ({"issued": TODAY}, "belongs to a forecast"),
        (
            {"is_forecast": True, "issued": TODAY, "is_typical_year": True},
            "no typical year",
        ),
        ({"reference": "grass", "alfalfa_over_grass": 1.2}, "reference = 'alfalfa'"),
        ({"alfalfa_over_grass": 0.8}, "greater than or equal to 1"),
    ],
)
def test_a_station_is_one_thing_only(given: dict[str, Any], why: str) -> None:
    with pytest.raises(ValidationError, match=why):
        Station(name="county", file="weather/county.csv", **given)
