"""What is typed is kept as typed, undone in order, and worked up by the engine."""

import datetime as dt
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tui import draft as drafts
from tui.draft import Draft, Setup, can_labels, new_draft
from tui.session import Session

ROWS = (
    "41 52 60 48 66 71 58 39",
    "55 63 74 69 47 36 59 68",
    "50 44 62 57 33 53 65 70",
)
S3 = (
    "38 41 36 44 . 0 52 47",
    "39 35 49 55 33 42 46 k",
    "40 37 51 45 43 34 48 50",
)


def setup(**changes: Any) -> Setup:
    known: dict[str, Any] = {
        "labels": can_labels(3, 8),
        "mouth": (4.25, "in"),
        "minutes": 30.0,
    }
    day = dt.date(2026, 6, 8)
    return Setup(day, "as found", "ml", **{**known, **changes})


def typed(rows: tuple[str, ...] = ROWS, **changes: Any) -> Draft:
    draft = new_draft("Z4", setup(**changes))
    for text in " ".join(rows).split():
        draft = draft.entered("" if text == "." else text).stepped()
    return draft


# --- the known result ------------------------------------------------------------


def test_24_readings_give_the_result_worked_by_hand(opened: Session) -> None:
    # by hand: 1340 mL over 24 cans; driest six 33 36 39 41 44 47 of mean 40
    test = drafts.worked_up(typed(), opened, with_ranges=True)
    (run,) = test.runs
    assert run.catch.mean_ml == pytest.approx(1340 / 24)
    assert run.uniformity.du_lq == pytest.approx((240 / 6) / (1340 / 24))
    assert run.uniformity.du_lh == pytest.approx(0.83, abs=0.005)
    assert run.catch.net_rate_mm_per_h == pytest.approx(0.48 * 25.4, abs=0.12)
    assert run.ranges is not None
    assert run.ranges.du_lq.low < 0.72 < run.ranges.du_lq.high


def test_a_blank_and_a_knocked_can_are_not_zero(opened: Session) -> None:
    # 22 cans with a mean of 41.1 mL and DU 0.69; all zeros would make it 0.45
    (run,) = drafts.worked_up(typed(S3), opened, with_ranges=False).runs
    assert run.catch.n_cans == 22
    assert run.catch.mean_ml == pytest.approx(41.1, abs=0.05)
    assert run.uniformity.du_lq == pytest.approx(0.692, abs=0.001)


def test_a_zero_left_out_for_a_reason_gives_both_results(opened: Session) -> None:
    draft = typed(S3).placed(0, 5).left_out("blocked arc")
    (run,) = drafts.worked_up(draft, opened, with_ranges=False).runs
    assert run.uniformity.du_lq == pytest.approx(0.815, abs=0.001)
    assert run.as_kept is not None
    assert run.as_kept.du_lq == pytest.approx(0.692, abs=0.001)


def test_a_zero_is_kept_and_asked_about() -> None:
    said = drafts.remark(typed(S3).placed(0, 5))
    assert said is not None
    assert said.what.startswith("0 is kept")


def test_a_wrong_mouth_is_a_stop_that_names_the_causes(opened: Session) -> None:
    # 3.0 in for 4.25 in: (4.25 / 3)**2 is 2.007 times the depth, 196 % of gross
    test = drafts.worked_up(typed(mouth=(3.0, "in")), opened, with_ranges=False)
    stop = next(one for one in test.findings if one.level == "stop")
    assert "196 %" in stop.what
    for cause in ("mouth", "minutes", "spacing"):
        assert cause in stop.fix


def test_a_mouth_may_be_an_area(opened: Session) -> None:
    by_area = drafts.can_test(typed(mouth=(14.186, "in2")))
    assert by_area.mouth_area_cm2 == pytest.approx(91.52, abs=0.01)


@pytest.mark.parametrize("text", ["-12", "5,5,5", "1,250"])
def test_what_cannot_stand_is_refused_by_its_can(text: str) -> None:
    (said,) = drafts.refusals(typed().placed(1, 2).entered(text))
    assert (said.level, said.where) == ("stop", "can C2")


def test_what_is_no_number_is_not_computed_from(opened: Session) -> None:
    draft = typed().placed(1, 2).entered("1,250")
    (run,) = drafts.worked_up(draft, opened, with_ranges=False).runs
    assert run.catch.n_cans == 23


