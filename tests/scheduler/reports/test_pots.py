"""Lines and JSON of what pots and groups get."""

import datetime as dt

from scheduler.plan import ZonePlan
from scheduler.reports.pots import groups_json, groups_text, pots_json, pots_text
from scheduler.site import Pots, Zone
from scheduler.trace import entered
from scheduler.watering.group_outcomes import GroupOutcome
from scheduler.watering.pot_water import pot_water

POTS = Pots(top_diameter_mm=254.0, capture_factor=1.5, gap_m=0.0)
WATER = pot_water(POTS, 30, net_rate_mm_per_h=12.0, driest_share=0.75)
KC = entered("kc", 1.0)
GROUPS = (
    GroupOutcome("fern", True, 31.5, 1.0, 2.0, KC),
    GroupOutcome("box", False, 21.0, 1.5, None, KC),
)
YARD = Zone(id="Z4", name="yard", area_m2=9.0, grown_in="pots", watered="off")
PLAN = ZonePlan(
    YARD, "planned", (), KC, (dt.date(2026, 6, 8),), pot_water=WATER, groups=GROUPS
)


def test_a_pot_is_told_in_millilitres_mean_and_driest() -> None:
    assert pots_text(PLAN) == (
        "one watering brings 387 mL into a pot, 290 mL in the driest quarter (12.9 mL "
        "a\n  minute); 21 % of the bed is gaps"
    )


def test_groups_are_told_with_who_rules() -> None:
    told = " ".join(groups_text(PLAN, "metric").split())
    assert told == (
        "plants: fern uses 31.5 mm on the bed, rules; box uses 21.0 mm on the bed, "
        "gets 150 % of its need"
    )


def test_the_json_holds_the_same_numbers() -> None:
    found = pots_json(WATER)
    assert found is not None
    assert found["driest_quarter_ml"] == WATER.driest_ml
    assert groups_json(GROUPS)[1]["got_over_need"] == 1.5


def test_a_zone_without_pots_or_groups_says_nothing() -> None:
    plain = ZonePlan(YARD, "off", (), KC, PLAN.dates)
    assert (pots_text(plain), groups_text(plain, "us")) == ("", "")
    assert (pots_json(None), groups_json(())) == (None, [])
