"""A leaching check in; fraction, range, new minutes and their floor out."""

import datetime as dt

import pytest
from hypothesis import given
from hypothesis import strategies as st

from scheduler.log import LeachingPot, Log
from scheduler.need.zone_leaching import ZoneLeaching
from scheduler.proof.leaching_check import CheckedPots, checked_pots
from scheduler.trace import entered
from tests.scheduler.proof.yard import DAY, SIX, pots_of_check

TARGET = ZoneLeaching(0.10, True, entered("leaching_target", 0.10))


def checked(
    volumes: dict[str, tuple[float, float]], minutes: float | None = 24.0
) -> CheckedPots:
    pots = pots_of_check(volumes, minutes=minutes)
    return checked_pots(Log(pots).leaching_checks()[0], None)


def stated(*fractions: float) -> CheckedPots:
    pots = tuple(
        LeachingPot(where="log.csv:1", typed="", date=DAY, zone="Z4", place=f"A{i}",
                    stated_fraction=one, minutes=24.0)
        for i, one in enumerate(fractions, 1)
    )  # fmt: skip
    return checked_pots(Log(pots).leaching_checks()[0], None)


def test_38_percent_by_volume_with_a_driest_pot_of_12_asks_for_22_of_24_minutes() -> (
    None
):
    # 24 x 0.62 / 0.85 = 17.5 by the mean; 24 x 0.88 = 21.1 by the driest pot, up to 22
    new = checked(SIX).new
    assert new is not None
    assert (round(new.by_mean, 1), round(new.floor, 1), new.minutes) == (17.5, 21.1, 22)
    assert new.is_held_by_driest


def test_the_same_cut_as_a_percent_adjust_is_92() -> None:
    assert checked(SIX).percent_of_clock == 92


def test_the_fraction_is_averaged_by_volume_and_not_pot_by_pot() -> None:
    two = checked({"A1": (1000.0, 400.0), "H3": (500.0, 50.0)})
    assert two.leaching.fraction == pytest.approx(0.3)  # pot by pot it would be 0.25


def test_150_ml_drained_of_1000_is_a_fraction_of_15_percent() -> None:
    # Million and Yeager, UF/IFAS ENH1268: leachate over leachate and retained
    assert checked({"A1": (1000.0, 150.0)}).leaching.fraction == 0.15


def test_a_survey_of_60_minutes_at_40_percent_asks_for_42() -> None:
    # adjust the run time to the target after a survey of pots: Virginia Tech SPES-128,
    # UF/IFAS ENH1268; old x (1 - LF) / (1 - target) = 60 x 0.6 / 0.85 = 42.35
    even = {f"{c}{r}": (500.0, 200.0) for c in "AH" for r in (1, 3)}
    new = checked(even, minutes=60.0).new
    assert new is not None
    assert new.by_mean == pytest.approx(42.35, abs=0.01)


def test_even_pots_are_held_to_their_target_and_never_below() -> None:
    new = checked({"A1": (500.0, 200.0), "H3": (500.0, 200.0)}).new
    assert new is not None
    assert (new.minutes, new.is_held_by_driest) == (17, False)  # 16.9


def test_a_target_of_the_zone_replaces_the_usual_one() -> None:
    check = Log(pots_of_check()).leaching_checks()[0]
    assert checked_pots(check, TARGET).target == 0.10


def test_without_a_target_the_middle_of_the_band_is_taken_and_said() -> None:
    found = checked(SIX).trace.find("leaching_target")
    assert found is not None
    assert found.value == pytest.approx(0.15)
    assert found.source == "common practice, no source"


def test_a_pot_that_drains_nothing_makes_the_minutes_at_least() -> None:
    dry = checked({**SIX, "G3": (200.0, 0.0)})
    assert dry.new is not None
    assert (dry.is_at_least, dry.new.is_floor_sure, dry.new.minutes) == (
        True,
        False,
        24,
    )
    assert any("nothing drained from G3" in one.what for one in dry.findings)


