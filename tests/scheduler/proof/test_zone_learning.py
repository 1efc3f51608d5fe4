"""A zone, its log and its test in; what was learned and its use out."""

import dataclasses
import datetime as dt
from itertools import permutations

import numpy as np
import pytest

from scheduler.log import Entry, Log, Override, Repair, Respacing
from scheduler.proof.learning import Observation
from scheduler.proof.zone_learning import (
    ZoneLearned,
    learned_use,
    lessons_of,
    proof_findings,
)
from scheduler.record import History
from scheduler.site import PlantGroup, PotMove, Site, Zone
from tests.scheduler.proof.yard import (
    DAY,
    HOLLY,
    PLACE,
    POTS,
    SIX,
    TODAY,
    catch,
    lessons,
    pots_of_check,
    station,
    use_of,
    weight,
    yard,
)

BEFORE, AFTER = DAY - dt.timedelta(days=5), DAY + dt.timedelta(days=1)
# every pot leaches a fifth: 4.8 x 0.8 = 3.84 mm of 4.25
EVEN = dict.fromkeys(SIX, (400.0, 80.0))


def taught(
    *entries: Entry, zone: Zone | None = None, learn: bool = True
) -> ZoneLearned:
    whole = zone or yard()
    from_log = lessons(*entries, zone=whole, learn=learn)
    _, found = learned_use(whole, use_of(whole), catch(), from_log)
    assert found is not None
    return found


def change(day: dt.date) -> Repair:
    return Repair(where="log.csv:9", typed="", date=day, zone="Z4", what="new nozzles",
                  is_change=True)  # fmt: skip


def test_no_evidence_leaves_the_very_same_use() -> None:
    use = use_of(yard())
    assert learned_use(yard(), use, catch(), lessons()) == (use, None)
    assert learned_use(yard(), use, catch(), lessons())[0] is use


def test_lines_about_other_things_teach_nothing() -> None:
    note = Override(where="log.csv:4", typed="", date=DAY, zone="Z4", minutes=50.0,
                    reason="rolled leaves")  # fmt: skip
    assert learned_use(yard(), use_of(yard()), catch(), lessons(note))[1] is None


def test_a_check_multiplies_the_use_with_what_it_taught() -> None:
    use, found = learned_use(
        yard(), use_of(yard()), catch(), lessons(*pots_of_check(EVEN))
    )
    assert found is not None
    assert 3.84 / 4.25 < found.factor < 1.0
    assert use.on_bed == pytest.approx(found.factor)
    assert use.trace.find("kc_correction") is found.trace


def test_the_use_of_a_day_follows() -> None:
    use, found = learned_use(
        yard(), use_of(yard()), catch(), lessons(*pots_of_check(EVEN))
    )
    assert found is not None
    day = np.array([TODAY], "datetime64[D]")
    assert use.etc_mm_per_day(np.array([5.0]), day)[0] == pytest.approx(
        4.25 * found.factor
    )


def test_learn_false_shows_what_was_learned_and_uses_none_of_it() -> None:
    found = taught(*pots_of_check(EVEN), learn=False)
    assert (found.factor, found.why_not) == (1.0, "learn = false in site.toml")
    assert found.minutes.factor < 1.0


def test_the_factor_never_cuts_past_the_driest_pot() -> None:
    # the mean asks for much less; one pot kept all but 5 % of 4.8 mm
    pots = dict.fromkeys(SIX, (400.0, 150.0)) | {"E2": (400.0, 20.0)}
    found = taught(*pots_of_check(pots))
    assert found.floor == pytest.approx(4.8 * 0.95 / 4.25 * 0.8)
    assert found.floor is not None
    assert found.factor >= found.floor
    assert found.factor == max(found.minutes.factor, found.floor)


def test_a_hardware_change_voids_the_checks_before_it() -> None:
    found = taught(*pots_of_check(EVEN), change(AFTER))
    assert (found.factor, found.minutes.used, found.newest) == (1.0, (), None)


def test_and_leaves_the_checks_after_it() -> None:
    assert taught(*pots_of_check(EVEN), change(BEFORE)).minutes.used


def test_a_hardware_change_leaves_pot_weights_alone() -> None:
    pots = [
        one
        for p in ("A1", "B2")
        for one in (weight(p, 5, 9000.0), weight(p, 21, 8730.0))
    ]
    assert taught(*pots, change(AFTER)).minutes.used[0].kind == "pot weights"


def test_a_moved_block_voids_weights_as_well() -> None:
    moved = Respacing(where="log.csv:8", typed="", date=AFTER, zone="Z4")
    pots = [
        one
        for p in ("A1", "B2")
        for one in (weight(p, 5, 9000.0), weight(p, 21, 8730.0))
    ]
    assert taught(*pots, *pots_of_check(EVEN), moved).minutes.used == ()


