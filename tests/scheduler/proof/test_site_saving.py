"""Before and after from a log: a year with frost, a new dial and less ground."""

import datetime as dt
from dataclasses import replace

import numpy as np
import pytest

from scheduler.errors import QuantityError
from scheduler.log import Entry, FrostNight, MeterReading, Repair
from scheduler.proof.saving import Saving
from scheduler.proof.site_saving import site_saving
from scheduler.record import History
from scheduler.supply import Supply
from scheduler.unit_table import M2_PER_ACRE, MM_PER_INCH
from tests.scheduler.proof.made import history, site, zone
from tests.scheduler.proof.weather import station

TODAY = dt.date(2027, 1, 10)
L_PER_MIN_OF_200_GPM = 757.0823568


def dial(
    date: str, reading: float, multiplier: float, *, is_new: bool = False
) -> MeterReading:
    return MeterReading(
        where=f"log.csv:{date}", typed="", date=dt.date.fromisoformat(date),
        meter="pump", reading=reading, unit="gal", multiplier=multiplier, is_new=is_new,
    )  # fmt: skip


# 2.10 Mgal on a dial x 10; in the middle of the next year it is changed for one x 100
LOG: tuple[Entry, ...] = (
    dial("2025-01-01", 100_000, 10),
    dial("2025-07-01", 220_000, 10),
    dial("2026-01-01", 310_000, 10),
    dial("2026-07-01", 390_000, 10),
    dial("2026-07-01", 0, 100, is_new=True),
    dial("2027-01-01", 7_500, 100),
    FrostNight(where="log.csv:9", typed="", date=dt.date(2025, 4, 11), minutes=540.0),
)


def worked(*, years: tuple[str, str] = ("2025", "2026"), **given: object) -> Saving:
    days = np.arange("2025-01-01", "2027-01-01", dtype="datetime64[D]")
    is_first = days < np.datetime64("2026-01-01")
    eto = np.where(is_first, 24.0, 21.0) * MM_PER_INCH / 365
    past = history(*LOG, weather=(station(days, eto),))
    own = site(
        zone(heads=400),
        supply=Supply(source="well", flow_l_per_min=L_PER_MIN_OF_200_GPM),
    )
    areas = (3.0 * M2_PER_ACRE, 2.8 * M2_PER_ACRE)
    return site_saving(own, past, years, TODAY, areas_m2=areas)[0]


def percent(key: str) -> str:
    step = worked().step(key)
    assert step is not None
    assert step.change is not None
    return f"{step.change:.0%}"


def test_the_log_of_the_worked_years_gives_each_line() -> None:
    assert [percent(key) for key in ("raw", "weather", "frost", "area")] == [
        "-26%",
        "-16%",
        "-11%",
        "-5%",
    ]


def test_a_new_dial_in_the_middle_of_a_year_loses_no_water() -> None:
    found = worked()
    assert found.after.water_m3 == pytest.approx(1.55e6 * 3.785411784e-3)
    assert found.after.days == 365


def test_nine_hours_of_frost_are_named_and_estimated() -> None:
    found = worked()
    assert found.before.frost_m3 == pytest.approx(540 * L_PER_MIN_OF_200_GPM / 1000)
    assert not found.before.is_frost_metered


def test_the_claim_is_the_last_line() -> None:
    found = worked()
    assert found.actual is not None
    assert found.actual.key == "area"


def test_work_within_the_periods_is_listed() -> None:
    past = history(
        *LOG,
        *(
            Repair(
                where="log.csv:9", typed="", date=dt.date(year, 5, 1), what="nozzles"
            )
            for year in (2024, 2025, 2026, 2027)
        ),
    )
    found, _ = site_saving(site(), past, ("2025", "2026"), TODAY)
    assert [one.date.year for one in found.work] == [2025, 2026]


def test_the_readings_that_it_rests_on_are_kept() -> None:
    assert [one.stop.reading for one in worked().after.dials] == [390_000, 0, 7_500]


def test_meters_that_serve_other_zones_are_a_warning() -> None:
    both = site(zone("Z1"), zone("Z2"))
    lines = (
        replace(dial("2025-01-01", 0, 1), zones=("Z1",)),
        replace(dial("2026-01-01", 9000, 1), zones=("Z1",)),
        replace(dial("2027-01-01", 20000, 1), zones=("Z1", "Z2")),
    )
    _, said = site_saving(both, history(*lines), ("2025", "2026"), TODAY)
    assert any("2025 serve Z1, those of 2026 Z1 Z2" in one.what for one in said)


def test_periods_in_the_wrong_order_are_refused() -> None:
    with pytest.raises(QuantityError, match="2025 begins before 2026 ends"):
        worked(years=("2026", "2025"))


def test_the_ground_of_one_period_alone_is_refused() -> None:
    with pytest.raises(QuantityError, match="give --area-before and --area-after"):
        site_saving(site(), History(), ("2025", "2026"), TODAY, areas_m2=(9.0, None))


def test_ground_of_nothing_is_refused() -> None:
    with pytest.raises(QuantityError, match="above 0"):
        site_saving(site(), History(), ("2025", "2026"), TODAY, areas_m2=(9.0, 0.0))
