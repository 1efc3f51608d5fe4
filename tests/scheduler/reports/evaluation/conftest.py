"""Reports of both demo sites, gathered once."""

import datetime as dt
from functools import cache

import pytest

from scheduler.errors import Finding
from scheduler.files.demo import demo_source
from scheduler.files.site_folder import read_site_folder
from scheduler.reports.evaluation import Told, gathered
from scheduler.units import System

DAYS = {"tern_hollow": dt.date(2026, 6, 8), "alder_flat": dt.date(2015, 6, 8)}


@cache
def _gathered(
    name: str, units: System = "us"
) -> tuple[tuple[Told, ...], tuple[Finding, ...]]:
    found = read_site_folder(demo_source() / name)
    assert found.site is not None
    return gathered(found.site, found.history, DAYS[name], units)


@pytest.fixture(scope="session")
def tern() -> dict[str, Told]:
    return {one.plan.zone.id: one for one in _gathered("tern_hollow")[0]}


@pytest.fixture(scope="session")
def alder() -> dict[str, Told]:
    return {one.plan.zone.id: one for one in _gathered("alder_flat", "metric")[0]}


@pytest.fixture(scope="session")
def both(tern: dict[str, Told], alder: dict[str, Told]) -> list[Told]:
    return [*tern.values(), *alder.values()]


@pytest.fixture(scope="session")
def untested() -> tuple[Finding, ...]:
    return _gathered("tern_hollow")[1]
