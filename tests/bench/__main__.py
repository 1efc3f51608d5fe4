"""Speed as ratios measured in one run: `python -m tests.bench NAME [--json]`."""

import argparse
import importlib
from pathlib import Path

HERE = Path(__file__).parent
NO_BENCH = ("__main__", "harness", "large_site", "walk")
NAMES = sorted(path.stem for path in HERE.glob("*.py") if path.stem not in NO_BENCH)


def main() -> None:
    parser = argparse.ArgumentParser(prog="python -m tests.bench", description=__doc__)
    parser.add_argument("name", choices=NAMES)
    parser.add_argument("--json", action="store_true", help="one JSON object on stdout")
    given = parser.parse_args()
    importlib.import_module(f"tests.bench.{given.name}").run(json=given.json)


if __name__ == "__main__":
    main()
