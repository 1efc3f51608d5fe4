"""Slips that people make, each told with file, line, key, value as typed and remedy."""

import shutil
from collections.abc import Iterator
from pathlib import Path

import pytest

from scheduler.files.demo import demo_source
from scheduler.files.site_folder import read_site_folder

RUN = "tests/2026-05-12-Z4/run1.csv"
WIND = "time,wind speed (mph),gust (mph),wind direction (deg)"
HOLLIES = 'name = "hollies, #3"\n'
STATED = 'format = 1\nzone = "Z5"\ndate = 2026-03-24\n[stated]\nsource = "a sheet"\n'

SLIPS = {
    "a word for a number": (
        ("zones.toml", "kc = 0.85", 'kc = "big"'),
        'zones.toml:82: kc: is "big", a text where a number is wanted; write kc = 0.9',
    ),
    "a word in a list of numbers": (
        ("zones.toml", "kc_by_month = [0.35", 'kc_by_month = ["big"'),
        'zones.toml:61: kc_by_month: is "big", a text where a number is wanted; write ',
    ),
    "a key where none is": (
        ("zones.toml", "format = 1\n", 'format = 1\nkc = "big"\n'),
        'zones.toml:2: kc: kc = "big" is not known in zones.toml; write [[zone]], or ',
    ),
    "a percentage": (
        ("options.toml", "du_lq = 0.76", "du_lq = 72"),
        "options.toml:10: du_lq: is 72; a uniformity is between 0 and 1; write 0.72 if "
        "72 % is meant",
    ),
    "a percentage with its sign": (
        ("options.toml", "du_lq = 0.76", 'du_lq = "72 %"'),
        'options.toml:10: du_lq: is "72 %", a text where a number is wanted; write '
        "du_lq = 0.72",
    ),
    "a length with its unit": (
        ("options.toml", "length_ft = 180", 'length_ft = "55 m"'),
        'options.toml:12: block_length_ft: is "55 m", a text where a number is wanted; '
        "write block_length_m = 55",
    ),
    "minutes with their unit": (
        ("zones.toml", "fixed_minutes = ", 'fixed_minutes = "6 min"  # '),
        'zones.toml:182: fixed_minutes: is "6 min", a text where a number is wanted; '
        "write fixed_minutes = 6",
    ),
    "a comma for thousands in quotes": (
        ("options.toml", "length_ft = 180", 'length_ft = "1,800"'),
        'options.toml:12: block_length_ft: is "1,800", a text where a number is '
        "wanted; write block_length_ft = 1800 or block_length_ft = 1.800",
    ),
    "a text for a list": (
        ("options.toml", 'zones = ["Z4"]', 'zones = "Z4"'),
        'options.toml:9: zones: is "Z4", where a list is wanted; write zones = ["Z4"]',
    ),
    "days without brackets": (
        ("zones.toml", 'days = ["mon", "tue", "wed", "thu", "fri", "sat"]',
         'days = "mon wed"'),
        'zones.toml:79: days: is "mon wed", where a list of mon, tue, wed, thu, '
        "fri, sat, sun is wanted; write days = "
        '["mon", "wed"]',
    ),
    "a number for a list": (
        ("zones.toml", "kc_by_month = [0.35", "kc_by_month = 0.35  # [0.35"),
        "zones.toml:61: kc_by_month: is 0.35, where a list is wanted; write kc_",
    ),
    "a window that ends before it starts": (
        ("site.toml", 'start = "22:00"\n', 'start = "05:00"\n'),
        'site.toml:49: end: is "04:30", before the start "05:00": read as the next '
        'morning, 23.5 h; swap them if the hours from "04:30" to "05:00" of one day ',
    ),
    "a plant that no table has": (
        ("zones.toml", "kc = 0.85\n", 'crop = "tomatoe"\n'),
        "zones.toml:82: crop: 'tomatoe' is no crop of the table; did you mean tomato? ",
    ),
    "a soil that is none": (
        ("zones.toml", f"[zone.plant]\n{HOLLIES}",
         f'[zone.soil]\ntexture = "lome"\n[zone.plant]\n{HOLLIES}'),
        'zones.toml:81: texture: is "lome", which is not a choice; did you mean loam? ',
    ),
    "a misspelt key": (
        ("zones.toml", "grown_in", "gron_in"),
        'zones.toml:11: gron_in: gron_in = "pots" is not a known key; did you mean '
        "grown_in?",
    ),
    "an id twice": (
        ("zones.toml", 'id = "Z5"', 'id = "Z4"'),
        'zones.toml:96: id: is "Z4", and so is the zone on line 72; neither is used; '
        "give each zone its own id",
    ),
    "a comma left out": (
        ("zones.toml", '["mon", "tue"', '["mon" "tue"'),
        'zones.toml:79: days: is ["mon" "tue", "wed", "thu", "fri", "sat": a comma is '
        'missing between "mon" and "tue"; write "mon", "tue"',
    ),
    "a quote left out": (
        ("zones.toml", 'east, hollies"', "east, hollies"),
        'zones.toml:73: name: is "Can yard east, hollies: the quote is opened but not '
        'closed; put " behind the text',
    ),
    "a wind log with another header": (
        ("wind/yard_logger.csv", WIND, "when,how fast"),
        "wind/yard_logger.csv:4: has no header that names date and time and a wind "
        "column: its first line is 'when,how fast'; begin with a line such as date,",
    ),
    "a gauge with another header": (
        ("rain.csv", "date,rain (in)", "when,inches"),
        "rain.csv:3: has no header with a date column: its first line is 'when,inches'"
        "; begin with a line such as date,rain (mm)",
    ),
}  # fmt: skip


