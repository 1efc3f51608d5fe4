"""The record of a site as tables."""

import numpy as np
import pytest

from scheduler.field.evaluation import evaluated_site
from scheduler.files.demo import demo_source
from scheduler.files.site_folder import SiteFolder, read_site_folder
from scheduler.need.leaching import pooled_leaching_fraction
from scheduler.proof.leaching_check import checked_pots
from scheduler.proof.meter import plan_against_meter
from scheduler.reports.handed.extract import NAMES, extract_json, extract_tables
from scheduler.reports.handed.table import Rows


@pytest.fixture(scope="module")
def found() -> SiteFolder:
    return read_site_folder(demo_source() / "tern_hollow")


@pytest.fixture(scope="module")
def tables(found: SiteFolder) -> dict[str, Rows]:
    site, history = found.site, found.history
    assert site is not None
    checks = [
        checked_pots(one, None, minutes=one.minutes, grid=None)
        for one in history.log.leaching_checks()
    ]
    made = extract_tables(
        site, "metric", tests=evaluated_site(site, history),
        intervals=plan_against_meter(site, history).intervals, checks=checks,
        log=history.log,
    )  # fmt: skip
    assert extract_json(site, made)["report"] == "extract"
    return {one.name: one for one in made}


def test_every_table_is_there(tables: dict[str, Rows]) -> None:
    assert tuple(tables) == NAMES


def test_every_zone_is_a_management_unit(
    tables: dict[str, Rows], found: SiteFolder
) -> None:
    assert found.site is not None
    assert [row[0] for row in tables["units"].rows] == [z.id for z in found.site.zones]


def test_metered_water_is_told_from_reading_to_reading(
    tables: dict[str, Rows],
) -> None:
    first = tables["water"].rows[0]
    assert first[:3] == ("pump house", "2026-04-06", "2026-04-13")
    # 980820 less 958120 on a dial that reads tens of gallons: 227,000 gal of 3.785 L
    assert first[4] == pytest.approx(227_000 * 3.785411784e-3, abs=0.06)


def test_every_run_has_its_uniformity_and_range(tables: dict[str, Rows]) -> None:
    for row in tables["tests"].rows:
        if row[7] is not None:
            assert row[7] <= row[6] <= row[8]  # type: ignore[operator]


def test_a_leaching_check_is_told_by_volume(
    tables: dict[str, Rows], found: SiteFolder
) -> None:
    (check,) = found.history.log.leaching_checks("Z4")
    came = [one.in_ml or 0.0 for one in check.pots]
    went = [one.out_ml or 0.0 for one in check.pots]
    whole = pooled_leaching_fraction(np.array(came), np.array(went))
    row = next(one for one in tables["leaching"].rows if one[0] == "Z4")
    assert row[2:5] == (6, 24.0, round(whole, 2))


def test_salt_is_told_by_place(tables: dict[str, Rows]) -> None:
    assert ("Z4", "2026-06-03", "E2", 2.1, 6.3) in tables["salt"].rows
