"""Reference ET of every station of a site."""

from scheduler.need.reference_et import reference_et
from scheduler.need.stations import stations_et
from scheduler.need.weather import filled
from tests.scheduler.need.made import place, plain, series


def test_every_station_keeps_its_place_in_the_order() -> None:
    both, _ = stations_et([plain(name="near"), plain(name="far")], place())
    assert [one.name for one in both] == ["near", "far"]


def test_a_station_has_the_et_of_its_filled_weather() -> None:
    weather, _ = filled(plain(), place())
    found, _ = stations_et([plain()], place())
    assert (
        found[0].eto_mm_per_day.tolist()
        == reference_et(weather)[0].eto_mm_per_day.tolist()
    )


def test_what_had_to_be_filled_in_is_said() -> None:
    _, findings = stations_et([series()], place())
    assert findings
