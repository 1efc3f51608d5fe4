"""Why a picture of the need is empty, and the key that mends it."""

from types import SimpleNamespace

import pytest

from scheduler.errors import Finding
from tui.screens.need_words import why_no_balance, why_no_week


def plan(status: str = "planned", where: str = "", soil: object = 1) -> SimpleNamespace:
    stop = Finding("stop", where, "the cans caught too much", "check the mouth")
    zone = SimpleNamespace(soil=soil, pots=None)
    return SimpleNamespace(status=status, zone=zone, findings=[stop] if where else [])


@pytest.mark.parametrize(
    ("one", "why"),
    [
        (plan("blocked", "tests/a-Z9/run1.csv"), "too much (check the mouth); t opens"),
        (plan("blocked", "zones.toml:3"), "too much (check the mouth); f has all"),
        (plan("fixed"), "its minutes are fixed by hand; g opens"),
        (plan("off"), "it is off; g opens"),
        (plan(soil=None), "it has no soil and no pots; g opens"),
        (plan(), "the findings say what is missing; f has all"),
    ],
)
def test_an_empty_picture_says_why_and_the_key(one: SimpleNamespace, why: str) -> None:
    assert why in why_no_balance(one)  # type: ignore[arg-type]
    assert why in why_no_week(one)  # type: ignore[arg-type]
