"""The grant sheet: order, dates and units, nothing claimed that is not metered."""

import datetime as dt
from dataclasses import replace

from scheduler.errors import Finding
from scheduler.log import MeterReading, Repair
from scheduler.proof.dial import DialInterval
from scheduler.proof.saving import Saving, saving
from scheduler.reports.cost_words import count
from scheduler.reports.grant import grant_sheet, grant_sheet_json
from scheduler.reports.page import paper_page
from scheduler.reports.paper import Boxes, Paper, Photos, Section, Table
from scheduler.reports.paper_text import paper_text
from scheduler.said import date_text, signed
from scheduler.trace import entered
from scheduler.units import shown
from tests.scheduler.proof.test_saving import AFTER, BEFORE
from tests.scheduler.reports.test_page import parsed
from tests.scheduler.reports.test_saving import whole

DAY = dt.date(2027, 1, 4)
NAME = '<b>Zoë & "Söhne"</b>'
DONE = Repair(
    where="log.csv:9", typed="", date=dt.date(2026, 1, 20), time=None, zone="Z4",
    note="", what=NAME,
)  # fmt: skip
DOUBT = Finding("warning", "log.csv", "no meter in May", "read it")


def sheet(found: Saving | None = None, *findings: Finding) -> Paper:
    return grant_sheet("Tern Hollow", found or whole(), findings, "us", DAY)


def sections(paper: Paper) -> dict[str, Section]:
    return {one.number: one for leaf in paper.leaves for one in leaf.sections}


def text(found: Saving | None = None, *findings: Finding) -> str:
    return " ".join(paper_text(sheet(found, *findings)).split())


def reading(day: int, dial: float) -> MeterReading:
    return MeterReading(
        where=f"log.csv:{day}", typed="", date=dt.date(2026, 4, day), time=None,
        zone="", note="", meter="pump", reading=dial, unit="gal", multiplier=100.0,
    )  # fmt: skip


def test_sections_stand_in_the_order_in_which_a_funder_reads() -> None:
    titles = [(one.number, one.title) for one in sections(sheet()).values()]
    assert [number for number, _ in titles] == [str(i) for i in range(1, 11)]
    assert [title for _, title in titles][:3] == [
        "As found", "Work done, receipts", "After",
    ]  # fmt: skip


def test_both_periods_stand_with_their_dates_and_units() -> None:
    assert "2025: 1 Jan 2025 to 1 Jan 2026, 365 nights" in text()
    assert "2,100,000 gal; of it frost 108,000 gal (estimated)" in text()
    assert "reference ET 24.0 in" in text()
    assert "130,680 ft²" in text()


def test_water_is_raw_and_made_comparable_as_the_saving_says() -> None:
    found = whole()
    table = sections(sheet(found))["5"].blocks[0]
    assert isinstance(table, Table)
    for row, one in zip(table.rows, found.steps, strict=True):
        before, after = found.energy_kwh(one)
        assert row[1] == shown(one.before_m3, "m3", "us", with_unit=False)
        assert row[3] == signed(one.change or 0.0, ".0%")
        assert row[4:] == (count(before), count(after))


def test_the_raw_change_is_no_saving() -> None:
    assert "5% less water" in text()
    assert "the raw change of −26% is no saving" in text()


def test_what_is_not_metered_is_not_claimed() -> None:
    assert "Actual: nothing is claimed, for" in text(whole(is_metered=False))


def test_potential_stands_apart_from_actual() -> None:
    assert "no meter saw that" in text()
    assert "not known without a test before and one after" in text(
        saving(BEFORE, AFTER)
    )


def test_tests_stand_with_date_wind_cans_range_and_method() -> None:
    side = whole().changes[0].before
    table = sections(sheet())["4"].blocks[0]
    assert isinstance(table, Table)
    assert table.rows[0][1:6] == (
        date_text(side.date), "as found", "calm",
        f"{side.n_runs} x {side.n_cans}", f"{side.du_lq:.2f}",
    )  # fmt: skip
    assert "in one wind band" in text()
    assert "AE194" in text()


def test_without_tests_nothing_is_said_of_uniformity() -> None:
    assert "No zone was tested both before and after" in text(saving(BEFORE, AFTER))


def test_work_has_room_for_its_receipts() -> None:
    table = sections(sheet(replace(whole(), work=(DONE,))))["2"].blocks[0]
    assert isinstance(table, Table)
    assert table.rows[0] == ("20 Jan 2026", "Z4", NAME, "", "", "")
    assert [one.head for one in table.columns[3:]] == [
        "receipt no.", "paid on", "amount",
    ]  # fmt: skip


def test_every_meter_reading_has_a_line_with_its_multiplier() -> None:
    dial = DialInterval(
        "pump", reading(1, 500.0), reading(8, 520.0), 7.571,
        entered("meter_volume_m3", 7.571),
    )  # fmt: skip
    found = replace(whole(), after=replace(AFTER, dials=(dial,)))
    tables = [b for b in sections(sheet(found))["7"].blocks if isinstance(b, Table)]
    assert tables[0].rows == (
        ("pump", "1 Apr 2026", "500 gal x 100", "8 Apr 2026", "520 gal x 100",
         "2,000", ""),
    )  # fmt: skip


def test_a_period_without_readings_says_so() -> None:
    assert "2025 (before): No meter was read" in text()


def test_doubts_stand_with_the_method() -> None:
    assert "Look at it: log.csv: no meter in May; read it" in text(None, DOUBT)


def test_photos_and_a_declaration_close_the_sheet() -> None:
    last = sheet().leaves[-1]
    kinds = [type(block) for one in last.sections for block in one.blocks]
    assert Photos in kinds
    assert kinds[-1] is Boxes


def test_what_was_typed_is_escaped() -> None:
    page = paper_page(sheet(replace(whole(), work=(DONE,))))
    parsed(page)
    assert NAME not in page


def test_json_is_the_saving_with_its_name() -> None:
    made = grant_sheet_json("Tern Hollow", whole(), ())
    assert (made["report"], made["site"]) == ("before-after", "Tern Hollow")
    assert next(one["step"] for one in made["steps"]) == "raw"
