"""The record command at a terminal, and as a real program that is killed."""

import signal
import subprocess
import sys
from pathlib import Path

import pytest

from scheduler.files.site_folder import read_site_folder
from tests.tui.commands.recorded import (
    NOW,
    as_at_a_terminal,
    copied_demo,
    facts,
    lines,
    run,
)


@pytest.fixture
def site(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    return copied_demo(tmp_path, monkeypatch)


@pytest.fixture
def terminal(monkeypatch: pytest.MonkeyPatch) -> None:
    as_at_a_terminal(monkeypatch)


# --- asked for ---------------------------------------------------------------


@pytest.mark.usefixtures("terminal")
def test_what_is_lacking_is_asked_for_and_shown_before_it_is_written(
    site: Path,
) -> None:
    result = run(site, "override", "Z4\n26\nwilting at the gate\n\n")
    assert lines(site) == [
        f"2026-06-08,,override,Z4,,set 26 min,wilting at the gate,{NOW}"
    ]
    asked = [
        result.output.index(one) for one in ("ZONE", "set (", "reason", "write it")
    ]
    assert asked == sorted(asked)


@pytest.mark.usefixtures("terminal")
def test_a_slip_at_the_prompt_is_asked_for_again(site: Path) -> None:
    result = run(site, "meter pump", "48,213 gal\n48213 gal\ny\n")
    assert "could be 48213 or 48.213" in result.output
    assert len(lines(site)) == 1


@pytest.mark.usefixtures("terminal")
def test_a_leaching_check_asks_for_pots_and_minutes(site: Path) -> None:
    run(site, "leaching Z4", "A1 420\nA1 420 160, A2 400 90\n24\ny\n")
    assert [one.split(",")[5] for one in lines(site)] == [
        "in 420 mL; out 160 mL; ran 24 min",
        "in 400 mL; out 90 mL; ran 24 min",
    ]


@pytest.mark.usefixtures("terminal")
def test_the_unit_of_conductivity_is_asked_for(site: Path) -> None:
    run(site, "pour-through Z4", "uS/cm\nA1 1800 6.1\ny\n")
    assert "EC 1800 uS/cm" in lines(site)[0]


@pytest.mark.usefixtures("terminal")
def test_a_night_is_asked_for_and_is_last_night_if_nothing_is_said(site: Path) -> None:
    run(site, "skipped Z4 --note rain", "\ny\n")
    assert lines(site) == [f"2026-06-07,,skipped,Z4,,,rain,{NOW}"]


@pytest.mark.usefixtures("terminal")
def test_the_kind_itself_is_asked_for(site: Path) -> None:
    run(site, "", "hand-water\nZ4\n\n120 gal\ny\n")
    assert lines(site) == [f"2026-06-08,,hand water,Z4,,volume 120 gal,,{NOW}"]


@pytest.mark.usefixtures("terminal")
def test_a_no_writes_nothing(site: Path) -> None:
    result = run(site, "watering Z4 --ran 24 --on 2026-06-08", "n\n")
    assert (lines(site), result.exit_code) == ([], 0)
    assert "nothing was written" in result.stderr


@pytest.mark.usefixtures("terminal")
def test_with_yes_nothing_is_asked(site: Path) -> None:
    run(site, "watering Z4 --ran 24 --on 2026-06-08 --yes", "")
    assert len(lines(site)) == 1


# --- real programs -----------------------------------------------------------

KILLED = """\
import os, signal, sys
from tui.cli import main
really_write, cut = os.write, int(sys.argv[1])
def write(handle, data):
    if b"leaching" not in bytes(data):
        return really_write(handle, data)
    really_write(handle, bytes(data)[:cut])
    os.kill(os.getpid(), signal.SIGKILL)
os.write = write
main(["record", sys.argv[2], "leaching", "Z4", "--pots", "A1 420 160, A2 400 90"])
"""


@pytest.mark.skipif(sys.platform == "win32", reason="kills as POSIX does")
@pytest.mark.parametrize(("cut", "whole"), [(1, 0), (40, 0), (75, 1), (110, 1)])
def test_a_record_killed_while_it_writes_costs_no_line_before_or_after(
    site: Path, cut: int, whole: int
) -> None:
    run(site, "moved Z5")
    done = subprocess.run(
        [sys.executable, "-c", KILLED, str(cut), str(site)],
        check=False,
        stdin=subprocess.DEVNULL,
        capture_output=True,
    )
    assert done.returncode == -signal.SIGKILL
    run(site, "moved Z6")
    found = read_site_folder(site)
    kinds = [type(one).__name__ for one in found.history.log.entries]
    assert kinds == ["Respacing", *["LeachingPot"] * whole, "Respacing"]
    said = [one for one in found.findings if one.where.startswith("log.csv")]
    assert ["cut short" in one.what for one in said] == [True]


def test_two_people_recording_at_once_lose_nothing(site: Path) -> None:
    code = "import sys; from tui.cli import main; main(sys.argv[1:])"
    running = [
        subprocess.Popen(
            [sys.executable, "-c", code, "record", str(site), "watering", zone,
             "--ran", "24 min", "--on", f"2026-06-0{day}"],
            stdin=subprocess.DEVNULL,
            stdout=subprocess.DEVNULL,
            stderr=subprocess.DEVNULL,
        )
        for zone in ("Z4", "Z5")
        for day in (1, 2)
    ]  # fmt: skip
    assert [one.wait(timeout=120) for one in running] == [0, 0, 0, 0]
    said = {(one.zone, one.date.day) for one in facts(site)}
    assert said == {("Z4", 1), ("Z4", 2), ("Z5", 1), ("Z5", 2)}
