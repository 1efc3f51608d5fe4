"""What a folder's files say, what is unsaved in them, and how both are read again."""

import re
import shutil
from collections.abc import Callable
from pathlib import Path

import pytest

from scheduler.errors import SaveError
from scheduler.files.folder_edits import FolderEdits
from scheduler.files.toml_edit import with_value
from tests.small_site import small_site
from tui import given_state as state
from tui.given_edit import given_edit, texts_after, without_given
from tui.session import (
    Session,
    apply_edit,
    issuing,
    open_session,
    own_zone_plan,
    undo,
    with_edits,
)
from tui.tried import named
from tui.what_if import Edit

ZONES = "zones.toml"


@pytest.fixture(scope="module")
def made(tmp_path_factory: pytest.TempPathFactory) -> Session:
    """The small site, opened once; not to be written to."""
    return open_session(small_site(tmp_path_factory.mktemp("made") / "yard"))


@pytest.fixture
def site(made: Session, tmp_path: Path) -> Path:
    return shutil.copytree(made.folder, tmp_path / "yard")


def larger(session: Session, area: str = "2500") -> FolderEdits:
    given = session.given
    assert given is not None
    text = with_value(given.now[ZONES], ("zone", 0, "area_ft2"), area)
    return given.with_text(ZONES, text)


def area(session: Session) -> float:
    assert session.site is not None
    return round(session.site.zones[0].area_m2 / 0.09290304)


def edited(session: Session) -> Session:
    return apply_edit(session, given_edit(larger(session), "Z1 area"))


def test_a_broken_line_is_not_taken_out_but_typed_into(site: Path) -> None:
    text = (site / ZONES).read_text("utf-8").replace('"Old beds"', '"Old beds')
    (site / ZONES).write_text(text, "utf-8")
    given = open_session(site).given
    assert given is not None
    line = state.given_things(given)[0]
    with pytest.raises(
        SaveError, match=r"zones\.toml:16 is to be corrected"
    ) as refused:
        state.without(given, line)
    assert "with nothing typed an empty line stays" in refused.value.fix


# --- edits and the week ------------------------------------------------------


def test_the_site_and_its_week_follow_an_edit(made: Session) -> None:
    done = edited(made)
    assert area(done) == 2500
    assert done.plan is not made.plan
    assert done.own_plan is done.plan


def test_undo_goes_back_to_the_files_as_they_were(made: Session) -> None:
    assert area(undo(edited(made))) == 2400


def test_a_what_if_stands_on_an_edited_folder(made: Session) -> None:
    done = apply_edit(edited(made), Edit("pump", 400.0))
    assert done.site is not None
    assert done.site.supply is not None
    assert (area(done), done.site.supply.flow_l_per_min) == (2500, 400.0)


def test_an_edit_of_the_files_is_no_what_if(made: Session) -> None:
    assert edited(made).what_ifs == ()
    assert without_given(edited(made).edits) == ()


def test_a_what_if_of_a_zone_that_was_taken_out_is_passed_by(made: Session) -> None:
    tried = apply_edit(made, Edit("days", ("mon",), "Z2"))
    given = tried.given
    assert given is not None
    thing = next(one for one in state.given_things(given) if one.name == "Z2")
    done = apply_edit(tried, given_edit(state.without(given, thing), "Z2 removed"))
    assert done.site is not None
    assert [one.id for one in done.site.zones] == ["Z1"]


def renaming(session: Session, old: str, new: str) -> Edit:
    given = session.given
    assert given is not None
    text = given.now[ZONES].replace(f'"{old}"', f'"{new}"')
    after = given.with_text(ZONES, text)
    return given_edit(after, f"{old} id", before=given)


def test_a_zone_that_is_renamed_keeps_what_is_tried_with_its_before(
    made: Session,
) -> None:
    tried = apply_edit(made, Edit("rule", "average", "Z1"))
    done = apply_edit(tried, renaming(tried, "Z1", "north"))
    assert done.what_ifs == (Edit("rule", "average", "north"),)
    assert done.site is not None
    assert done.site.zones[0].chosen_rule == "average"
    (was,), (now,) = named(tried), named(done)
    assert now == was.replace("Z1", "north")
    assert "– →" not in now
    assert undo(done).what_ifs == tried.what_ifs


