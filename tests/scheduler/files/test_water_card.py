"""Pressures, buckets and the meter card are read; one that is wrong stops no other."""

from collections.abc import Callable
from pathlib import Path

import pytest

from scheduler.files.site_folder import read_site_folder
from scheduler.record import CanTest
from scheduler.units import KPA_PER_PSI

Change = Callable[[str, str, str], Path]
TOML = "tests/2026-05-12-Z2/test.toml"
END = 'reason = "a leaf lay over the mouth"\n'
CARD = """
[[pressure]]
head = "7"
place = "first"
pressure_psi = 44
rise_ft = 10
run = "run1.csv"

[[pressure]]
place = "valve"
pressure_bar = 4
is_static = true

[[pressure]]
row = 2
column = 3
pressure_kpa = 300

[[flow]]
head = "7"
volume_gal = 2.5
seconds = 30
new_flow_gpm = 4.6

[meter]
start = 48213
stop = 48247
unit = "cu ft"
multiplier = 10
digits = 6
other_zones = ["z1"]
"""


def read(site: Path) -> tuple[CanTest, list[str]]:
    found = read_site_folder(site)
    (test,) = found.history.tests
    return test, [f"{one.level} {one}" for one in found.findings]


@pytest.fixture
def carded(change: Change) -> Callable[[str, str], Path]:
    """The small site with a whole card, one text of it replaced."""

    def changed(old: str, new: str) -> Path:
        assert old in CARD
        return change(TOML, END, END + CARD.replace(old, new, 1))

    return changed


def test_a_whole_card_reads_without_a_finding(carded: Callable[..., Path]) -> None:
    assert read(carded("44", "44"))[1] == []


def test_gauges_are_read_in_any_unit_of_pressure(carded: Callable[..., Path]) -> None:
    test, _ = read(carded("44", "44"))
    assert [one.pressure_kpa for one in test.pressures] == pytest.approx(
        [44 * KPA_PER_PSI, 400.0, 300.0]
    )
    assert test.pressures[0].rise_m == pytest.approx(3.048)


def test_heads_are_named_by_label_place_or_position(
    carded: Callable[..., Path],
) -> None:
    test, _ = read(carded("44", "44"))
    names = [one.name for one in test.pressures]
    assert names == ["head 7", "valve", "head in row 2, column 3"]
    assert [one.is_running_head for one in test.pressures] == [True, False, True]


def test_a_run_is_named_as_its_file_or_without_the_ending(
    carded: Callable[..., Path],
) -> None:
    test, _ = read(carded('run = "run1.csv"', 'run = "Run1"'))
    assert test.pressures[0].run == "run1"


def test_a_bucket_gives_volume_over_time(carded: Callable[..., Path]) -> None:
    test, _ = read(carded("44", "44"))
    # 2.5 gal in half a minute
    assert test.flows[0].flow_l_per_min == pytest.approx(5 * 3.785411784)


def test_a_meter_card_keeps_its_dial_unit_and_zones(
    carded: Callable[..., Path],
) -> None:
    meter = read(carded("44", "44"))[0].meter
    assert meter is not None
    assert (meter.start, meter.unit, meter.other_zones) == (48213.0, "ft3", ("Z1",))


def test_a_multiplier_that_is_not_given_is_said(carded: Callable[..., Path]) -> None:
    test, (said,) = read(carded("multiplier = 10\n", ""))
    assert test.meter is not None
    assert "note" in said
    assert "multiplier is not given; read as 1" in said


@pytest.mark.parametrize(
    ("old", "new", "words"),
    [
        ("pressure_psi = 44", "pressure_psi = 4400", "is 4400; it must be at most"),
        ("pressure_psi = 44", "pressure = 44", "has no unit; write pressure_kpa or"),
        ('place = "first"', 'place = "front"', "which is not a choice"),
        ('run = "run1.csv"', 'run = "run7"', "there is no such run in the test"),
        ("seconds = 30", "seconds = 0", "is 0; it must be above 0"),
        ("volume_gal = 2.5", "", "volume_l or volume_gal is missing"),
        ('unit = "cu ft"', 'unit = "psi"', "meters are not read in that"),
        ('["z1"]', '["Z7"]', 'names "Z7", and there is no such zone'),
        ("start = 48213", 'start = "48,213"', "start"),
    ],
)
def test_what_is_wrong_is_said_and_the_cans_still_count(
    carded: Callable[..., Path], old: str, new: str, words: str
) -> None:
    test, said = read(carded(old, new))
    assert any(words in one for one in said), said
    assert len(test.runs) == 1


def test_one_pressure_that_is_wrong_leaves_the_others(
    carded: Callable[..., Path],
) -> None:
    test, _ = read(carded("pressure_psi = 44", "pressure_psi = -1"))
    assert [one.name for one in test.pressures] == ["valve", "head in row 2, column 3"]


def test_one_table_for_several_gauges_is_refused(change: Change) -> None:
    site = change(TOML, END, END + "[pressure]\npressure_psi = 44\n")
    test, said = read(site)
    assert test.pressures == ()
    assert "write [[pressure]] for each of them" in said[0]
