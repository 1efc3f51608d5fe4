"""A span: its water by meters or by the clock, and the weather of its days."""

import datetime as dt

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from scheduler.errors import QuantityError
from scheduler.log import Entry, FrostNight
from scheduler.proof.meter import plan_against_meter
from scheduler.proof.period import Period, parsed_span, period, rain_used_mm
from scheduler.record import History, RainSeries
from scheduler.site import Site
from tests.scheduler.proof.made import at, day, dial, history, site, zone
from tests.scheduler.proof.weather import station

TODAY = day(29)
JUNE = "2026-06-01..2026-06-22"


def made(
    *entries: Entry,
    span: str = JUNE,
    of: Site | None = None,
    past: History | None = None,
) -> tuple[Period, str]:
    own, known = of or site(), past or history(*entries)
    intervals = plan_against_meter(own, known).intervals
    found, said = period(own, known, intervals, parsed_span(span), TODAY)
    return found, " | ".join(str(one) for one in said)


def test_a_year_ends_before_the_next() -> None:
    span = parsed_span("2025")
    assert (span.start, span.stop) == (dt.date(2025, 1, 1), dt.date(2026, 1, 1))


@pytest.mark.parametrize("text", ["last year", "2025-06", "25", "2026-06-01.."])
def test_what_is_no_span_is_refused_with_an_example(text: str) -> None:
    with pytest.raises(QuantityError, match=r"write a year such as 2025"):
        parsed_span(text)


def test_a_span_that_ends_before_it_starts_is_refused() -> None:
    with pytest.raises(QuantityError, match="ends before it starts"):
        parsed_span("2026-06-08..2026-06-01")


def test_only_intervals_within_the_span_count() -> None:
    found, _ = made(dial(-6, 0.0), dial(1, 50.0), dial(8, 57.0), dial(29, 99.0))
    assert (found.water_m3, found.days) == (7.0, 7)
    assert (found.start, found.stop) == (day(1), day(8))


def test_without_a_meter_the_clock_is_an_estimate_and_that_is_said() -> None:
    found, said = made()
    assert (found.water_m3, found.is_metered) == (21.0, False)
    assert "no meter tells the water" in said


def test_days_to_come_are_not_estimated() -> None:
    found, _ = made(span="2026-06-22..2026-12-31")
    assert found.days == 7


def test_an_interval_that_the_dial_cannot_tell_is_left_out_with_its_days() -> None:
    found, said = made(dial(1, 100.0), dial(8, 107.0), dial(15, 3.0))
    assert (found.water_m3, found.days) == (7.0, 7)
    assert "left out" in said


def test_frost_water_is_named_with_whether_it_was_read() -> None:
    found, _ = made(dial(1, 0.0), dial(8, 13.0), FrostNight(minutes=60.0, **at(3)))
    assert (found.frost_m3, found.is_frost_metered) == (6.0, False)


def test_a_meter_behind_another_is_not_counted_twice() -> None:
    both = site(zone("Z1"), zone("Z2"))
    found, _ = made(
        dial(1, 0.0, zones=("Z1", "Z2")), dial(8, 14.0, zones=("Z1", "Z2")),
        dial(1, 0.0, meter="yard", zones=("Z2",)),
        dial(8, 7.0, meter="yard", zones=("Z2",)), of=both,
    )  # fmt: skip
    assert found.water_m3 == 14.0


def test_meters_side_by_side_add_up() -> None:
    both = site(zone("Z1"), zone("Z2"))
    found, _ = made(
        dial(1, 0.0, zones=("Z1",)), dial(8, 6.0, zones=("Z1",)),
        dial(1, 0.0, meter="yard", zones=("Z2",)),
        dial(15, 7.0, meter="yard", zones=("Z2",)), of=both,
    )  # fmt: skip
    assert found.water_m3 == 13.0


def test_meters_that_cover_other_days_are_a_warning() -> None:
    both = site(zone("Z1"), zone("Z2"))
    _, said = made(
        dial(1, 0.0, zones=("Z1",)), dial(8, 6.0, zones=("Z1",)),
        dial(1, 0.0, meter="yard", zones=("Z2",)),
        dial(15, 7.0, meter="yard", zones=("Z2",)), of=both,
    )  # fmt: skip
    assert "not all meters tell: pump 7" in said


def with_weather(rain: float | None, of: Site | None = None) -> Period:
    days = np.arange("2026-06-01", "2026-06-29", dtype="datetime64[D]")
    gauge = (
        None if rain is None else RainSeries("rain.csv", days, np.full(days.size, rain))
    )
    past = history(
        dial(1, 0.0), dial(8, 7.0), weather=(station(days, 5.0),), rain=gauge
    )
    return made(past=past, of=of)[0]


def test_eto_is_the_sum_over_the_days_that_count() -> None:
    found = with_weather(None)
    assert found.eto_mm == pytest.approx(35.0)
    assert found.weather_is_measured


def test_rain_that_nobody_read_is_not_zero() -> None:
    assert with_weather(None).rain_used_mm is None


def test_rain_counts_up_to_the_eto_of_its_week() -> None:
    found = with_weather(9.0)
    assert found.rain_mm == pytest.approx(63.0)
    assert found.rain_used_mm == pytest.approx(35.0)


def test_rain_counts_as_much_as_the_zones_count_of_it() -> None:
    found = with_weather(4.0, site(zone(rain_counted=0.25)))
    assert found.rain_used_mm == pytest.approx(7.0)


def test_weather_of_other_years_is_not_measured() -> None:
    days = np.arange("2025-06-01", "2025-06-29", dtype="datetime64[D]")
    past = history(dial(1, 0.0), dial(8, 7.0), weather=(station(days, 5.0),))
    assert not made(past=past)[0].weather_is_measured


DEPTHS = st.lists(st.floats(0.0, 80.0), min_size=1, max_size=40)


@given(rain=DEPTHS)
def test_used_rain_is_no_more_than_rain_and_no_more_than_eto(rain: list[float]) -> None:
    eto = np.full(len(rain), 5.0)
    used = rain_used_mm(eto, np.array(rain))
    assert used <= min(eto.sum(), sum(rain)) + 1e-9
