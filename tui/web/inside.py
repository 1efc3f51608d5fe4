"""What one tab's process runs: the dashboard of one folder."""

import sys
from collections.abc import Sequence
from pathlib import Path


def command(folder: Path, units: str | None) -> tuple[str, ...]:
    """The command line of a tab's process; no shell reads it."""
    # -P: a folder that somebody works in must not stand in for our own modules
    start = (sys.executable, "-P", "-m", "tui.web.inside", str(folder.resolve()))
    return (*start, units) if units else start


def main(arguments: Sequence[str]) -> int:
    """Show the dashboard until its page goes away."""
    from tui.app import run_dashboard  # the server names the command, and loads no app

    folder, *units = arguments
    return run_dashboard(Path(folder), units=units[0] if units else None)


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
