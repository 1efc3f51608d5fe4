"""Weather tables read in SI-style units; what is unclear is refused with its place."""

import datetime as dt

import numpy as np
import pytest

from scheduler.files.text_file import TextFile
from scheduler.files.weather_csv import read_rain, read_station
from scheduler.files.weather_dates import DateOrder
from scheduler.record import DailySeries
from scheduler.site import Place, Station

PLACE = Place(latitude_deg=38.0, longitude_deg=-75.0, elevation_m=12.0, time_zone="UTC")


def read(
    text: str, order: DateOrder = "year-month-day"
) -> tuple[DailySeries | None, list[str]]:
    station = Station(name="quellan", file="weather/q.csv", date_order=order)
    series, said = read_station(TextFile("weather/q.csv", text, ""), station, PLACE)
    return series, [f"{one.level} {one}" for one in said]


def column(header: str, cell: str, delimiter: str = ",") -> DailySeries:
    series, said = read(f"date{delimiter}{header}\n2026-05-01{delimiter}{cell}\n")
    assert said == []
    assert series is not None
    return series


# The right-hand sides are worked by hand from the definitions of the units.
@pytest.mark.parametrize(
    ("header", "cell", "field", "value"),
    [
        ("tmax (°C)", "25", "tmax_degc", 25.0),
        ("Tmax [F]", "77", "tmax_degc", 25.0),
        ("Max Temp (deg F)", "32", "tmax_degc", 0.0),
        ("temp_max_c", "25", "tmax_degc", 25.0),
        ("tmin_degc", "5", "tmin_degc", 5.0),
        ('"Minimum temperature, °C"', "5", "tmin_degc", 5.0),
        ("RH max %", "90", "rh_max", 0.9),
        ("RH min (%)", "40", "rh_min", 0.4),
        ("Relative Humidity (%)", "65", "rh_mean", 0.65),
        ("dew point (°F)", "50", "dew_point_degc", 10.0),
        ("vapour pressure (kPa)", "1.5", "vapour_pressure_kpa", 1.5),
        ("Vapor Pressure (hPa)", "15", "vapour_pressure_kpa", 1.5),
        ("solar radiation (MJ/m2/day)", "20", "radiation_mj_per_m2_day", 20.0),
        ("Rs [MJ m⁻² d⁻¹]", "20", "radiation_mj_per_m2_day", 20.0),
        ("solar radiation (W/m²)", "250", "radiation_mj_per_m2_day", 21.6),
        ("Solar Rad (Ly/day)", "500", "radiation_mj_per_m2_day", 20.92),
        ("sunshine hours (h)", "9.5", "sunshine_h", 9.5),
        ("wind (m/s)", "3", "wind_m_per_s", 3.0),
        ("Wind speed [km/h]", "18", "wind_m_per_s", 5.0),
        ("wind (mph)", "10", "wind_m_per_s", 4.4704),
        ("wind_m_per_s", "3", "wind_m_per_s", 3.0),
        ("Avg Wind Speed (kn)", "10", "wind_m_per_s", 18520 / 3600),
        ("rain (in)", "0.5", "rain_mm", 12.7),
        ("Precipitation (mm)", "4", "rain_mm", 4.0),
        ("ETo (in)", "0.2", "eto_mm_per_day", 5.08),
        ("ET0 (mm/day)", "5", "eto_mm_per_day", 5.0),
        ("ETo (in/day)", "0.2", "eto_mm_per_day", 5.08),
    ],
)
def test_a_header_says_quantity_and_unit(
    header: str, cell: str, field: str, value: float
) -> None:
    got = getattr(column(header, cell), field)
    np.testing.assert_allclose(got, [value], rtol=1e-12, atol=1e-9)


@pytest.mark.parametrize("delimiter", [";", "\t"])
def test_decimal_commas_are_read_between_semicolons_and_tabs(delimiter: str) -> None:
    assert column("tmax (°C)", "25,5", delimiter).tmax_degc[0] == 25.5


def test_what_the_station_does_not_say_is_taken_from_the_place() -> None:
    series = column("tmax (°C)", "25")
    assert (series.latitude_deg, series.elevation_m) == (38.0, 12.0)


def test_a_column_that_is_not_there_holds_nothing() -> None:
    assert np.isnan(column("tmax (°C)", "25").wind_m_per_s).all()


def test_remarks_are_skipped_and_lines_are_those_of_the_file() -> None:
    series, _ = read("# remark\ndate,rain (mm)\n\n2026-05-01,1\n# two\n2026-05-02,2\n")
    assert series is not None
    assert series.line == (4, 6)


