"""The record command: lines shown, written, asked for, refused and taken back."""

import json
import re
import shlex
from pathlib import Path

import pytest
from click.testing import CliRunner

from scheduler.files.log_kinds import KINDS
from scheduler.files.site_folder import read_site_folder
from scheduler.log import LeachingPot, MeterReading
from tests.tui.commands.recorded import (
    NOW,
    as_at_a_terminal,
    copied_demo,
    facts,
    lines,
    run,
)
from tui.cli import main


@pytest.fixture
def site(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    return copied_demo(tmp_path, monkeypatch)


@pytest.fixture
def terminal(monkeypatch: pytest.MonkeyPatch) -> None:
    as_at_a_terminal(monkeypatch)


# --- written -----------------------------------------------------------------

# one whole command of each kind, and the cells that it writes behind the date
WRITTEN = {
    'watering Z4 --ran 24 --on 2026-06-08': ",watering,Z4,,ran 24 min,,",
    'skipped Z4 --note "rain, 0.6 in" --on 2026-06-08': ',skipped,Z4,,,"rain, 0.6 in",',
    'meter "pump house" --reading "48213 gal" --multiplier 100 --digits 6 '
    '--zones "Z1 Z2" --shared --new-dial': ",meter,Z1; Z2,pump house,"
    "reading 48213 gal; multiplier 100; digits 6; shared; new dial,,",
    'leaching Z4 --pots "A1 420 160" --ran "24 min" --at 06:40':
    "06:40,leaching,Z4,A1,in 420 mL; out 160 mL; ran 24 min,,",
    'pot-weight Z4 --pots "A1 11.5" --unit lb': ",pot weight,Z4,A1,weight 11.5 lb,,",
    'pour-through Z4 --pots "A1 1800 6.1" --unit uS/cm':
    ",pour-through,Z4,A1,EC 1800 uS/cm; pH 6.1,,",
    'dry-spot Z4 --place "N corner" --note "wilts by noon"':
    ",dry spot,Z4,N corner,,wilts by noon,",
    'override Z4 --set 26 --reason "wilting"': ",override,Z4,,set 26 min,wilting,",
    'repair Z4 --did "nozzle of head 3"': ",repair,Z4,,,nozzle of head 3,",
    'hardware --package yard-30 --did "new nozzles"':
    ",hardware,,yard-30,,new nozzles,",
    'respaced Z4 --spacing "14 x 16 in"': ",respaced,Z4,,spacing 14 x 16 in,,",
    'moved Z4': ",moved,Z4,,,,",
    'frost --ran "5.5 h" --volume "12000 gal" --on 2026-06-08':
    ",frost,,,ran 5.5 h; volume 12000 gal,,",
    'hand-water Z4 --ran 40': ",hand water,Z4,,ran 40 min,,",
}  # fmt: skip


def test_every_kind_has_a_command_here() -> None:
    assert [one.split()[0] for one in WRITTEN] == [
        what.replace(" ", "-") for what in KINDS
    ]


@pytest.mark.parametrize("command", WRITTEN)
def test_a_whole_command_writes_its_line_and_shows_it_first(
    site: Path, command: str
) -> None:
    result = run(site, command)
    line = f"2026-06-08,{WRITTEN[command]}{NOW}"
    assert result.exit_code == 0
    assert result.stdout == f"to log.csv:\n  {line}\n"
    assert lines(site) == [line]
    assert len(facts(site)) == 1


def test_several_pots_are_several_lines_of_one_check(site: Path) -> None:
    run(site, 'leaching Z4 --pots "A1 420 160, A2 400 90" --ran 24 --on 2026-06-03')
    check = read_site_folder(site).history.log.leaching_checks("Z4")[0]
    assert [(one.place, one.in_ml, one.out_ml) for one in check.pots] == [
        ("A1", 420.0, 160.0),
        ("A2", 400.0, 90.0),
    ]
    assert (check.date.isoformat(), check.minutes) == ("2026-06-03", 24.0)


def test_pots_told_in_two_ways_go_into_one_check(site: Path) -> None:
    run(site, 'leaching Z4 --weights "A1 5210 5490 120" --percent "A2 12"')
    parts = [one.fraction for one in facts(site) if isinstance(one, LeachingPot)]
    assert parts == [0.3, 0.12]


def test_json_is_one_object_with_the_facts(site: Path) -> None:
    result = run(site, "watering Z4 --ran 24 --on 2026-06-08 --json")
    found = json.loads(result.stdout)
    assert (found["format"], found["file"]) == (1, "log.csv")
    assert found["written"][0]["minutes"] == 24.0
    assert found["lines"] == lines(site)


def test_the_second_reading_of_a_meter_keeps_the_multiplier_of_the_first(
    site: Path,
) -> None:
    run(site, 'meter pump --reading "10 m3" --multiplier 100')
    run(site, 'meter pump --reading "12 m3"')
    dials = [one.dial_m3 for one in facts(site) if isinstance(one, MeterReading)]
    assert dials == [1000.0, 1200.0]


def test_a_site_with_a_slip_in_its_site_file_can_be_recorded_for(site: Path) -> None:
    path = site / "site.toml"
    text = path.read_text("utf-8").replace("latitude_deg = ", "latitude_deg = -9")
    path.write_text(text, encoding="utf-8")
    result = run(site, "watering Z4 --ran 24 --on 2026-06-01")
    assert result.exit_code == 0
    assert "latitude_deg" in result.stderr
    assert len(lines(site)) == 1


def test_what_is_wrong_with_the_log_already_is_said(site: Path) -> None:
    (site / "log.csv").write_text("# format = 1\n2026-0", encoding="utf-8")
    result = run(site, "watering Z4 --ran 24 --on 2026-06-08")
    assert "log.csv:2: is cut short" in result.stderr
    assert lines(site)[-1].endswith(NOW)


def test_the_readme_shows_what_is_really_written(
    site: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    readme = (Path(__file__).parents[3] / "README.md").read_text(encoding="utf-8")
    block = re.search(r"```text\n\$ lowquarter (record .*?)\n```", readme, re.DOTALL)
    assert block is not None
    command, _, shown = block.group(1).replace("\\\n", " ").partition("\n")
    site.rename(site.with_name("tern_hollow"))
    monkeypatch.chdir(site.parent)
    assert CliRunner().invoke(main, shlex.split(command)).stdout == f"{shown}\n"


# --- refused -----------------------------------------------------------------


def test_a_meter_in_other_letters_is_the_same_meter(site: Path) -> None:
    run(site, 'meter "pump house" --reading "1 m3" --multiplier 1')
    result = run(site, 'meter "Pump House" --reading "2 m3"')
    assert "first reading" not in result.stderr
    assert lines(site)[1].split(",")[4] == "pump house"


@pytest.mark.parametrize(
    ("command", "zone"),
    [
        ("override z4 --set 26 --reason dry", "Z4"),
        ('leaching z4 --pots "A1 420 160"', "Z4"),
        ('meter pump --reading "1 m3" --multiplier 1 --zones "z1 z2"', "Z1; Z2"),
        ('frost --ran 5h --on 2026-06-07 --zones "z1, Z2"', "Z1; Z2"),
    ],
)
def test_a_zone_is_written_as_the_site_writes_it(
    site: Path, command: str, zone: str
) -> None:
    assert run(site, command).exit_code == 0
    assert lines(site)[0].split(",")[3] == zone


@pytest.mark.parametrize(
    ("command", "message"),
    [
        (
            "watering Z4 --on 2026-06-07",
            '--ran is missing; give it, such as --ran "24 min"',
        ),
        ("watering --on 2026-06-07", "ZONE is missing; give it, such as Z4"),
        ("watering Z4 --ran 24", "--on is missing: the day on whose evening"),
        ("meter", "METER is missing"),
        ("leaching Z4", '--pots is missing; give it, such as --pots "A1 420 160'),
        ('pour-through Z4 --pots "A1 1 6"', "--unit is missing"),
        ("override Z4 --set 26", "--reason is missing"),
        ("repair --did x", "ZONE or --package is missing"),
        ("dry-spot Z4", '--place is missing; give it, such as --place "N corner"'),
        (
            "frost --on 2026-06-07",
            '--ran or --volume is missing; give one, such as --ran "5.5 h"',
        ),
        (
            "watering Z44 --ran 24 --on 2026-06-07",
            "there is no zone 'Z44'; the zones are Z1",
        ),
        ('meter a --reading "1 m3" --zones "Z1; Z44"', "there is no zone 'Z44'"),
        ("repair --package yard --did x", "there is no package 'yard'"),
        ("watering Z4 --ran 24 --on 2026-06-09", "--on 2026-06-09 is after today"),
        (
            "watering Z4 --ran 24 --on 2026-06-08 --at 6.40",
            "--at '6.40' is no time of day",
        ),
        (
            "frost --ran 5 --on 2026-06-07",
            "--ran: '5': has no unit; write one of min, h",
        ),
        ('leaching Z4 --pots "A1 420 160, B2 90 400"', "B2: details: 400 mL drained"),
        ('leaching Z4 --pots "A1 420"', "--pots: 'A1 420' is not a place"),
        ("leeching Z4", "did you mean leaching?"),
        ("", "say what to record; the kinds are: watering"),
        ("--undo --force watering", "--undo takes the last entry back"),
    ],
)
def test_without_a_terminal_what_is_missing_or_wrong_is_named(
    site: Path, command: str, message: str
) -> None:
    result = run(site, command)
    assert message in " ".join(result.stderr.split())
    assert (result.exit_code, lines(site)) == (2, [])


@pytest.mark.usefixtures("terminal")
def test_json_never_asks(site: Path) -> None:
    result = run(site, "watering Z4 --json --on 2026-06-07")
    assert "--ran is missing" in result.stderr
    assert result.exit_code == 2


def test_a_folder_that_is_no_site_is_refused(tmp_path: Path) -> None:
    result = run(tmp_path, "watering Z4 --ran 24 --on 2026-06-08")
    assert result.exit_code == 3
    assert not (tmp_path / "log.csv").exists()


def test_a_log_that_cannot_be_written_is_refused(site: Path) -> None:
    (site / "log.csv").mkdir()
    result = run(site, "watering Z4 --ran 24 --on 2026-06-08")
    assert result.exit_code == 1
    assert "not a plain file" in result.stderr


# --- taken back --------------------------------------------------------------


def test_undo_shows_the_last_entry_and_takes_all_its_lines_back(site: Path) -> None:
    run(site, "watering Z4 --ran 24 --on 2026-06-08")
    before = (site / "log.csv").read_bytes()
    run(site, 'leaching Z4 --pots "A1 420 160, A2 400 90"')
    result = run(site, "--undo")
    assert result.exit_code == 0
    assert result.stdout.count("leaching") == 2
    assert (site / "log.csv").read_bytes() == before


def test_undo_as_json_is_the_lines(site: Path) -> None:
    run(site, "moved Z4")
    was = lines(site)
    assert json.loads(run(site, "--undo --json").stdout)["taken_back"] == was
    assert lines(site) == []


def test_a_line_by_hand_is_only_taken_back_by_force(site: Path) -> None:
    run(site, "moved Z4")
    with (site / "log.csv").open("a", encoding="utf-8") as file:
        file.write("2026-06-08,,moved,Z5,,,,\n")
    refused = run(site, "--undo")
    assert (refused.exit_code, len(lines(site))) == (1, 2)
    assert "written by hand; correct it by hand, or add --force" in refused.stderr
    assert run(site, "--undo --force").exit_code == 0
    assert len(lines(site)) == 1


@pytest.mark.usefixtures("terminal")
def test_undo_asks_first(site: Path) -> None:
    run(site, "moved Z4 --yes")
    assert "nothing was taken back" in run(site, "--undo", "n\n").stderr
    assert len(lines(site)) == 1


def test_nothing_to_undo_is_said(site: Path) -> None:
    result = run(site, "--undo")
    assert (result.exit_code, "nothing to take back" in result.stderr) == (1, True)