def test_a_zone_that_is_renamed_keeps_its_log_before_it_is_saved(site: Path) -> None:
    log = "# format = 1\n2026-06-03,,watering,Z1,,ran 6 min,,\n"
    (site / "log.csv").write_text(log, "utf-8")
    session = open_session(site)
    given = session.given
    assert given is not None
    thing = next(one for one in state.given_things(given) if one.name == "Z1")
    own = state.given_sections(given, thing, "us")[0]
    field = next(one for one in own.fields if one.field.name == "id")
    after = state.typed(given, (thing, own, field), "north").edits
    assert after is not None
    done = apply_edit(session, given_edit(after, "Z1 id", before=given))
    assert [of_log(one) for one in (done, undo(done))] == ["north", "Z1"]
    assert undo(done).given == given


def of_log(session: Session) -> str:
    assert session.history is not None
    return session.history.log.entries[0].zone


def test_two_zones_that_change_places_are_not_renamed(made: Session) -> None:
    swap = {"Z1": "Z2", "Z2": "Z1"}
    given = made.given
    assert given is not None
    text = re.sub(r'"(Z[12])"', lambda m: f'"{swap[m[1]]}"', given.now[ZONES])
    step = given_edit(given.with_text(ZONES, text), "moved", before=given)
    assert step.renamed == ()


def test_a_zone_that_goes_renames_none(made: Session) -> None:
    given = made.given
    assert given is not None
    thing = next(one for one in state.given_things(given) if one.name == "Z1")
    step = given_edit(state.without(given, thing), "Z1 removed", before=given)
    assert step.renamed == ()


def test_what_is_tried_stays_with_a_renamed_zone_when_others_change_the_folder(
    site: Path,
) -> None:
    session = apply_edit(open_session(site), Edit("rule", "average", "Z1"))
    session = apply_edit(session, renaming(session, "Z1", "north"))
    (site / "site.toml").write_text(
        (site / "site.toml").read_text("utf-8") + "# theirs\n", "utf-8"
    )
    again = state.reopened(session, open_session(site), session.edits)
    assert again.what_ifs == session.what_ifs


def test_what_is_tried_goes_by_the_old_id_where_a_rename_is_gone(site: Path) -> None:
    session = apply_edit(open_session(site), Edit("rule", "average", "Z1"))
    session = apply_edit(session, renaming(session, "Z1", "north"))
    zones = site / ZONES
    zones.write_text(zones.read_text("utf-8").replace("Old", "New"), "utf-8")
    assert session.given is not None
    start, _ = state.settled(session, session.given, ZONES, keep_mine=False)
    again = state.reopened(start, open_session(site), start.edits)
    assert again.what_ifs == (Edit("rule", "average", "Z1"),)


def test_a_folder_without_a_zone_loses_what_was_tried_there_alone(
    made: Session,
) -> None:
    lost, rest = Edit("days", ("mon",), "gone"), Edit("days", ("mon",), "Z1")
    done = state.reopened_without_lost(made, made, (lost, rest))
    assert done.what_ifs == (rest,)


def test_a_window_changes_no_test_that_was_worked_up(made: Session) -> None:
    given = made.given
    assert given is not None
    text = given.now["site.toml"].replace("04:30", "05:00")
    done = apply_edit(made, given_edit(given.with_text("site.toml", text), "window"))
    assert done.evaluations is made.evaluations


def test_a_week_of_unsaved_edits_is_not_issued(made: Session) -> None:
    assert "save them, or undo them" in issuing(edited(made)).refused


# --- what is shown -----------------------------------------------------------


def test_what_the_week_takes_stands_for_what_is_not_given(opened: Session) -> None:
    given = opened.given
    assert given is not None
    thing = next(one for one in state.given_things(given) if one.name == "Z3")
    pots = next(
        one for one in state.given_sections(given, thing, "us") if one.words == "pots"
    )
    factor = next(one for one in pots.fields if one.field.name == "capture_factor")
    plan = own_zone_plan(opened, "Z3")
    found = plan.trace.find("capture_factor") if plan is not None else None
    assert found is not None
    assert factor.typed == ""
    assert float(state.guess(opened, thing, pots, factor)) == found.value


@pytest.mark.parametrize(
    ("change", "line"),
    [
        (lambda text: text.replace("2400 ", "2500 "), "Z1 area_ft2  2400 → 2500"),
        (
            lambda text: text.replace("area_ft2 = 2400", "area_m2 = 200"),
            "Z1  area_ft2 = 2400 → area_m2 = 200",
        ),
        (lambda text: text + "priority = 3\n", "Z2 priority  not given → 3"),
        (lambda text: text[: text.rindex("\n[[zone]]")], "Z2  removed, 7 lines"),
    ],
)
def test_a_change_is_told_in_a_line(
    made: Session, change: Callable[[str], str], line: str
) -> None:
    given = made.given
    assert given is not None
    edits = given.with_text(ZONES, change(given.now[ZONES]))
    assert state.change_lines(edits) == [f"{ZONES}  {line}"]


