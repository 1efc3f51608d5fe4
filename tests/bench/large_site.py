"""A site of many zones in files, made from the demo yard: real files, invented numbers.

Every zone is one of the yard's zones under another id, its area, minutes and catches
moved a little, with its tests, lines of the log and options; pump and clock grow
with the number of zones.
"""

import re
import shutil
from collections.abc import Callable
from pathlib import Path

import numpy as np

from scheduler.files.demo import demo_source

OWN = 9  # zones of the yard
ZONE = re.compile(r"\bZ([1-9])\b")
VALVE = re.compile(r'(valve = ")([1-9])"')
OPTION = re.compile(r'^id = "(\w+)"', re.MULTILINE)
Rng = np.random.Generator


def large_site(folder: Path, n_zones: int, seed: int) -> Path:
    """Write a site folder of so many zones."""
    yard, rng = demo_source() / "tern_hollow", np.random.default_rng(seed)
    shutil.copytree(yard, folder, ignore=shutil.ignore_patterns("tests"))
    laps = [
        {f"Z{i}": f"Z{lap * OWN + i}" for i in range(1, OWN + 1)}
        for lap in range(-(-n_zones // OWN))
    ]
    for lap in laps:
        for old in [k for k, new in lap.items() if int(new[1:]) > n_zones]:
            del lap[old]
    _repeat(folder / "zones.toml", "\n[[zone]]\n", laps, lambda t: _moved(t, rng))
    _repeat(folder / "options.toml", "\n[[option]]\n", laps, lambda t: t)
    _grow_site(folder / "site.toml", n_zones / OWN)
    _repeat_log(folder / "log.csv", laps)
    for lap in laps:
        for test in sorted((yard / "tests").iterdir()):
            _copy_test(test, folder / "tests", lap, rng)
    return folder


def _named(text: str, lap: dict[str, str]) -> str:
    text = VALVE.sub(lambda f: f'{f[1]}{lap.get("Z" + f[2], f[2])}"', text)
    return ZONE.sub(lambda found: lap.get(found[0], found[0]), text)


def _repeat(
    path: Path, head: str, laps: list[dict[str, str]], change: Callable[[str], str]
) -> None:
    """Write each block of a file once for every lap that has all of its zones."""
    begin, *blocks = path.read_text().split(head)
    out = [begin]
    for number, lap in enumerate(laps):
        for block in blocks:
            own = {found[0] for found in ZONE.finditer(block)}
            if not own <= set(lap):
                continue
            text = _named(block, lap)
            if number and "option" in head:
                text = OPTION.sub(rf'id = "\1n{number}"', text, count=1)
            out.append(head + change(text))
    path.write_text("".join(out))


def _moved(zone: str, rng: Rng) -> str:
    """A zone with another area, and minutes near those it had."""

    def times(found: re.Match[str], least: float, most: float) -> str:
        return f"{found[1]}{float(found[2]) * rng.uniform(least, most):.0f}"

    zone = re.sub(r"(area_ft2 = )(\d+)", lambda f: times(f, 0.7, 1.3), zone)
    return re.sub(r"(\nminutes = )(\d+)", lambda f: times(f, 0.8, 1.2), zone)


def _grow_site(path: Path, times: float) -> None:
    text = path.read_text()
    for name in ("flow_gpm", "max_valves_at_once"):
        text = re.sub(
            rf"({name} = )(\d+)",
            lambda f: f"{f[1]}{round(float(f[2]) * max(times, 1.0))}",
            text,
        )
    path.write_text(text)


def _repeat_log(path: Path, laps: list[dict[str, str]]) -> None:
    """Lines of a zone for each of its likes; lines of the site once."""
    out = []
    for line in path.read_text().splitlines():
        own = {found[0] for found in ZONE.finditer(line)}
        if len(own) != 1 or line.startswith("#"):
            everyone = "; ".join(new for lap in laps for new in lap.values())
            out.append(line.replace("Z1; Z2; Z3; Z4; Z5; Z6; Z7; Z8; Z9", everyone))
        else:
            out += [_named(line, lap) for lap in laps if own <= set(lap)]
    path.write_text("\n".join(out) + "\n")


def _copy_test(test: Path, folder: Path, lap: dict[str, str], rng: Rng) -> None:
    """One test under another zone, every catch moved by about a twentieth."""
    date, zone = test.name.rsplit("-", 1)
    if zone not in lap:
        return
    to = shutil.copytree(test, folder / f"{date}-{lap[zone]}")
    head = to / "test.toml"
    head.write_text(_named(head.read_text(), lap))
    for run in to.glob("*.csv"):
        run.write_text(
            re.sub(
                r"(?<![\w.-])\d+(?:\.\d+)?(?![\w.-])",
                lambda f: f"{float(f[0]) * rng.normal(1.0, 0.05):.0f}",
                run.read_text(),
            )
        )
