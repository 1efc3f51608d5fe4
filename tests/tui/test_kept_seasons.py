"""What seasons and trials read of a site, and what is therefore not run again."""

import datetime as dt
from collections.abc import Iterator
from dataclasses import fields
from pathlib import Path
from typing import Any

import numpy as np
import pytest
from pydantic import BaseModel

from scheduler import season as room
from scheduler.files.demo import demo_source
from scheduler.money.assumed import Then
from scheduler.money.gain import Trials, package_trials
from scheduler.season import SeasonPlan, ZoneSeason, run_season
from scheduler.site import BlockedHours, Controller, Site, Supply, Zone
from tui import session as state
from tui.kept_seasons import (
    UNREAD,
    UNTRIED,
    read_of_site,
    season_of_site,
    trials_of_site,
)
from tui.season_state import zone_year
from tui.session import Session
from tui.what_if import Edit

SOME = ("Z3", "Z4", "Z6")  # a bed, pots with salt, and a field
SEEN: dict[str, set[str]] = {}


def whole(session: Session) -> Site:
    assert session.site is not None
    return session.site


def told(season: ZoneSeason) -> tuple[object, ...]:
    """All that a season says, as things that can be compared."""
    parts = [getattr(season, one.name) for one in fields(season)]
    plain = [
        one.tobytes() if isinstance(one, np.ndarray) else one
        for one in parts
        if not hasattr(one, "share") and not hasattr(one, "chain")
    ]
    chains = tuple(tuple(one.chain()) for one in season.chains)
    return (*(one for one in plain if not isinstance(one, tuple)), season.findings,
            season.quarters, chains)  # fmt: skip


def both(site: Site, session: Session) -> tuple[object, ...]:
    """Seasons and trials of a site."""
    assert session.history is not None
    assert session.today is not None
    plan = run_season(site, session.history, session.today)
    trials = package_trials(site, session.history)
    assert plan.zones
    assert trials.at_wind
    return (
        tuple(map(told, plan.zones)), plan.findings,
        trials.at_wind, repr(trials.pairs), trials.wind,
    )  # fmt: skip


# --- what is read --------------------------------------------------------------------


@pytest.fixture(scope="module")
def few(opened: Session) -> Site:
    """The demo site with a few of its zones."""
    site = whole(opened)
    zones = tuple(one for one in site.zones if one.id in SOME)
    assert len(zones) == len(SOME)
    return site.model_copy(update={"zones": zones})


@pytest.fixture(scope="module")
def first(few: Site, opened: Session) -> tuple[object, ...]:
    return both(few, opened)


OTHERS: dict[str, Any] = {
    "name": "Another Yard",
    "options": (),
    "stations": (),
    "wind_logs": (),
    "blocked_hours": (
        BlockedHours(start=dt.time(0), end=dt.time(6), reason="people"),
    ),
    "controller": Controller(
        move_worth=0.5, percent_adjust=40, max_starts_per_day=1, percent_step=5
    ),
    "more_controllers": (Controller(id="B", percent_adjust=50),),
    "tariff": None,
    "demand_from": "last week",
    "rounding": "up",
    "test_every_months": 3,
    "learn": False,
    "pinned_today": dt.date(2020, 1, 1),
    "language": "es",
    "note": "another",
}  # fmt: skip


def others(site: Site) -> dict[str, Any]:
    """Another value for every part that is said not to be read."""
    assert site.supply is not None
    supply = Supply(
        source="bought",
        flow_l_per_min=12.0,
        head_m=3.0,
        pumping_efficiency=0.2,
        water_ec_ds_per_m=site.supply.water_ec_ds_per_m,
    )
    assert supply.source != site.supply.source
    return {**OTHERS, "supply": supply}


@pytest.mark.parametrize("part", sorted(UNREAD))
def test_a_part_that_is_not_read_changes_no_season_and_no_trial(
    few: Site, opened: Session, first: tuple[object, ...], part: str
) -> None:
    other = few.model_copy(update={part: others(few)[part]})
    assert other != few
    assert read_of_site(other) == read_of_site(few)
    assert both(other, opened) == first


def test_a_part_that_is_read_changes_seasons(
    few: Site, opened: Session, first: tuple[object, ...]
) -> None:
    (window,) = few.windows
    mondays = window.model_copy(update={"days": ("mon",)})
    other = few.model_copy(update={"windows": (mondays,)})
    assert read_of_site(other) != read_of_site(few)
    assert both(other, opened) != first


def test_the_salt_of_the_water_is_read(few: Site) -> None:
    assert few.supply is not None
    supply = few.supply.model_copy(update={"water_ec_ds_per_m": 2.9})
    other = few.model_copy(update={"supply": supply})
    assert read_of_site(other) != read_of_site(few)


def noting(kind: type[BaseModel]) -> type[Any]:
    """A noun that notes which of its fields are asked for."""

    class Noting(kind):  # type: ignore[misc,valid-type]
        def __getattribute__(self, name: str) -> Any:
            if name in kind.model_fields:
                SEEN.setdefault(kind.__name__, set()).add(name)
            return super().__getattribute__(name)

    return Noting