def test_a_noted_spacing_that_is_not_in_the_file_holds_learning_back() -> None:
    noted = Respacing(
        where="log.csv:8", typed="", date=BEFORE, zone="Z4", spacing_m=0.5
    )
    found = taught(*pots_of_check(EVEN), noted)
    assert found.factor == 1.0
    assert "(log.csv:8) is not the one in zones.toml" in found.why_not


def test_entering_it_settles_that() -> None:
    noted = Respacing(
        where="log.csv:8", typed="", date=BEFORE, zone="Z4", spacing_m=0.5
    )
    moved = POTS.model_copy(update={"moved": (PotMove(on=BEFORE, spacing_m=0.5),)})
    stands = yard(pots=moved.model_copy(update={"spacing_m": 0.5}))
    assert taught(*pots_of_check(EVEN), noted, zone=stands).why_not == ""


def test_several_groups_of_plants_hold_it_back() -> None:
    fern = PlantGroup(name="fern", plant=HOLLY.model_copy(update={"name": "fern"}))
    found = taught(*pots_of_check(EVEN), zone=yard(group=(fern,)))
    assert found.factor == 1.0
    assert "groups of plants" in found.why_not


def test_one_pot_on_the_scales_teaches_nothing() -> None:
    found = taught(weight("A1", 5, 9000.0), weight("A1", 21, 8400.0))
    assert (found.factor, len(found.weights)) == (1.0, 1)


def test_a_line_taken_out_of_the_log_takes_back_what_it_taught() -> None:
    first = pots_of_check(EVEN, BEFORE)
    alone = taught(*first)
    assert taught(*first, *pots_of_check(SIX, DAY)).factor != alone.factor
    assert taught(*first).factor == alone.factor


def test_lines_after_today_are_not_read() -> None:
    tomorrow = pots_of_check(EVEN, TODAY + dt.timedelta(days=1))
    assert learned_use(yard(), use_of(yard()), catch(), lessons(*tomorrow))[1] is None


def test_the_order_of_lines_of_one_day_does_not_matter() -> None:
    three = dict(list(EVEN.items())[:3]) | {"H1": (300.0, 20.0)}
    lines = [*pots_of_check(three), change(DAY - dt.timedelta(days=1))]
    found = {taught(*each).factor for each in list(permutations(lines))[::17]}
    assert len(found) > 0
    assert max(found) == pytest.approx(min(found), rel=1e-12)


def test_the_meter_comes_in_as_looks_at_the_rate() -> None:
    seen = Observation(DAY, float(np.log(1.1)), 0.02, "meter", "log.csv:30")
    metered = dataclasses.replace(lessons(), rate_seen={"Z4": (seen,)})
    _, found = learned_use(yard(), use_of(yard()), catch(), metered)
    assert found is not None
    assert found.rate.factor == pytest.approx(1.1, abs=0.01)
    assert found.factor == pytest.approx(1 / 1.1, abs=0.01)


def test_a_meter_before_the_hardware_change_does_not_count() -> None:
    seen = Observation(BEFORE, float(np.log(1.1)), 0.02, "meter", "log.csv:30")
    metered = dataclasses.replace(lessons(change(DAY)), rate_seen={"Z4": (seen,)})
    _, found = learned_use(yard(), use_of(yard()), catch(), metered)
    assert found is not None
    assert found.rate.factor == 1.0


def test_the_drift_goes_back_to_the_first_look() -> None:
    found = taught(*pots_of_check(EVEN, BEFORE), *pots_of_check(EVEN, DAY))
    assert [one.on for one in found.drift] == [dt.date(2026, 6, 1), TODAY]


def test_a_conflict_is_said_beside_the_findings() -> None:
    found = taught(*pots_of_check())
    said = proof_findings(found, 27, 7)
    assert any(one.where.endswith("zone Z4: conflict") for one in said)


def test_a_check_of_two_months_ago_is_no_conflict_of_today() -> None:
    old = pots_of_check(SIX, dt.date(2026, 4, 6))
    found = taught(*old)
    assert not any("conflict" in one.where for one in proof_findings(found, 27, 7))


def test_package_changes_reach_the_zone() -> None:
    log = Log((dataclasses.replace(change(AFTER), zone="", package="yard-30"),))
    site = Site(name="T", units="us", place=PLACE, zones=(yard(),))
    made = lessons_of(site, History(log=log), [station()], TODAY)
    assert len(made.log_of(yard()).entries) == 1


def test_a_zone_without_a_can_map_learns_as_well() -> None:
    bare = dataclasses.replace(catch(), row=None, column=None)
    _, found = learned_use(yard(), use_of(yard()), bare, lessons(*pots_of_check(EVEN)))
    assert found is not None
    assert found.factor < 1.0