def test_nothing_is_computed_from_a_reading_below_zero(opened: Session) -> None:
    draft = typed().placed(1, 2).entered("-12")
    assert drafts.worked_up(draft, opened, with_ranges=False).runs == ()


# --- typing ----------------------------------------------------------------------


def test_texts_stay_as_they_were_typed() -> None:
    assert new_draft("Z4", setup()).entered("3½").text == "3½"


def test_a_blank_place_is_counted_as_blank() -> None:
    assert typed(S3).n_blank == 1


def test_an_untouched_draft_has_nothing_to_save() -> None:
    assert not new_draft("Z4", setup()).is_changed


def test_moving_is_no_change() -> None:
    draft = new_draft("Z4", setup())
    assert not draft.moved(1, 1).stepped().turned().is_changed


def test_a_reason_is_shown_where_the_can_stands() -> None:
    draft = typed().placed(1, 2).left_out("leaf")
    assert draft.reason == "leaf"
    assert draft.moved(0, 1).reason == ""


def test_a_can_can_be_taken_back_in() -> None:
    draft = typed().placed(1, 2)
    assert draft.left_out("leaf").left_out("").now == draft.now


def test_a_larger_grid_keeps_what_was_typed() -> None:
    larger = typed().set_up(setup(labels=can_labels(4, 9)))
    assert larger.now.cells[2][:8] == tuple(ROWS[2].split())
    assert larger.now.cells[3] == ("",) * 9


def test_a_smaller_grid_can_be_undone() -> None:
    draft = typed().placed(2, 7).left_out("leaf")
    smaller = draft.set_up(setup(labels=can_labels(2, 2)))
    assert (smaller.at, smaller.now.excluded) == ((1, 1), ())
    assert smaller.undone().now == draft.now


# --- moving ----------------------------------------------------------------------


def walk(draft: Draft, steps: int) -> list[str]:
    names = []
    for _ in range(steps):
        names.append(draft.label)
        draft = draft.stepped()
    return names


def test_rows_are_walked_one_after_another() -> None:
    assert walk(new_draft("Z4", setup()), 10)[7:] == ["H1", "A2", "B2"]


def test_people_walk_every_other_row_back() -> None:
    snake = new_draft("Z4", setup()).turned()
    assert walk(snake, 18)[7:] == [
        *["H1", "H2", "G2", "F2", "E2", "D2", "C2", "B2", "A2", "A3", "B3"]
    ]


def test_walking_stops_at_both_ends() -> None:
    draft = new_draft("Z4", setup())
    assert draft.stepped(-1).at == (0, 0)
    assert draft.placed(9, 99).stepped().label == "H3"


# --- laws ------------------------------------------------------------------------

ACTS = st.lists(
    st.one_of(
        st.tuples(st.just("entered"), st.sampled_from(["41", "0", "k", "", "3½"])),
        st.tuples(st.just("left_out"), st.sampled_from(["leaf", ""])),
        st.tuples(st.just("stepped"), st.integers(-3, 3)),
    ),
    max_size=20,
)


def after(draft: Draft, acts: list[tuple[str, Any]]) -> Draft:
    for name, value in acts:
        draft = getattr(draft, name)(value)
    return draft


@given(ACTS)
def test_undoing_everything_gives_the_beginning(acts: list[tuple[str, Any]]) -> None:
    begun = new_draft("Z4", setup())
    draft = after(begun, acts)
    for _ in range(len(draft.past)):
        draft = draft.undone()
    assert draft.now == begun.now
    assert draft.undone() is draft


@given(ACTS)
def test_redo_takes_every_undo_back(acts: list[tuple[str, Any]]) -> None:
    done = draft = after(new_draft("Z4", setup()), acts)
    for _ in range(len(done.past)):
        draft = draft.undone()
    for _ in range(len(done.past)):
        draft = draft.redone()
    assert draft.now == done.now
    assert draft.redone() is draft


@given(ACTS, st.booleans())
def test_walking_on_reaches_every_can_once(
    acts: list[tuple[str, Any]], is_snake: bool
) -> None:
    draft = new_draft("Z4", setup())
    draft = draft.turned() if is_snake else draft
    assert len(set(walk(draft, 24))) == 24