def noted(noun: Any) -> Any:
    made = {name: getattr(noun, name) for name in type(noun).model_fields}
    return noting(type(noun)).model_construct(**made)


@pytest.fixture
def seen() -> Iterator[dict[str, set[str]]]:
    SEEN.clear()
    yield SEEN
    SEEN.clear()


@pytest.mark.parametrize("demo_name", ["tern_hollow", "alder_flat"])
def test_nothing_is_asked_for_that_is_said_not_to_be_read(
    demo_name: str, seen: dict[str, set[str]]
) -> None:
    opened = state.open_session(demo_source() / demo_name)
    site = whole(opened)
    assert opened.history is not None
    assert opened.today is not None
    zones = tuple(map(noted, site.zones))
    asked = noted(
        site.model_copy(update={"zones": zones, "supply": noted(site.supply)})
    )
    package_trials(asked, opened.history)
    assert seen["Site"].isdisjoint(UNREAD)
    assert seen["Zone"].isdisjoint(UNTRIED)
    assert {"zones", "packages", "place", "windows"} <= seen["Site"]
    run_season(asked, opened.history, opened.today)
    assert seen["Site"] & set(UNREAD) == {"supply"}
    assert seen["Supply"] == {"water_ec_ds_per_m"}
    assert set(UNTRIED) <= seen["Zone"]


# --- what is run ---------------------------------------------------------------------


@pytest.fixture
def run(monkeypatch: pytest.MonkeyPatch) -> list[tuple[str, ...]]:
    """Zones of every run of a season."""
    runs: list[tuple[str, ...]] = []

    def counted(site: Site, *given: Any, **named: Any) -> SeasonPlan:
        runs.append(tuple(one.id for one in site.zones))
        return run_season(site, *given, **named)

    monkeypatch.setattr(room, "run_season", counted)
    return runs


def season(session: Session) -> SeasonPlan:
    return season_of_site(session, whole(session), session.tried_du)


def trials(session: Session) -> Trials:
    return trials_of_site(session, whole(session))


@pytest.mark.parametrize(
    "edit",
    [
        Edit("pump", 321.0),
        Edit("move worth", 0.3),
        Edit("water price", 1.0, typed="3.79"),
        Edit("then", Then("yard-30", 0.9, 6.0, 6.0, "square", "at 6 x 6 m"), "Z4", "R"),
    ],
    ids=lambda one: one.what,
)
def test_a_what_if_of_no_zone_runs_no_season(
    opened: Session, run: list[tuple[str, ...]], edit: Edit
) -> None:
    before = season(opened)
    run.clear()
    tried = state.apply_edit(opened, edit)
    now = season(tried)
    assert run == []
    assert now.site is tried.site
    assert now.zones == before.zones  # the same ones


def test_a_what_if_of_one_zone_runs_that_zone_alone(
    opened: Session, run: list[tuple[str, ...]]
) -> None:
    season(opened)
    run.clear()
    edits = (Edit("kc factor", 1.15, "Z4"), Edit("du", 0.77, "Z3"))
    tried = state.with_edits(opened, edits)
    now = season(tried)
    assert run == [("Z3", "Z4")]
    assert tried.history is not None
    assert tried.today is not None
    anew = run_season(whole(tried), tried.history, tried.today, tried_du=tried.tried_du)
    assert list(map(told, now.zones)) == list(map(told, anew.zones))
    assert now.findings == anew.findings
    season(opened)
    assert run == [("Z3", "Z4")]


def test_seasons_of_another_reading_are_not_taken(
    opened: Session, own_demo: Path, run: list[tuple[str, ...]]
) -> None:
    season(opened)
    run.clear()
    season(state.open_session(own_demo))
    assert run == [tuple(one.id for one in whole(opened).zones)]


def test_trials_stand_whatever_is_tried_in_a_zone(opened: Session) -> None:
    edits = (
        Edit("kc factor", 1.15, "Z4"),
        Edit("allowed", 0.3, "Z4"),
        Edit("rule", "average", "Z4"),
        Edit("days", ("mon",), "Z4"),
        Edit("du", 0.9, "Z4"),
        Edit("pump", 300.0),
    )
    assert trials(state.with_edits(opened, edits)) is trials(opened)


def test_another_package_in_a_zone_is_tried_anew(opened: Session) -> None:
    site = whole(opened)
    zones: tuple[Zone, ...] = tuple(
        one.model_copy(update={"package": "field-40"}) for one in site.zones
    )
    other = site.model_copy(update={"zones": zones})
    assert trials_of_site(opened, other) is not trials(opened)


def test_a_year_of_a_zone_stands_whatever_is_tried_elsewhere(
    opened: Session, run: list[tuple[str, ...]]
) -> None:
    before = zone_year(opened, "Z3", 0.85)
    run.clear()
    edits = (Edit("du", 0.9, "Z4"), Edit("pump", 300.0))
    after = zone_year(state.with_edits(opened, edits), "Z3", 0.85)
    assert after.now is before.now
    assert run == []