def test_lines_above_the_header_are_passed_over_with_a_note() -> None:
    series, said = read("Station: pond, east\ndate,rain (mm)\n2026-05-01,1\n")
    assert series is not None
    assert said[0].startswith("note weather/q.csv:2")


@pytest.mark.parametrize("cell", ["", "NA", "n/a", "-", "nan", "NaN", "null", "M"])
def test_a_missing_value_is_nothing_not_zero(cell: str) -> None:
    assert np.isnan(column("wind (m/s)", cell).wind_m_per_s).all()


@pytest.mark.parametrize(
    "cell", ["-9999", "-9900", "-999", "-99.9", "-9999.0", "-6999"]
)
def test_a_mark_of_missing_values_is_nothing_with_a_note(cell: str) -> None:
    series, said = read(f"date,rain (mm)\n2026-05-01,{cell}\n2026-05-02,{cell}\n")
    assert series is not None
    if cell == "-6999":  # no such mark: left for the check of impossible values
        assert said == []
    else:
        assert np.isnan(series.rain_mm).all()
        assert f"note weather/q.csv:2: rain (mm): {cell} is taken as nothing" in said[0]
        assert "1 more cells" in said[0]


def test_a_trace_of_rain_is_zero_with_a_note() -> None:
    series, said = read("date,rain (in)\n2026-05-01,T\n")
    assert series is not None
    assert series.rain_mm[0] == 0.0
    assert "T is taken as 0" in said[0]


@pytest.mark.parametrize("cell", ["wet", "12 mm", "1_000", "inf", "12..5"])
def test_a_text_in_a_cell_is_named_and_has_no_value(cell: str) -> None:
    series, said = read(f"date,rain (mm)\n2026-05-01,1\n2026-05-02,{cell}\n")
    assert series is not None
    assert np.isnan(series.rain_mm[1])
    assert f"stop weather/q.csv:3: rain (mm): {cell!r} is not a number" in said[0]


@pytest.mark.parametrize("row", ["2026-05-01;1,250", "2026-05-01;1.5\n2026-05-02;1,5"])
def test_commas_that_could_mean_two_things_are_refused(row: str) -> None:
    _, said = read(f"date;rain (mm)\n{row}\n")
    assert said[0].startswith("stop weather/q.csv:")
    assert "is not a number" in said[0]


# --- columns -----------------------------------------------------------------


def test_a_column_without_unit_is_refused_and_the_others_stay() -> None:
    series, said = read("date,tmax,rain (mm)\n2026-05-01,77,1\n")
    assert series is not None
    assert np.isnan(series.tmax_degc[0])
    assert series.rain_mm[0] == 1.0
    assert "stop weather/q.csv:1: tmax: has no unit" in said[0]
    assert "such as tmax (°C)" in said[0]


def test_a_unit_of_another_measure_is_refused() -> None:
    _, said = read("date,wind (mm)\n2026-05-01,3\n")
    assert "is in 'mm', which is not one of m/s, km/h, mph, kn" in said[0]


def test_a_quantity_that_stands_twice_is_refused() -> None:
    _, said = read("date,rain (mm),precip (in)\n2026-05-01,3,4\n")
    assert "stop weather/q.csv:1: precip (in): stands twice" in said[0]


def test_columns_that_are_not_known_are_a_note() -> None:
    _, said = read("date,rain (mm),mood,soil temp (C)\n2026-05-01,3,4,5\n")
    assert said == [
        "note weather/q.csv:1: columns not used: mood, soil temp (C); rename them if "
        "they hold weather, such as tmax (°C) or rain (in)"
    ]


@pytest.mark.parametrize("text", ["1,2\n3,4\n", "rain (mm)\n3\n", "# only remarks\n"])
def test_a_table_without_a_date_column_is_refused(text: str) -> None:
    series, said = read(text)
    assert series is None
    assert "has no header with a date column" in said[0]


# --- dates -------------------------------------------------------------------


@pytest.mark.parametrize(
    ("cell", "order"),
    [
        ("2026-05-04", "year-month-day"),
        ("2026/5/4", "year-month-day"),
        ("20260504", "year-month-day"),
        ("2026-05-04T00:00:00", "year-month-day"),
        ("04/05/2026", "day-month-year"),
        ("4.5.2026", "day-month-year"),
        ("05/04/2026", "month-day-year"),
        ("5/4/2026 0:00", "month-day-year"),
    ],
)
def test_dates_are_read_in_the_stated_order(cell: str, order: DateOrder) -> None:
    series, said = read(f"date,rain (mm)\n{cell},1\n", order)
    assert said == []
    assert series is not None
    assert series.date[0] == np.datetime64("2026-05-04")


