"""The command `demo`: which site it copies, and where."""

from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from scheduler.files.demo import demo_source
from tui import app, first_run, welcome_app
from tui.cli import main
from tui.commands import edge


def run(*args: str) -> Result:
    return CliRunner().invoke(main, list(args))


def test_another_demo_site_is_copied_to_a_folder_of_its_name(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    assert "Alder Flat" in run("demo", "--site", "alder-flat").stdout
    assert (tmp_path / "alder_flat" / "site.toml").is_file()


def test_another_demo_site_is_copied_to_the_folder_that_is_named(
    tmp_path: Path,
) -> None:
    here = tmp_path / "here"
    assert run("demo", str(here), "--site", "alder_flat").exit_code == 0
    assert "Alder Flat" in (here / "site.toml").read_text(encoding="utf-8")


def test_without_a_name_the_demo_is_tern_hollow(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    assert "Tern Hollow" in run("demo").stdout
    assert [path.name for path in tmp_path.iterdir()] == ["tern_hollow"]


def test_the_demo_sites_are_listed_with_what_each_is_for() -> None:
    lines = run("demo", "--site", "list").stdout.splitlines()
    names = {path.parent.name for path in demo_source().glob("*/site.toml")}
    assert {line.split()[0] for line in lines} == names
    assert all(len(line.split()) > 4 for line in lines)


def test_a_demo_site_that_is_not_there_is_answered_with_those_that_are() -> None:
    result = run("demo", "--site", "elsewhere")
    assert result.exit_code == 2
    assert "the demo sites are tern_hollow, alder_flat" in result.stderr


@pytest.mark.parametrize("typed", [["open"], []], ids=["open", "bare"])
def test_without_a_site_the_first_page_asks_and_what_it_gives_is_opened(
    typed: list[str], tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    opened: list[Path] = []
    monkeypatch.chdir(tmp_path)
    monkeypatch.setattr(edge, "has_terminal", lambda: True)
    monkeypatch.setattr(first_run, "recent_file", lambda: tmp_path / "recent.txt")
    monkeypatch.setattr(
        welcome_app, "welcome", lambda why, **_: demo_source() / "alder_flat"
    )
    monkeypatch.setattr(app, "run_dashboard", lambda folder, **_: opened.append(folder))
    run(*typed)
    assert [one.name for one in opened] == ["alder_flat"]
    assert [one.name for one in first_run.recent_sites()] == ["alder_flat"]


def test_the_name_alone_in_a_site_opens_its_dashboard(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    opened: list[Path] = []
    monkeypatch.chdir(demo_source() / "tern_hollow")
    monkeypatch.setattr(edge, "has_terminal", lambda: True)
    monkeypatch.setattr(first_run, "recent_file", lambda: tmp_path / "recent.txt")
    monkeypatch.setattr(app, "run_dashboard", lambda folder, **_: opened.append(folder))
    run()
    assert [one.resolve().name for one in opened] == ["tern_hollow"]


def test_the_name_alone_without_a_terminal_shows_the_help() -> None:
    result = run()
    assert result.exit_code == 2
    assert "Commands:" in result.stderr


def test_a_spoilt_site_opens_on_its_findings_and_not_on_the_first_page(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    opened: list[Path] = []
    (tmp_path / "zones.toml").write_text("", encoding="utf-8")
    monkeypatch.setattr(edge, "has_terminal", lambda: True)
    monkeypatch.setattr(app, "run_dashboard", lambda folder, **_: opened.append(folder))
    run("open", str(tmp_path))
    assert opened == [tmp_path]