def test_many_changes_are_counted(made: Session) -> None:
    given = larger(made)
    more = given.with_text(ZONES, given.now[ZONES].replace("Old", "New"))
    assert state.change_lines(more, 1) == ["and 2 more"]


def test_the_last_zone_is_not_taken_out(made: Session) -> None:
    given = made.given
    assert given is not None
    first, second = (o for o in state.given_things(given) if o.kind.name == "zone")
    one_left = state.without(given, second)
    with pytest.raises(SaveError, match="Z1 is the last zone"):
        state.without(one_left, first)


# --- read again --------------------------------------------------------------


def test_after_a_save_undo_still_goes_back(site: Path) -> None:
    session = edited(open_session(site))
    assert session.given is not None
    saved = state.saved(session, session.given)
    again = state.reopened(saved, open_session(site), saved.edits)
    assert (area(again), again.given and again.given.changed) == (2500, ())
    back = undo(again)
    assert (area(back), back.given and back.given.changed) == (2400, (ZONES,))


def test_what_is_saved_before_it_is_planned_is_planned_with_the_next_step(
    site: Path,
) -> None:
    session = open_session(site)
    step = given_edit(larger(session), "area")
    saved = state.saved(session, larger(session))
    after = with_edits(saved, (step, Edit("units", "metric")))
    assert (area(after), after.given and after.given.changed) == (2500, ())


def test_an_edit_that_is_not_planned_yet_outlives_a_change_by_others(
    site: Path,
) -> None:
    session = open_session(site)
    step = given_edit(larger(session), "area")
    options = site / "options.toml"
    options.write_text("# theirs\n", "utf-8")
    again = state.reopened(session, open_session(site), (step,))
    assert (area(again), again.given and again.given.changed) == (2500, (ZONES,))


def test_a_file_that_others_changed_is_read_and_mine_of_another_stays(
    site: Path,
) -> None:
    session = edited(open_session(site))
    text = (site / "site.toml").read_text("utf-8").replace("120 ", "110 ")
    (site / "site.toml").write_text(text, "utf-8")
    again = state.reopened(session, open_session(site), session.edits)
    assert again.site is not None
    assert again.site.supply is not None
    assert area(again) == 2500
    assert round(again.site.supply.flow_l_per_min or 0) == 416
    back = undo(again)
    assert area(back) == 2400
    assert back.site is not None
    assert back.site.supply == again.site.supply  # theirs stays


def test_a_file_that_both_changed_stays_a_difference(site: Path) -> None:
    session = edited(open_session(site))
    zones = site / ZONES
    zones.write_text(zones.read_text("utf-8").replace("Old", "New"), "utf-8")
    again = state.reopened(session, open_session(site), session.edits)
    assert again.given is not None
    assert area(again) == 2500
    assert [one.file for one in state.differences(again.given)] == [ZONES]
    assert state.changed_on_disk(again.given) == (ZONES,)


@pytest.mark.parametrize(("keep_mine", "wanted"), [(True, 2500), (False, 2400)])
def test_a_difference_is_settled_either_way(
    site: Path, keep_mine: bool, wanted: int
) -> None:
    session = edited(open_session(site))
    zones = site / ZONES
    zones.write_text(zones.read_text("utf-8").replace("Old", "New"), "utf-8")
    assert session.given is not None
    start, lost = state.settled(session, session.given, ZONES, keep_mine=keep_mine)
    again = state.reopened(start, open_session(site), start.edits)
    assert lost == ()
    assert area(again) == wanted
    assert again.site is not None
    assert again.site.zones[1].name == "New beds"


def test_the_last_step_says_what_the_files_are(made: Session) -> None:
    assert made.given is not None
    steps = [given_edit(larger(made, n), n) for n in ("1", "2")]
    after = texts_after(made.given, made.opened, steps)
    assert after.now == larger(made, "2").now
    assert texts_after(made.given, made.opened, ()).now == made.given.now


def test_what_is_tried_follows_a_zone_that_is_renamed_twice(site: Path) -> None:
    session = apply_edit(open_session(site), Edit("rule", "average", "Z1"))
    session = apply_edit(session, renaming(session, "Z1", "north"))
    session = apply_edit(session, renaming(session, "north", "far north"))
    (site / "site.toml").write_text(
        (site / "site.toml").read_text("utf-8") + "# theirs\n", "utf-8"
    )
    again = state.reopened(session, open_session(site), session.edits)
    assert again.what_ifs == (Edit("rule", "average", "far north"),)
