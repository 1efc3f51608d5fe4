"""A week is frozen once, whole, by one writer, with the inputs it rests on."""

import datetime as dt
import hashlib
import json
import re
import shutil
import signal
import subprocess
import sys
import time
from pathlib import Path

import pytest

from scheduler.errors import IssueError, SaveError
from scheduler.files.demo import demo_source
from scheduler.files.issue_writing import (
    is_issued_alike,
    issue_week,
    issued_before,
    next_revision,
    stops_in_the_way,
)
from scheduler.files.site_folder import SiteFolder, read_site_folder
from scheduler.issued import IssuedWeek
from scheduler.plan import WeekPlan, build_week

MONDAY = dt.date(2026, 6, 8)
AT = "2026-06-08T11:02:03Z"
WHY = "Z9 stays as it is"


KEPT = ("Z1", "Z8", "Z9")  # planned, fixed, and blocked by its test


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """Three zones of the demo without its year of wind, for speed."""
    site = shutil.copytree(demo_source() / "tern_hollow", tmp_path / "site")
    text = (site / "site.toml").read_text("utf-8")
    text = re.sub(r"(?m)^\[\[wind_log\]\][^\[]*", "", text)
    (site / "site.toml").write_text(text, "utf-8")
    shutil.rmtree(site / "wind")
    (site / "options.toml").unlink()
    (site / "log.csv").unlink()
    for test in (site / "tests").iterdir():
        if not test.name.endswith(KEPT):
            shutil.rmtree(test)
    keep_zones(site, *KEPT)
    return site


def keep_zones(site: Path, *ids: str) -> None:
    head, *zones = (site / "zones.toml").read_text("utf-8").split("\n[[zone]]")
    kept = [one for one in zones if any(f'id = "{name}"' in one for name in ids)]
    (site / "zones.toml").write_text("\n[[zone]]".join([head, *kept]), "utf-8")


def read(folder: Path, start: dt.date = MONDAY) -> tuple[SiteFolder, WeekPlan]:
    found = read_site_folder(folder)
    assert found.site is not None
    return found, build_week(found.site, found.history, MONDAY, start=start)


def issue(folder: Path, start: dt.date = MONDAY) -> IssuedWeek:
    found, plan = read(folder, start)
    return issue_week(found, plan, issued_at=AT, forced=WHY)


def files(folder: Path) -> list[str]:
    return sorted(one.name for one in (folder / "weeks").iterdir())


def test_what_was_issued_is_read_back(folder: Path) -> None:
    issued = issue(folder)
    (again,) = read_site_folder(folder).history.issued
    assert again == issued


def test_the_minutes_are_those_of_the_plan(folder: Path) -> None:
    _, plan = read(folder)
    told = {one.zone: one.minutes_per_day for one in issue(folder).zones}
    wanted = {
        one.zone.id: one.minutes_per_day
        for one in plan.zones
        if one.minutes_per_day is not None
    }
    assert told == wanted


def test_every_input_has_its_sha_256(folder: Path) -> None:
    inputs = dict(issue(folder).inputs)
    assert {"site.toml", "zones.toml", "rain.csv"} <= set(inputs)
    assert all(
        hashlib.sha256((folder / name).read_bytes()).hexdigest() == digest
        for name, digest in inputs.items()
    )


def test_the_week_before_is_an_input_of_the_next(folder: Path) -> None:
    issue(folder)
    later = issue(folder, MONDAY + dt.timedelta(days=7))
    assert "weeks/2026-W24.json" in dict(later.inputs)


def test_a_correction_is_a_new_revision_and_the_old_one_stays(folder: Path) -> None:
    issue(folder)
    before = (folder / "weeks" / "2026-W24.json").read_bytes()
    assert issue(folder).name == "2026-W24.r2"
    assert (folder / "weeks" / "2026-W24.json").read_bytes() == before


def test_a_damaged_file_keeps_its_number(folder: Path) -> None:
    issue(folder)
    (folder / "weeks" / "2026-W24.json").write_bytes(b"")
    assert next_revision(*read(folder)) == 2


def test_another_week_begins_with_its_first_revision(folder: Path) -> None:
    issue(folder)
    assert next_revision(*read(folder, MONDAY + dt.timedelta(days=7))) == 1


def test_a_stop_finding_stands_in_the_way(folder: Path) -> None:
    found, plan = read(folder)
    assert [one.where for one in stops_in_the_way(found, plan)] == [
        "tests/2026-05-27-Z9/run1.csv"
    ]
    with pytest.raises(IssueError, match=r"2026-05-27-Z9/run1\.csv.*196 %.*--force"):
        issue_week(found, plan, issued_at=AT)
    assert not (folder / "weeks").exists()


def test_why_a_stop_was_passed_is_kept(folder: Path) -> None:
    assert issue(folder).forced == WHY


def test_a_blocked_zone_is_left_as_the_clock_is(folder: Path) -> None:
    issued = issue(folder)
    assert issued.zone("Z9") is None
    assert issued.left == (("Z9", "blocked"),)


def test_a_week_without_minutes_is_never_issued(folder: Path) -> None:
    keep_zones(folder, "Z9")
    found, plan = read(folder)
    with pytest.raises(IssueError, match="no zone has minutes"):
        issue_week(found, plan, issued_at=AT, forced="I want it")