@pytest.mark.parametrize(
    ("cell", "order", "message"),
    [
        ("03/04/2026", "year-month-day", "could be 3 April or March 4; set date_order"),
        ("25/04/2026", "year-month-day", 'set date_order = "day-month-year"'),
        ("04/25/2026", "day-month-year", 'set date_order = "month-day-year"'),
        ("2026-04-25", "day-month-year", 'set date_order = "year-month-day"'),
        ("2026-02-30", "year-month-day", "is not a date that exists"),
        ("3/4/26", "month-day-year", "has a year of two digits"),
        ("soon", "year-month-day", "'soon' is not a date"),
        ("", "year-month-day", "the row has no date"),
    ],
)
def test_a_date_in_another_order_is_refused(
    cell: str, order: DateOrder, message: str
) -> None:
    series, said = read(f"date,rain (mm)\n{cell},1\n", order)
    assert series is None
    assert said[0].startswith("stop weather/q.csv:2: date: ")
    assert message in said[0]


def test_many_wrong_dates_are_one_finding() -> None:
    rows = "".join(f"0{i}/04/2026,1\n" for i in range(1, 10))
    _, said = read(f"date,rain (mm)\n{rows}")
    assert len(said) == 1
    assert "8 more rows" in said[0]


def test_a_bad_date_does_not_hide_the_others() -> None:
    series, _ = read("date,rain (mm)\n2026-02-30,1\n2026-03-01,2\n")
    assert series is not None
    assert series.rain_mm.tolist() == [2.0]


def test_a_day_that_stands_twice_is_refused_with_both_lines() -> None:
    series, said = read("date,rain (mm)\n2026-05-01,1\n2026-05-02,2\n2026-05-01,3\n")
    assert series is not None
    assert series.rain_mm.tolist() == [2.0]
    assert "2026-05-01 stands twice, on line 2 and line 4" in said[0]


def test_days_out_of_order_are_sorted_with_a_note() -> None:
    series, said = read("date,rain (mm)\n2026-05-02,2\n2026-05-01,1\n")
    assert series is not None
    assert series.rain_mm.tolist() == [1.0, 2.0]
    assert series.line == (3, 2)
    assert said[0].startswith("note weather/q.csv: the days are not in order")


# --- the site's own gauge ----------------------------------------------------


def rain(text: str) -> tuple[list[float] | None, list[str]]:
    series, said = read_rain(TextFile("rain.csv", text, ""))
    return None if series is None else series.rain_mm.tolist(), [*map(str, said)]


def test_a_day_without_a_number_is_unknown_not_dry() -> None:
    assert rain("date,rain (mm)\n2026-05-01,1\n2026-05-02,\n2026-05-03,0\n") == (
        [1.0, 0.0],
        [],
    )


def test_rain_below_zero_is_refused() -> None:
    days, said = rain("date,rain (mm)\n2026-05-01,-1\n2026-05-02,2\n")
    assert days == [2.0]
    assert "rain.csv:2: rain is below 0" in said[0]


def test_a_gauge_without_rain_column_is_refused() -> None:
    assert "has no rain column" in rain("date,tmax (°C)\n2026-05-01,1\n")[1][0]


def test_a_gauge_without_unit_is_refused_once() -> None:
    days, said = rain("date,rain\n2026-05-01,1\n")
    assert days is None
    assert len(said) == 1
    assert "has no unit" in said[0]


def test_a_gauge_that_was_not_read_yet_says_nothing() -> None:
    assert rain("date,rain (in)\n") == (None, [])


def test_forty_years_keep_their_days() -> None:
    first = dt.date(1985, 1, 1)
    rows = "".join(f"{first + dt.timedelta(i)},{i % 7}\n" for i in range(14610))
    series, said = read(f"date,rain (mm)\n{rows}")
    assert said == []
    assert series is not None
    assert series.date[-1] == np.datetime64("2024-12-31")


def test_a_file_with_a_header_and_no_day_is_left_out_and_says_so() -> None:
    here = Place(
        latitude_deg=36.1, longitude_deg=-79.9, elevation_m=273.0,
        time_zone="America/New_York",
    )  # fmt: skip
    station = Station(name="met office", file="weather/fc.csv")
    text = TextFile("weather/fc.csv", "date,tmax_degc,tmin_degc\n", "")
    one, (said,) = read_station(text, station, here)
    assert one is None
    assert said.level == "warning"
    assert "holds no day" in said.what
