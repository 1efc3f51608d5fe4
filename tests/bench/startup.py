"""How fast the command line answers and the dashboard paints."""

import os
import resource
import statistics
import subprocess
import sys
import tempfile

from tests.bench.harness import Ratio, at_least, at_most, report

HEAVY = ("numpy", "pandas", "scipy", "numba", "matplotlib", "textual")
FIRST_PAINT = """
import os, pathlib
{eager}
from tui.app import Dashboard
Dashboard.on_mount = lambda self: self.call_after_refresh(os._exit, 0)
Dashboard(pathlib.Path({folder!r})).run(headless=True, size=(120, 36))
"""
EAGER = "import numpy, pandas, scipy.stats, pydantic, refet, scheduler.plan"


def child_cpu_s(*arguments: str) -> float:
    """CPU time of one finished child process, by the operating system's account."""
    before = resource.getrusage(resource.RUSAGE_CHILDREN)
    subprocess.run(
        [sys.executable, *arguments],
        check=True,
        stdout=subprocess.DEVNULL,
        stderr=subprocess.DEVNULL,
        env=os.environ | {"PYTHONDONTWRITEBYTECODE": ""},
    )
    after = resource.getrusage(resource.RUSAGE_CHILDREN)
    return (after.ru_utime + after.ru_stime) - (before.ru_utime + before.ru_stime)


def _median_ratio(a: tuple[str, ...], b: tuple[str, ...], rounds: int = 9) -> float:
    child_cpu_s(*a)
    child_cpu_s(*b)
    return statistics.median(child_cpu_s(*a) / child_cpu_s(*b) for _ in range(rounds))


def loaded_by_help() -> list[str]:
    """Heavy libraries that `lowquarter --help` loads; should be none."""
    code = (
        "import sys\n"
        "from click.testing import CliRunner\n"
        "from tui.cli import main\n"
        "assert CliRunner().invoke(main, ['--help']).exit_code == 0\n"
        f"print(*[name for name in {HEAVY} if name in sys.modules])"
    )
    done = subprocess.run(
        [sys.executable, "-c", code], check=True, capture_output=True, text=True
    )
    return done.stdout.split()


def run(*, json: bool) -> None:
    from scheduler.files.new_site import new_site

    with tempfile.TemporaryDirectory() as top:
        from pathlib import Path

        folder = Path(top) / "site"
        new_site(folder, "us")
        lazy = FIRST_PAINT.format(eager="", folder=str(folder))
        eager = FIRST_PAINT.format(eager=EAGER, folder=str(folder))
        helped = "from tui.cli import main; main(['--help'])"
        ratios: list[Ratio] = [
            at_most(
                "--help over bare Python, CPU",
                _median_ratio(("-c", helped), ("-c", "pass")),
                5,
            ),
            at_most("heavy libraries that --help loads", len(loaded_by_help()), 0),
            at_least(
                "first paint with everything imported over first paint, CPU",
                _median_ratio(("-c", eager), ("-c", lazy), rounds=5),
                3,
            ),
        ]
    report("startup", ratios, as_json=json)