@pytest.fixture(scope="module")
def demo(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The demo site without its two years of days and hours, for speed."""
    site = tmp_path_factory.mktemp("made") / "site"
    shutil.copytree(demo_source() / "tern_hollow", site)
    for long in ("weather/greensboro_typical_year.csv", "wind/mast_year.csv"):
        lines = (site / long).read_text("utf-8").splitlines(keepends=True)
        (site / long).write_text("".join(lines[:60]), "utf-8")
    return site


@pytest.fixture
def site(demo: Path) -> Iterator[Path]:
    """The same site each time; what a test changes is put back."""
    kept = {one: one.read_bytes() for one in demo.rglob("*") if one.is_file()}
    yield demo
    for one, data in kept.items():
        if one.read_bytes() != data:
            one.write_bytes(data)


@pytest.mark.parametrize("name", SLIPS)
def test_a_slip_is_told_once_with_place_value_and_remedy(site: Path, name: str) -> None:
    (file, old, new), told = SLIPS[name]
    before = {str(one) for one in read_site_folder(site).findings}
    text = (site / file).read_text("utf-8")
    assert old in text
    (site / file).write_text(text.replace(old, new, 1), "utf-8")
    said = [str(one) for one in read_site_folder(site).findings]
    fresh = [one for one in said if one not in before]
    assert sum(one.startswith(told.split(": ")[0] + ":") for one in fresh) == 1
    assert any(one.startswith(told) for one in fresh), fresh


def test_a_stated_result_in_percent_is_told(site: Path) -> None:
    test = site / "tests" / "2026-03-24-Z5" / "test.toml"
    test.write_text(STATED + "du_lq = 72\n", "utf-8")
    said = [str(one) for one in read_site_folder(site).findings]
    place = "tests/2026-03-24-Z5/test.toml:6: du_lq: is 72; a uniformity is between "
    assert any(one.startswith(place) for one in said)


def test_a_can_knows_the_line_of_its_file(site: Path) -> None:
    path = site / RUN
    path.write_text("# by hand\n" + path.read_text("utf-8"), "utf-8")
    tests = read_site_folder(site).history.tests
    (run,) = next(one for one in tests if one.name.endswith("Z4")).runs
    # three rows of cans below the remark
    assert run.place(2, 0) == f"{RUN}:4: can A3"


def test_a_can_of_a_list_knows_its_line(site: Path) -> None:
    path = site / RUN
    path.write_text("can,reading\nA1,41\nB1,52\n\nA2,60\nB2,48\n", "utf-8")
    tests = read_site_folder(site).history.tests
    (run,) = next(one for one in tests if one.name.endswith("Z4")).runs
    assert [run.place(1, 0), run.place(1, 1)] == [
        f"{RUN}:5: can A2",
        f"{RUN}:6: can B2",
    ]
