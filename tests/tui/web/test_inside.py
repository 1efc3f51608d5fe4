"""The command of a tab's process."""

import subprocess
from pathlib import Path

import pytest

from tui.web import inside


def test_the_folder_is_named_in_full(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    assert str(tmp_path.resolve() / "a; b") in inside.command(Path("a; b"), None)


def test_modules_in_the_folder_of_work_do_not_stand_in_for_ours(tmp_path: Path) -> None:
    (tmp_path / "tui.py").write_text("raise SystemExit('the wrong one')", "utf-8")
    interpreter, guard = inside.command(tmp_path, None)[:2]
    done = subprocess.run(
        [interpreter, guard, "-c", "import tui.web.inside"],
        cwd=tmp_path,
        capture_output=True,
        text=True,
        check=False,
    )
    assert (done.returncode, done.stderr) == (0, "")


@pytest.mark.parametrize("units", [None, "us", "metric"])
def test_the_units_asked_for_reach_the_dashboard(
    tmp_path: Path, units: str | None, monkeypatch: pytest.MonkeyPatch
) -> None:
    shown: list[tuple[Path, str | None]] = []

    def run_dashboard(folder: Path, *, units: str | None) -> int:
        shown.append((folder, units))
        return 0

    monkeypatch.setattr("tui.app.run_dashboard", run_dashboard)
    assert inside.main(inside.command(tmp_path, units)[4:]) == 0
    assert shown == [(tmp_path.resolve(), units)]
