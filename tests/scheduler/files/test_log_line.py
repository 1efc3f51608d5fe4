"""One line of the log: a fact, or everything that is wrong with it."""

import datetime as dt

import pytest

from scheduler import log
from scheduler.files.log_kinds import COLUMNS, KINDS
from scheduler.files.log_line import fact_of

# one whole line of each kind
LINES = {
    "watering": ("Z4", "", "ran 24 min", ""),
    "skipped": ("Z4", "", "", "rain of the day before"),
    "meter": ("Z1; Z2", "pump house", "reading 48213 gal; multiplier 100", ""),
    "leaching": ("Z4", "A1", "in 420 mL; out 160 mL; ran 24 min", ""),
    "pot weight": ("Z4", "row 2 col 3", "weight 5210 g", ""),
    "pour-through": ("Z4", "A1", "EC 1.8 mS/cm; pH 6.1", ""),
    "dry spot": ("Z4", "N corner", "", "wilts by noon"),
    "override": ("Z4", "", "set 26 min", "wilting at the gate"),
    "repair": ("Z4", "", "", "nozzle of head 3"),
    "hardware": ("", "yard-30", "", "new nozzles"),
    "respaced": ("Z4", "", "spacing 14 x 16 in", ""),
    "moved": ("Z4", "", "", ""),
    "frost": ("", "", "ran 5.5 h", ""),
    "hand water": ("Z4", "", "ran 40 min; volume 120 gal", ""),
}


def cells(
    what: str, *, date: str = "2026-06-03", time: str = "", **other: str
) -> dict[str, str]:
    zone, item, details, note = LINES[what]
    values = (date, time, what, zone, item, details, note, "")
    return dict(zip(COLUMNS, values, strict=True)) | other


def fact(what: str, **other: str) -> log.Entry:
    found, said = fact_of(cells(what, **other), "log.csv:3", "as typed")
    assert said == ()
    assert found is not None
    return found


def refused(kind: str, **other: str) -> str:
    found, said = fact_of(cells(kind) | other, "log.csv:3", "as typed")
    assert found is None
    assert {one.level for one in said} == {"stop"}
    return "\n".join(map(str, said))


def test_every_kind_has_a_line_here() -> None:
    assert list(LINES) == list(KINDS)


@pytest.mark.parametrize("what", KINDS)
def test_a_whole_line_becomes_a_fact_of_its_kind(what: str) -> None:
    one = fact(what, time="06:40")
    assert type(one) is KINDS[what].fact
    assert (one.where, one.typed) == ("log.csv:3", "as typed")
    assert (one.date, one.time) == (dt.date(2026, 6, 3), dt.time(6, 40))


def test_a_meter_serves_the_zones_of_its_cell() -> None:
    one = fact("meter")
    assert isinstance(one, log.MeterReading)
    assert (one.zones, one.zone, one.meter) == (("Z1", "Z2"), "", "pump house")


def test_an_id_of_a_zone_may_hold_spaces() -> None:
    one = fact("meter", zone="North field")
    assert isinstance(one, log.MeterReading)
    assert (one.zones, one.zone) == (("North field",), "North field")


def test_a_skipped_night_has_no_minutes() -> None:
    one = fact("skipped")
    assert isinstance(one, log.Watering)
    assert (one.minutes, one.is_skipped) == (0.0, True)


def test_the_note_of_an_override_is_its_reason() -> None:
    one = fact("override")
    assert isinstance(one, log.Override)
    assert (one.minutes, one.reason) == (26.0, "wilting at the gate")


def test_new_hardware_of_a_package_is_a_change_and_a_repair_is_none() -> None:
    changed, mended = fact("hardware"), fact("repair")
    assert isinstance(changed, log.Repair)
    assert isinstance(mended, log.Repair)
    assert (changed.package, changed.is_change) == ("yard-30", True)
    assert (mended.zone, mended.is_change) == ("Z4", False)


def test_a_weighed_pot_got_what_it_kept_and_what_drained() -> None:
    one = fact("leaching", details="before 5210 g; after 5490 g; out 120 mL")
    assert isinstance(one, log.LeachingPot)
    # 280 g stayed and 120 mL drained: 400 mL came
    assert (one.in_ml, one.fraction) == (400.0, 0.3)


def test_a_pot_that_drained_nothing_is_kept() -> None:
    one = fact("leaching", details="in 400 mL; out 0 mL")
    assert isinstance(one, log.LeachingPot)
    assert one.fraction == 0.0


# --- refusals ----------------------------------------------------------------


@pytest.mark.parametrize(
    ("what", "other", "message"),
    [
        ("watering", {"date": "03/06/2026"}, "write it year first"),
        ("watering", {"date": ""}, "the row has no date"),
        ("watering", {"date": "2026-02-30"}, "not a date that exists"),
        ("watering", {"time": "25:00"}, "'25:00' is no time of day"),
        ("watering", {"time": "6.40"}, "write it like 06:40"),
        ("watering", {"what": "leeching"}, "did you mean leaching?"),
        ("watering", {"what": ""}, "does not say what"),
        ("watering", {"zone": ""}, "zone: has no zone"),
        ("watering", {"zone": "Z1; Z2"}, "names several zones; write a line for each"),
        ("watering", {"details": ""}, "does not say 'ran'; write ran 24 min"),
        ("watering", {"item": "B3"}, "'B3' has no meaning here"),
        ("meter", {"item": ""}, "name the pot, the place or the meter"),
        ("override", {"note": ""}, "say in the note what or why"),
        ("repair", {"zone": ""}, "says neither zone nor item"),
        ("frost", {"details": ""}, "write ran 5.5 h or volume 12000 gal"),
        ("pour-through", {"details": ""}, "says neither EC nor pH"),
    ],
)
def test_what_is_missing_or_out_of_place_is_refused_with_a_remedy(
    what: str, other: dict[str, str], message: str
) -> None:
    assert message in refused(what, **other)


@pytest.mark.parametrize(
    ("details", "message"),
    [
        ("in 160 mL; out 420 mL", "420 mL drained of 160 mL; check in and out"),
        ("in 420 mL", "not one whole way to tell what a pot leached"),
        ("before 5210 g; after 5480 g", "not one whole way"),
        ("in 420 mL; out 160 mL; leached 38 %", "not one whole way"),
        ("", "not one whole way"),
        ("before 5480 g; after 5210 g; out 500 mL", "the pot lost 270 g"),
    ],
)
def test_a_pot_that_cannot_be_is_refused(details: str, message: str) -> None:
    assert message in refused("leaching", details=details)


def test_everything_wrong_with_a_line_is_said_at_once() -> None:
    said = refused("watering", date="x", time="y", zone="", details="ran 5")
    places = [line.split(": ")[1] for line in said.splitlines()]
    assert places == ["date", "time", "zone", "ran"]
