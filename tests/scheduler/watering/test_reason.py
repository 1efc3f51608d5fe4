"""Why minutes change: each cause's part, and the words."""

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from scheduler.issued import KeyNumbers
from scheduler.watering.reason import (
    MOST_WORDS,
    CauseShare,
    cause_shares,
    change_trace,
    reason_words,
)

FACTORS = (("average", 1.0), ("low half", 1.2), ("low quarter", 1.4))


def numbers(**given: object) -> KeyNumbers:
    """60 x 30 x 1.2 / 10 / 6 = 36 minutes a night, unless something is given."""
    base = KeyNumbers(
        eto_mm=30.0, kc=1.0, bed_factor=1.0, rain_mm=0.0, carried_mm=0.0,
        rule="low half", factor=1.2, factors=FACTORS, net_rate_mm_per_h=10.0,
        du_lq=0.7, nights=6, kept=1.0, exact_min=36.0, minutes=36, test="measured a",
    )  # fmt: skip
    one = replace(base, **given)  # type: ignore[arg-type]
    use = one.eto_mm * one.kc * one.learned * one.bed_factor
    need = max(use - one.rain_mm + one.carried_mm, 0.0)
    rate = one.net_rate_mm_per_h
    exact = 60.0 * need * one.factor / rate / one.nights * one.kept
    return replace(one, exact_min=exact, minutes=round(exact))


@pytest.mark.parametrize(
    ("change", "words", "minutes"),
    [
        ({"eto_mm": 32.5}, "weather up 8 %", 3.0),
        ({"eto_mm": 25.0}, "weather down 17 %", -6.0),
        ({"kc": 1.25}, "Kc up 25 %", 9.0),
        ({"learned": 0.75}, "learned Kc down 25 %", -9.0),
        ({"rain_mm": 10.0}, "more rain counted", -12.0),
        ({"carried_mm": 5.0}, "week begins drier", 6.0),
        ({"bed_factor": 0.5}, "respaced: bed depth down 50 %", -18.0),
        ({"net_rate_mm_per_h": 12.0}, "rate up 20 %", -6.0),
        (
            {"net_rate_mm_per_h": 12.0, "test": "measured b"},
            "new test: rate up 20 %",
            -6.0,
        ),
        ({"rule": "low quarter", "factor": 1.4}, "rule now low quarter", 6.0),
        ({"nights": 4}, "4 nights (were 6)", 18.0),
        ({"kept": 0.75}, "water short: 75 % kept", -9.0),
    ],
)
def test_one_cause_takes_the_whole_change(
    change: dict[str, object], words: str, minutes: float
) -> None:
    (share,) = cause_shares(numbers(), numbers(**change))
    assert share.words == words
    assert share.minutes == pytest.approx(minutes)


def test_two_causes_of_a_product_share_what_they_do_together() -> None:
    # 36 -> 36 x 1.5 x 2 = 108; weather alone +18, Kc alone +36, together +18 more,
    # of which each gets half
    weather_and_kc = cause_shares(numbers(), numbers(eto_mm=45.0, kc=2.0))
    found = {one.cause: one.minutes for one in weather_and_kc}
    assert found == {"weather": pytest.approx(27.0), "crop": pytest.approx(45.0)}


def test_another_uniformity_counts_under_the_rule() -> None:
    better = (("average", 1.0), ("low half", 1.1), ("low quarter", 1.2))
    after = numbers(factors=better, factor=1.1, du_lq=0.82, test="measured b")
    (share,) = cause_shares(numbers(), after)
    assert share.words == "new test: DU 0.82 (was 0.70)"


def test_a_leaching_target_is_no_rule() -> None:
    (share,) = cause_shares(numbers(), numbers(factor=1.5))
    assert share.words == "leaching target changed"


def test_whole_minutes_are_a_cause() -> None:
    before = replace(numbers(), minutes=36, exact_min=36.4)
    after = replace(numbers(), minutes=37, exact_min=36.4)
    (share,) = cause_shares(before, after)
    assert share.cause == "rounding"
    assert share.minutes == pytest.approx(1.0)


def test_the_same_numbers_have_no_cause() -> None:
    assert cause_shares(numbers(), numbers()) == ()


@given(
    eto=st.floats(5, 60), kc=st.floats(0.2, 2), rain=st.floats(0, 4),
    rate=st.floats(3, 30), nights=st.integers(1, 7), kept=st.floats(0.3, 1),
    rule=st.sampled_from([name for name, _ in FACTORS]),
)  # fmt: skip
def test_all_parts_add_up_to_the_change(
    eto: float, kc: float, rain: float, rate: float, nights: int, kept: float, rule: str
) -> None:
    after = numbers(
        eto_mm=eto, kc=kc, rain_mm=rain, net_rate_mm_per_h=rate, nights=nights,
        kept=kept, rule=rule, factor=dict(FACTORS)[rule],
    )  # fmt: skip
    before = numbers()
    parts = sum(one.minutes for one in cause_shares(before, after))
    assert parts == pytest.approx(after.minutes - before.minutes, abs=1e-6)


@given(
    eto=st.floats(5, 60), kc=st.floats(0.2, 2), bed=st.floats(0.2, 2),
    rate=st.floats(3, 30), nights=st.integers(1, 7), du=st.floats(0.3, 0.95),
)  # fmt: skip
def test_a_reason_has_at_most_eight_words(
    eto: float, kc: float, bed: float, rate: float, nights: int, du: float
) -> None:
    after = numbers(
        eto_mm=eto, kc=kc, bed_factor=bed, net_rate_mm_per_h=rate, nights=nights,
        du_lq=du, rule="low quarter, leached", factor=1 / du, test="measured b",
    )  # fmt: skip
    said = reason_words(cause_shares(numbers(), after))
    assert 1 <= len(said.split()) <= MOST_WORDS


def test_the_largest_cause_is_named_first() -> None:
    said = reason_words(cause_shares(numbers(), numbers(eto_mm=33.0, kc=1.5)))
    assert said == "Kc up 50 %"


def test_a_second_cause_is_named_where_it_did_much() -> None:
    said = reason_words(cause_shares(numbers(), numbers(eto_mm=33.0, kc=1.08)))
    assert said == "weather up 10 %, Kc up 8 %"


def test_a_second_cause_without_room_is_left_out() -> None:
    long = CauseShare("spacing", 3.0, "respaced: bed depth down 50 %")
    assert reason_words([long, CauseShare("crop", 2.9, "Kc up 9 %")]) == long.words


def test_no_cause_is_said_as_that() -> None:
    assert reason_words(()) == "no cause among the key numbers"


def test_the_change_rests_on_was_and_now_and_the_causes() -> None:
    share = CauseShare("weather", -2.0, "weather down 8 %")
    trace = change_trace(24.0, "issued week 2026-W23", 22, [share])
    assert [one.name for one in trace.inputs] == [
        "was_min",
        "now_min",
        "weather_effect_min",
    ]


def test_from_nothing_there_is_no_percent() -> None:
    assert change_trace(0.0, "issued week 2026-W23", 22, ()).value is None
