"""The coefficient of a zone through the year, for the dashboard."""

import datetime as dt
from dataclasses import replace
from pathlib import Path

from tui import session as state
from tui.need_state import kc_of_year
from tui.session import Session
from tui.what_if import Edit


def test_today_is_marked(opened: Session) -> None:
    found = kc_of_year(opened, "Z3")
    assert found is not None
    assert found.date.tolist()[found.today] == dt.date(2026, 6, 8)


def test_it_is_worked_out_once(opened: Session) -> None:
    assert kc_of_year(opened, "Z3") is kc_of_year(opened, "Z3")


def test_a_factor_that_is_tried_moves_the_curve(opened: Session) -> None:
    tried = state.apply_edit(opened, Edit("kc factor", 1.2, "Z3"))
    was, now = kc_of_year(opened, "Z3"), kc_of_year(tried, "Z3")
    assert was is not None
    assert now is not None
    assert now.kc[0] == 1.2 * was.kc[0]


def test_the_weather_of_a_year_wets_the_ground_of_a_dual_bed(opened: Session) -> None:
    site = opened.site
    assert site is not None
    field = site.zone("Z6")
    assert field is not None
    assert field.plant is not None
    basal = field.plant.model_copy(update={"dual": True, "height_m": 0.5})
    changed = field.model_copy(update={"plant": basal})
    zones = tuple(changed if one.id == "Z6" else one for one in site.zones)
    assert opened.site_folder is not None
    other = site.model_copy(update={"zones": zones})
    read = replace(opened.site_folder, site=other)
    again = replace(
        opened, site_folder=read, own_plan=None, edits=(Edit("du", 0.8, "Z1"),)
    )
    found = kc_of_year(state.with_edits(again, ()), "Z6")
    assert found is not None
    assert found.basal is not None
    assert (found.kc > found.basal).any()


def test_without_a_site_there_is_no_curve(tmp_path: Path) -> None:
    assert kc_of_year(state.open_session(tmp_path, None), "Z3") is None
