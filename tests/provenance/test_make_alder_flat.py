"""The maker of Alder Flat's data, and the folder that ships."""

import csv
import datetime as dt
from pathlib import Path

import pytest

from scheduler.files.demo import demo_source
from scheduler.files.site_folder import SiteFolder, read_site_folder
from scheduler.plan import WeekPlan, ZonePlan, build_week
from tests.provenance.make_alder_flat import COLUMNS, TODAY, daily_rows, write_all

SHIPPED = demo_source() / "alder_flat"
WEATHER = SHIPPED / "weather" / "seattle_2012_2015.csv"


def shipped_days() -> list[dict[str, str]]:
    lines = WEATHER.read_text(encoding="utf-8").splitlines()
    return list(csv.DictReader(line for line in lines if line[0] != "#"))


@pytest.fixture(scope="module")
def source(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The shipped days in the form of the public file, and one day of the future."""
    path = tmp_path_factory.mktemp("seattle") / "seattle-weather.csv"
    with path.open("w", newline="", encoding="utf-8") as file:
        table = csv.writer(file)
        table.writerow(["date", *COLUMNS.values(), "weather"])
        for day in shipped_days():
            date = day["date"].replace("-", "/")
            table.writerow([date, *(day[name] for name in COLUMNS), "sun"])
        table.writerow([f"{TODAY:%Y/%m/%d}", "99", "9", "9", "9", "sun"])
    return path


@pytest.fixture(scope="module")
def found() -> SiteFolder:
    return read_site_folder(SHIPPED)


@pytest.fixture(scope="module")
def week(found: SiteFolder) -> WeekPlan:
    assert found.site is not None
    assert found.site.pinned_today is not None
    return build_week(found.site, found.history, found.site.pinned_today)


def zone(week: WeekPlan, zone_id: str) -> ZonePlan:
    return next(one for one in week.zones if one.zone.id == zone_id)


def test_the_maker_writes_the_files_that_ship(source: Path, tmp_path: Path) -> None:
    write_all(source, tmp_path)
    made = {path.relative_to(tmp_path): path for path in tmp_path.rglob("*.csv")}
    shipped = {path.relative_to(SHIPPED) for path in SHIPPED.rglob("*.csv")}
    assert shipped - set(made) == {Path("profiles/impact-12.csv")}  # typed by hand
    for name, path in made.items():
        assert path.read_bytes() == (SHIPPED / name).read_bytes(), name


def test_nothing_of_the_demos_day_or_later_is_taken(source: Path) -> None:
    assert max(row[0] for row in daily_rows(source)) == "2015-06-07"


def test_the_days_follow_each_other_without_a_gap() -> None:
    days = [dt.date.fromisoformat(row["date"]) for row in shipped_days()]
    assert days == [days[0] + dt.timedelta(i) for i in range(len(days))]
    assert (days[0], days[-1] + dt.timedelta(1)) == (dt.date(2012, 1, 1), TODAY)


def test_the_first_day_reads_as_in_the_public_file() -> None:
    # vega-datasets 0.9.0, seattle-weather.csv: 2012/01/01,0.0,12.8,5.0,4.7,drizzle
    assert list(shipped_days()[0].values()) == [
        "2012-01-01",
        "12.8",
        "5.0",
        "4.7",
        "0.0",
    ]


def test_the_rain_of_2014_is_that_of_the_public_file() -> None:
    # the sum of the precipitation column over 2014, taken from the file itself
    rain = [
        float(row["rain (mm)"]) for row in shipped_days() if row["date"][:4] == "2014"
    ]
    assert sum(rain) == pytest.approx(1232.8)


def test_nothing_is_wrong_with_the_folder(found: SiteFolder) -> None:
    assert [str(one) for one in found.findings] == []


def test_every_warning_of_the_week_is_one_that_the_site_is_there_to_show(
    week: WeekPlan,
) -> None:
    said = [one.where for one in week.all_findings if one.level != "note"]
    weather = "weather/seattle_2012_2015.csv:11"
    assert said == [
        f"{weather}: humidity",
        f"{weather}: radiation",
        "zone A1: depletion",
        "zone A6",
        "zone A6",
    ]


def test_the_week_ahead_is_the_average_of_the_same_days_of_earlier_years(
    week: WeekPlan,
) -> None:
    eto = zone(week, "A1").trace.find("eto_mm")
    assert eto is not None
    assert eto.note == "7 days own average for those days"


def test_rain_before_the_week_is_the_stations(week: WeekPlan) -> None:
    before = zone(week, "A1").trace.find("rain_before_mm")
    assert before is not None
    assert before.value == pytest.approx(5.1)
    assert before.note == "14 days station"


@pytest.mark.parametrize(
    ("zone_id", "cycles", "status"),
    [
        ("A1", 1, "planned"),  # neither rate nor slope asks for more
        ("A2", 2, "planned"),  # first runoff as seen, after 20 min
        ("A3", 3, "planned"),  # Green-Ampt
        ("A5", 1, "fixed"),
    ],
)
def test_a_zone_shows_what_it_is_there_for(
    week: WeekPlan, zone_id: str, cycles: int, status: str
) -> None:
    plan = zone(week, zone_id)
    assert (plan.cycles, plan.status) == (cycles, status)


def test_the_tree_rows_are_not_due_this_week(week: WeekPlan) -> None:
    assert zone(week, "A4").days == ()


def test_the_new_lease_rests_on_assumptions(week: WeekPlan) -> None:
    evidence = zone(week, "A6").evidence
    assert evidence is not None
    assert evidence.basis == "assumed"


def test_runs_in_the_wind_of_the_watering_hours_feed_the_week(week: WeekPlan) -> None:
    evidence = zone(week, "A1").evidence
    assert evidence is not None
    assert evidence.n_runs == 2
    assert "run1 of 2015-06-05 (usual)" in evidence.du_trace.note
