"""Clocks and zones that do not fit are said with their line."""

from collections.abc import Callable
from pathlib import Path

import pytest

from scheduler.files.site_folder import read_site_folder

Change = Callable[[str, str, str], Path]
CLOCKS = """
[[controller]]
id = "N"
name = "north"
stations = 4

[[controller]]
id = "S"
"""


@pytest.fixture
def clocks(site: Path) -> Path:
    """A site with two clocks."""
    toml = site / "site.toml"
    toml.write_text(toml.read_text("utf-8") + CLOCKS, "utf-8")
    return site


def put(folder: Path, zone: str, text: str) -> list[tuple[str, str, str, str]]:
    """Findings of the folder, with lines put below the id of a zone."""
    toml = folder / "zones.toml"
    read = toml.read_text("utf-8")
    for one in ("Z1", "Z2"):
        line = f'id = "{one}"\n'
        more = text if one == zone else 'controller = "S"\n'
        read = read.replace(line, line + more)
    toml.write_text(read, "utf-8")
    found = read_site_folder(folder).findings
    return [(one.level, one.where, one.what, one.fix) for one in found]


def test_one_table_is_one_clock(site: Path) -> None:
    toml = site / "site.toml"
    toml.write_text(toml.read_text("utf-8") + '[controller]\nname = "yard"\n', "utf-8")
    read = read_site_folder(site).site
    assert read is not None
    assert [one.name for one in read.controllers] == ["yard"]


def test_several_tables_are_several_clocks_and_zones_name_theirs(clocks: Path) -> None:
    assert put(clocks, "Z1", 'controller = "n"\nstation = 3\n') == []
    read = read_site_folder(clocks).site
    assert read is not None
    assert [read.controller_of(one).name for one in read.zones] == ["north", "clock"]


def test_a_clock_that_is_not_there_is_a_stop(clocks: Path) -> None:
    ((level, where, what, fix),) = put(clocks, "Z1", 'controller = "M"\n')
    assert (level, where) == ("stop", "zones.toml:5: controller")
    assert what == 'is "M", and there is no such controller'
    assert "N, S" in fix


def test_a_zone_without_one_of_several_is_warned_of(clocks: Path) -> None:
    ((level, where, what, fix),) = put(clocks, "Z1", "")
    assert (level, where) == ("warning", "zones.toml:3")
    assert "names no controller, and there are 2" in what
    assert fix == 'add controller = "N", or one of S'


def test_a_station_given_twice_on_a_clock_is_a_stop(clocks: Path) -> None:
    toml = clocks / "zones.toml"
    toml.write_text(
        toml.read_text("utf-8").replace('valve = "2"\n', 'valve = "2"\nstation = 3\n'),
        "utf-8",
    )
    ((level, where, what, _),) = put(clocks, "Z1", 'controller = "S"\nstation = 3\n')
    assert (level, where.rpartition(":")[2]) == ("stop", " station")
    assert what == "is 3, and so is that of zone Z1 on line 6 of the same clock"


def test_a_station_beyond_those_of_the_clock_is_a_stop(clocks: Path) -> None:
    ((level, _, what, _),) = put(clocks, "Z1", 'controller = "N"\nstation = 5\n')
    assert (level, what) == ("stop", "is 5, and the clock has 4 stations")


def test_more_zones_than_stations_are_said_where_the_stations_stand(
    site: Path,
) -> None:
    toml = site / "site.toml"
    toml.write_text(toml.read_text("utf-8") + "[controller]\nstations = 1\n", "utf-8")
    (one,) = read_site_folder(site).findings
    assert (one.level, one.where) == ("warning", "site.toml:21: stations")
    assert one.what == "is 1, and 2 zones are to be watered by this clock"


def test_clocks_without_ids_are_stopped_where_there_are_several(site: Path) -> None:
    toml = site / "site.toml"
    toml.write_text(
        toml.read_text("utf-8") + "[[controller]]\n[[controller]]\nid = 'B'\n", "utf-8"
    )
    found = read_site_folder(site).findings
    assert [(one.level, one.what) for one in found] == [
        ("stop", "has no id, and there are several clocks")
    ]
