"""log.csv of a site folder in; its facts, and everything wrong with it, out."""

import difflib
from collections.abc import Collection, Iterable, Sequence
from dataclasses import replace

from scheduler.errors import Finding
from scheduler.files.folder_reading import FolderReading
from scheduler.files.former_ids import facts_of_today, if_renamed
from scheduler.files.log_kinds import NAME
from scheduler.files.log_line import fact_of
from scheduler.files.log_rows import LogRow, log_rows
from scheduler.files.text_file import digest_of, is_there
from scheduler.log import Entry, FrostNight, Log, MeterReading, Repair

_ODD_STARTS = (b"\xff\xfe", b"\xfe\xff", b"PK\x03\x04")
_SAME = ("date", "time", "what", "zone", "item", "details", "note")


def read_log(
    reading: FolderReading,
    zones: Sequence[str] | None,
    packages: Sequence[str] | None,
) -> Log:
    """Read the log of a site, which a site need not have.

    Parameters
    ----------
    reading : FolderReading
        The site folder; findings are added to it.
    zones, packages : sequence of str or None
        Ids that are known; None when one may be lost, so that none can be missed.

    Returns
    -------
    Log
        Every line that could be read.
    """
    data = _bytes(reading)
    if data is None:
        return Log()
    found = log_rows(data)
    reading.findings += found.findings
    facts: list[Entry] = []
    for row in _once(found.rows, reading):
        fact, said = fact_of(row.cells, row.where, row.typed)
        reading.findings += said
        if fact is not None:
            facts.append(fact)
    log = Log(tuple(_with_meters_kept(facts_of_today(facts, reading.former))))
    reading.findings += _unknown_names(log, "zone", zones, reading.disputed)
    reading.findings += _unknown_names(log, "package", packages)
    reading.findings += _meter_findings(log)
    reading.findings += _check_findings(log)
    return log


def _bytes(reading: FolderReading) -> bytes | None:
    """What is in the file; None where there is no text, with a finding if need be."""
    path = reading.folder / NAME
    if not is_there(path):
        return None
    try:
        data = path.read_bytes() if path.is_file() else None
    except OSError:
        data = None
    if data is not None and not data.strip(b"\0 \t\r\n"):
        return None  # as a program leaves it that was killed before its first line
    if data is None or data.startswith(_ODD_STARTS):
        reading.file(NAME)  # which says what it is
        return None
    reading.digests[NAME] = digest_of(data)
    return data


def _once(rows: Iterable[LogRow], reading: FolderReading) -> Iterable[LogRow]:
    """Rows without those that say again what a row above says."""
    first: dict[tuple[str, ...], LogRow] = {}
    for row in rows:
        key = tuple(row.cells.get(one, "").casefold() for one in _SAME)
        if key in first:
            what = f"says the same as line {first[key].line}, so it is not counted"
            fix = "delete it, or add times if both happened"
            reading.say("warning", row.where, what, fix)
            continue
        first[key] = row
        yield row


# --- meters ------------------------------------------------------------------


def _with_meters_kept(facts: Sequence[Entry]) -> list[Entry]:
    """Facts in which a meter keeps what an earlier reading said of its dial."""
    last: dict[str, MeterReading] = {}
    kept: dict[int, MeterReading] = {}
    place = {id(one): i for i, one in enumerate(facts)}
    for one in Log(tuple(facts)).of(MeterReading):
        before = last.get(one.meter)
        whole = one if before is None else _with_kept(one, before)
        last[one.meter] = kept[place[id(one)]] = whole
    return [kept.get(i, one) for i, one in enumerate(facts)]


def _with_kept(one: MeterReading, before: MeterReading) -> MeterReading:
    says_zones = bool(one.zones) or one.is_shared
    same_dial = not one.is_new
    return replace(
        one,
        multiplier=before.multiplier
        if one.multiplier is None and same_dial
        else one.multiplier,
        digits=before.digits if one.digits is None and same_dial else one.digits,
        zone=one.zone if says_zones else before.zone,
        zones=one.zones if says_zones else before.zones,
        is_shared=one.is_shared if says_zones else before.is_shared,
    )


def _meter_findings(log: Log) -> list[Finding]:
    found, seen = [], set()
    for one in log.of(MeterReading):
        if one.multiplier is None and one.meter not in seen:
            seen.add(one.meter)
            what = f"{one.meter!r} says no multiplier ({one.typed!r}); taken as 1"
            fix = "add multiplier 1, or what stands on the dial, such as multiplier 100"
            found.append(Finding("note", f"{one.where}: multiplier", what, fix))
    return found


# --- what the lines say together ---------------------------------------------


def _unknown_names(
    log: Log,
    noun: str,
    known: Sequence[str] | None,
    disputed: Collection[str] = (),
) -> list[Finding]:
    """Names that zones.toml or packages.toml does not hold, each said once."""
    if known is None:
        return []
    lines: dict[str, list[Entry]] = {}
    for one in log.entries:
        for name in _names(one, noun):
            if name not in known:
                lines.setdefault(name, []).append(one)
    findings = []
    for name, ones in lines.items():
        what = f"there is no {noun} {name!r} in {noun}s.toml"
        if len(ones) > 1:
            more = (
                "1 more line names"
                if len(ones) == 2
                else f"{len(ones) - 1} more lines name"
            )
            what += f" ({more} it)"
        then = if_renamed(name, disputed) if noun == "zone" else ""
        fix = _named(name, noun, known, then)
        findings.append(Finding("warning", f"{ones[0].where}: {noun}", what, fix))
    return findings


def _named(name: str, noun: str, known: Sequence[str], then: str) -> str:
    """What to do about a name that is not there."""
    words = name.split()
    if len(words) > 1 and all(one in known for one in words):
        return f"write {'; '.join(words)} if these are several"
    alike = [one for one in known if one.casefold() == name.casefold()]
    near = alike or difflib.get_close_matches(name, known, n=1)
    meant = f"did you mean {near[0]}? " if near else ""
    return f"{meant}a {noun} that is gone may stay in the log; its lines are kept{then}"


def _names(one: Entry, noun: str) -> tuple[str, ...]:
    if noun == "package":
        return (one.package,) if isinstance(one, Repair) and one.package else ()
    if isinstance(one, MeterReading | FrostNight):
        return one.zones
    return (one.zone,) if one.zone else ()


def _check_findings(log: Log) -> list[Finding]:
    """Pots of one leaching check that stand twice or tell other minutes."""
    findings = []
    for check in log.leaching_checks():
        seen: dict[str, str] = {}
        for pot in check.pots:
            place = pot.place.casefold()
            if place in seen:
                what = f"pot {pot.place!r} stands in this check already ({seen[place]})"
                fix = "correct its place, or delete the wrong one; both are counted"
                findings.append(Finding("warning", f"{pot.where}: item", what, fix))
            seen.setdefault(place, pot.where)
        said = [one for one in check.pots if one.minutes is not None]
        other = next((one for one in said if one.minutes != said[0].minutes), None)
        if other is not None:
            what = (
                f"ran {other.minutes:g} min, but {said[0].minutes:g} min in "
                f"{said[0].where}: the minutes of the check are not known"
            )
            fix = "correct one; pots of one watering ran the same minutes"
            findings.append(Finding("warning", f"{other.where}: ran", what, fix))
    return findings
