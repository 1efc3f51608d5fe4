"""Text results fit a terminal of eighty columns."""

import pytest
from click.testing import CliRunner

from tui.cli import main

DEMO = "demo_sites/tern_hollow"


@pytest.mark.parametrize(
    "args",
    [
        ("evaluate", DEMO),
        ("compare", DEMO),
        ("wind", DEMO),
        ("week", DEMO),
        ("inspect", DEMO),
        ("season", DEMO),
        ("cost", DEMO),
        ("explain", DEMO, "Z4"),
    ],
    ids=lambda args: args[0],
)
@pytest.mark.parametrize("units", ["us", "metric"])
def test_no_line_is_wider_than_eighty_columns(
    args: tuple[str, ...], units: str
) -> None:
    given = args if args[0] == "inspect" else (*args, "--units", units)
    result = CliRunner().invoke(main, list(given))
    assert max(map(len, result.stdout.splitlines())) <= 80
