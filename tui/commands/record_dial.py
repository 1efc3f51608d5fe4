"""A reading that is about to be written in, what is odd about its dial out."""

from __future__ import annotations

from typing import TYPE_CHECKING

from tui.commands import edge

if TYPE_CHECKING:
    from collections.abc import Iterable

    from scheduler.files.site_folder import SiteFolder
    from scheduler.log import Entry, MeterReading


def say_dial(found: SiteFolder, facts: Iterable[Entry]) -> None:
    """Say what a reading makes of the dial before anything is written.

    A name that no earlier reading has is new, or a slip; a dial that fell was read
    wrongly, rolled over or is new. It is warned of and not refused.
    """
    from dataclasses import replace

    from scheduler.log import MeterReading
    from scheduler.proof.dial import dial_intervals
    from scheduler.reports.text import findings_text

    before = tuple(found.history.log.of(MeterReading))
    known = sorted({one.meter for one in before})
    for one in facts:
        if not isinstance(one, MeterReading):
            continue
        if known and one.meter not in known:
            there = ", ".join(known)
            edge.say(f"first reading of {one.meter!r}; the meters so far: {there}")
        asked = replace(_as_before(one, before), where="this reading")
        mine = [old for old in before if old.meter == one.meter]
        _, said = dial_intervals([*mine, asked])
        new = [finding for finding in said if finding.where.startswith(asked.where)]
        if new:
            edge.say(findings_text(tuple(new)))


def _as_before(one: MeterReading, before: Iterable[MeterReading]) -> MeterReading:
    """A dial that is not new keeps what an earlier line said of it."""
    from dataclasses import replace

    if one.is_new:
        return one
    for old in sorted(before, key=lambda line: line.date, reverse=True):
        if old.meter == one.meter and old.date <= one.date:
            digits = old.digits if one.digits is None else one.digits
            times = old.multiplier if one.multiplier is None else one.multiplier
            return replace(one, digits=digits, multiplier=times)
    return one