def test_a_dry_pot_among_draining_ones_uses_what_they_use() -> None:
    # 300 stays in each of three; a fourth got 200 and kept all of it
    pots = {"A1": (400.0, 100.0), "H1": (400.0, 100.0), "A3": (400.0, 100.0)}
    assert checked({**pots, "H3": (200.0, 0.0)}).use_part == pytest.approx(1200 / 1400)


@pytest.mark.parametrize(("n_dry", "is_limit"), [(1, False), (2, True)])
def test_use_is_a_lower_limit_once_half_the_pots_drain_nothing(
    n_dry: int, is_limit: bool
) -> None:
    pots = {f"A{i}": (400.0, 0.0 if i <= n_dry else 50.0) for i in range(1, 5)}
    assert checked(pots).is_use_at_least is is_limit


def test_stated_fractions_are_averaged_pot_by_pot_and_said() -> None:
    made = stated(0.2, 0.4)
    assert made.leaching.fraction == pytest.approx(0.3)
    assert any("no volumes" in one.what for one in made.findings)


def test_all_of_it_drained_gives_no_minutes() -> None:
    made = stated(1.0, 1.0)
    assert made.new is None
    assert any("ran past the mix" in one.what for one in made.findings)


def test_minutes_that_only_the_log_of_waterings_knows_are_used() -> None:
    check = Log(pots_of_check(minutes=None)).leaching_checks()[0]
    made = checked_pots(check, None, minutes=30.0)
    assert (made.minutes, made.new is not None) == (30.0, True)


def test_without_minutes_there_is_a_fraction_and_no_change() -> None:
    made = checked(SIX, minutes=None)
    assert (made.new, made.percent_of_clock, made.trace.name) == (
        None,
        None,
        "leaching_fraction",
    )


def test_the_chain_of_the_minutes_names_fraction_target_and_floor() -> None:
    names = [one.name for one in checked(SIX).trace.inputs]
    assert names == ["leaching_fraction", "leaching_target", "driest_pot_min"]


VOLUMES = st.lists(
    st.tuples(st.floats(100.0, 900.0), st.floats(0.0, 0.95)), min_size=1, max_size=9
)


@given(VOLUMES, st.integers(1, 120))
def test_the_driest_pot_gets_at_least_its_use(
    pots: list[tuple[float, float]], minutes: int
) -> None:
    volumes = {f"A{i}": (came, came * part) for i, (came, part) in enumerate(pots, 1)}
    made = checked(volumes, float(minutes))
    assert made.new is not None
    assert made.new.minutes >= minutes * (1.0 - made.driest) - 1e-6


@given(VOLUMES, st.floats(0.0, 1.0))
def test_more_leaching_never_means_more_minutes(
    pots: list[tuple[float, float]], more: float
) -> None:
    less = {f"A{i}": (came, came * part) for i, (came, part) in enumerate(pots, 1)}
    wetter = {
        place: (came, out + more * (0.96 * came - out))
        for place, (came, out) in less.items()
    }
    one, other = checked(less).new, checked(wetter).new
    assert one is not None
    assert other is not None
    assert other.minutes <= one.minutes


@given(VOLUMES)
def test_the_order_of_the_pots_does_not_matter(
    pots: list[tuple[float, float]],
) -> None:
    volumes = {f"A{i}": (came, came * part) for i, (came, part) in enumerate(pots, 1)}
    turned = dict(reversed(volumes.items()))
    one, other = checked(volumes), checked(turned)
    assert one.leaching.fraction == pytest.approx(other.leaching.fraction)
    assert one.new is not None
    assert other.new is not None
    assert one.new.by_mean == pytest.approx(other.new.by_mean)


def test_a_check_keeps_its_day() -> None:
    assert checked(SIX).check.date == dt.date(2026, 6, 3)