def test_an_input_that_changed_since_it_was_read_is_noticed(folder: Path) -> None:
    found, plan = read(folder)
    with (folder / "rain.csv").open("a", encoding="utf-8") as file:
        file.write("2026-06-08,0.4\n")
    with pytest.raises(SaveError, match=r"rain\.csv.*changed by somebody else"):
        issue_week(found, plan, issued_at=AT, forced=WHY)
    assert not (folder / "weeks").exists()


def test_the_same_week_again_is_alike(folder: Path) -> None:
    issue(folder)
    found, plan = read(folder)
    assert is_issued_alike(found.history, plan)


def test_other_minutes_are_not_alike(folder: Path) -> None:
    issue(folder)
    text = (folder / "zones.toml").read_text("utf-8")
    changed = text.replace("fixed_minutes = 6", "fixed_minutes = 7")
    assert changed != text
    (folder / "zones.toml").write_text(changed, "utf-8")
    found, plan = read(folder)
    assert not is_issued_alike(found.history, plan)


def test_the_newest_revision_of_the_very_week_is_found(folder: Path) -> None:
    issue(folder)
    issue(folder)
    issue(folder, MONDAY + dt.timedelta(days=7))
    found, plan = read(folder)
    before = issued_before(found.history, plan)
    assert before is not None
    assert before.name == "2026-W24.r2"


def test_a_hand_damaged_week_hides_no_other(folder: Path) -> None:
    issue(folder)
    issue(folder, MONDAY + dt.timedelta(days=7))
    path = folder / "weeks" / "2026-W24.json"
    path.write_text(path.read_text("utf-8")[:-40], "utf-8")
    found = read_site_folder(folder)
    assert [one.name for one in found.history.issued] == ["2026-W25"]
    assert any(one.where == "weeks/2026-W24.json" for one in found.findings)


# --- real processes ------------------------------------------------------------

ISSUING = """\
import datetime as dt, resource, signal, sys
from pathlib import Path
from scheduler.errors import SaveError
from scheduler.files.issue_writing import issue_week
from scheduler.files.site_folder import read_site_folder
from scheduler.plan import build_week
found = read_site_folder(Path(sys.argv[1]))
plan = build_week(found.site, found.history, dt.date(2026, 6, 8))
print("ready", flush=True)
most = sys.stdin.readline().strip()
if most:
    signal.signal(signal.SIGXFSZ, signal.SIG_DFL)  # Python would go on with an error
    resource.setrlimit(resource.RLIMIT_FSIZE, (int(most), int(most)))
try:
    why = "Z9 stays as it is"
    print(issue_week(found, plan, issued_at=sys.argv[2], forced=why).name)
except SaveError as problem:
    print(problem)
"""


def process(folder: Path, at: str = AT) -> subprocess.Popen[str]:
    running = subprocess.Popen(
        [sys.executable, "-c", ISSUING, str(folder), at],
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
        text=True,
    )
    assert running.stdout is not None
    assert running.stdout.readline() == "ready\n"
    return running


def test_of_two_programs_that_issue_at_once_one_is_told(folder: Path) -> None:
    both = [process(folder, f"2026-06-08T11:00:0{i}Z") for i in range(2)]
    for one in both:
        assert one.stdin is not None
        one.stdin.write("\n")
        one.stdin.flush()
    said = sorted(one.communicate(timeout=60)[0].strip() for one in both)
    assert said.count("2026-W24") == 1
    assert sum("issued by somebody else meanwhile" in one for one in said) == 1
    assert files(folder) == ["2026-W24.json"]


@pytest.mark.skipif(sys.platform != "linux", reason="limits of file size")
@pytest.mark.parametrize("part", [0.0, 0.001, 0.3, 0.7, 0.999])
def test_a_program_killed_at_a_byte_of_the_write_leaves_a_readable_folder(
    folder: Path, tmp_path: Path, part: float
) -> None:
    whole = shutil.copytree(folder, tmp_path / "whole")
    issue(whole)
    size = (whole / "weeks" / "2026-W24.json").stat().st_size
    running = process(folder)
    running.communicate(f"{int(size * part)}\n", timeout=60)
    assert running.returncode == -signal.SIGXFSZ
    found, plan = read(folder)
    assert found.history.issued == ()
    assert not any(one.where.startswith("weeks/") for one in found.findings)
    assert issue_week(found, plan, issued_at=AT, forced=WHY).name == "2026-W24"


SAVING = """\
import sys
from pathlib import Path
from scheduler.files.issued_json import sealed_text
from scheduler.files.save import save_new_text
print("ready", flush=True)
zone = {"zone": "Z1", "minutes_per_day": 12, "days": ["2026-06-08"]}
data = {"format": 1, "start": "2026-06-08", "zones": [zone] * 2000}
for i in range(2, 10000):
    save_new_text(Path(sys.argv[1]) / f"2026-W24.r{i}.json", sealed_text(data))
"""


@pytest.mark.parametrize("wait_s", [0.002, 0.013, 0.031, 0.057, 0.1])
def test_a_program_killed_at_any_moment_leaves_whole_weeks(
    tmp_path: Path, wait_s: float
) -> None:
    weeks = tmp_path / "weeks"
    weeks.mkdir()
    with subprocess.Popen(
        [sys.executable, "-c", SAVING, str(weeks)], stdout=subprocess.PIPE
    ) as running:
        assert running.stdout is not None
        running.stdout.readline()
        time.sleep(wait_s)
        running.send_signal(signal.SIGKILL)
    found = [json.loads(one.read_text("utf-8")) for one in weeks.glob("2*.json")]
    assert all(len(one["zones"]) == 2000 for one in found)
