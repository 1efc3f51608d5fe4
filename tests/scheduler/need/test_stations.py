"""Reference ET of every station of a site."""

from scheduler.need.reference_et import reference_et
from scheduler.need.stations import stations_et
from scheduler.need.weather import filled
from scheduler.record import Origin
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


def _of_distance(origin: Origin) -> list[tuple[str, str]]:
    _, findings = stations_et([plain(origin=origin)], place())
    return [(f.level, f.what) for f in findings if f.where.endswith("distance")]


def test_a_distance_that_nobody_gave_is_noted() -> None:
    assert _of_distance(Origin())[0][0] == "note"


def test_a_station_far_away_is_a_warning_with_its_distance() -> None:
    level, what = _of_distance(Origin(distance_km=80.0))[0]
    assert level == "warning"
    assert "80.0 km (49.7 mi)" in what


def test_a_station_nearby_is_nothing_to_speak_of() -> None:
    assert _of_distance(Origin(distance_km=0.0)) == []


def test_the_origin_goes_with_the_days() -> None:
    told = Origin(distance_km=12.0)
    found, _ = stations_et([plain(origin=told)], place())
    assert found[0].origin == told
