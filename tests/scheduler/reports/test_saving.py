"""Words and numbers of before and after are those of the saving, formatted."""

from dataclasses import replace

from scheduler.proof.saving import Saving, saving
from scheduler.reports.saving import saving_json, saving_text
from scheduler.supply import Supply
from tests.scheduler.proof.test_saving import AFTER, BEFORE
from tests.scheduler.proof.test_uniformity_change import change

PUMP = Supply(source="well", head_m=70.0, pumping_efficiency=0.55)


def whole(**given: object) -> Saving:
    after = replace(AFTER, **given)  # type: ignore[arg-type]
    return saving(BEFORE, after, changes=(change(),), supply=PUMP)


def text(**given: object) -> str:
    return saving_text(whole(**given), "us")


def line(start: str, **given: object) -> str:
    return next(one for one in text(**given).splitlines() if one.startswith(start))


def test_water_stands_in_gallons_with_its_change() -> None:
    assert line("as metered").split()[2:5] == ["2,100,000", "1,550,000", "−26%"]


def test_each_respect_has_a_line_of_its_own() -> None:
    assert "−16%" in line("at the same ETo")
    assert "−11%" in line("~frost water apart")
    assert "−5%" in line("~on the same ground")


def test_the_raw_change_is_named_as_no_saving() -> None:
    plain = " ".join(text().split())
    assert "Actual: 5% less water" in plain
    assert "the raw −26% is no saving" in plain


def test_what_is_not_claimed_says_why() -> None:
    assert "Actual: nothing is claimed" in text(is_metered=False)


def test_potential_and_actual_stand_apart() -> None:
    assert line("Potential: ").startswith("Potential: −")


def test_without_tests_the_potential_asks_for_them() -> None:
    plain = saving_text(saving(BEFORE, AFTER), "us")
    assert "Potential: not known without a test before and one after." in plain


def test_tests_stand_with_wind_cans_and_range() -> None:
    found = change()
    assert found.before.low is not None
    assert f"{found.before.low:.2f}–{found.before.high:.2f}" in text()
    assert "in one wind band" in text()


def test_lines_fit_a_terminal_of_eighty_columns() -> None:
    for one in (text(), saving_text(whole(), "metric")):
        assert max(map(len, one.splitlines())) <= 80


def test_json_holds_steps_energy_and_claim() -> None:
    made = saving_json(whole(), ())
    assert [one["step"] for one in made["steps"]] == ["raw", "weather", "frost", "area"]
    assert made["steps"][0]["before_kwh"] > made["steps"][0]["after_kwh"] > 0
    assert made["actual"]["change"] == made["steps"][-1]["change"]
    assert made["uniformity"][0]["verdict"] == "better"
    assert made["chain"][-1]["name"] == "change"
