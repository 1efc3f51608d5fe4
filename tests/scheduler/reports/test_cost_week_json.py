"""Week, spans and nights for machines."""

import json

from scheduler.reports.cost_week_json import with_week_json
from tests.scheduler.money.made_week import around


def test_it_can_be_written_and_read_back() -> None:
    made = with_week_json(around())
    assert json.loads(json.dumps(made)) == made


def test_the_site_is_the_row_without_a_zone() -> None:
    made = with_week_json(around())
    assert [one["zone"] for one in made["periods"]] == ["Z4", "Z5", "Z6", None]


def test_an_option_has_nights_now_and_then_or_why_not() -> None:
    told = {one["option"]: one for one in with_week_json(around())["option_nights"]}
    assert told["B"]["week"]["then"]["fits"] is True
    assert told["S"]["week"]["then"]["ways_out"]
    assert (told["N"]["week"]["then"], bool(told["N"]["why"])) == (None, True)
