"""Findings in, the same findings out, said once where zones share them."""

from collections.abc import Iterable
from dataclasses import replace

from scheduler.errors import Finding


def joined(findings: Iterable[Finding]) -> list[Finding]:
    """Findings that say the same of several zones, said once."""
    zones: dict[tuple[str, ...], list[str]] = {}
    kept: dict[tuple[str, ...], Finding] = {}
    for one in findings:
        zone, _, rest = one.where.partition(": ")
        is_zone = zone.startswith("zone ")
        key = (one.level, one.what, one.fix, rest if is_zone else one.where)
        kept.setdefault(key, one)
        if is_zone and zone.removeprefix("zone ") not in zones.setdefault(key, []):
            zones[key].append(zone.removeprefix("zone "))
    return [
        replace(one, where=_zones_where(zones[key], one.where))
        if len(zones.get(key, ())) > 1
        else one
        for key, one in kept.items()
    ]


def _zones_where(zones: list[str], where: str) -> str:
    rest = where.partition(": ")[2]
    named = f"zones {', '.join(zones)}"
    return f"{named}: {rest}" if rest else named
