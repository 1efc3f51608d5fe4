"""A change sheet and a language in; the same sheet in that language out."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

from scheduler.reports.handed.change_sheet import ChangedZone, ChangeSheet, Instead
from scheduler.reports.language import Language

# what blocks a zone is a finding of many words; the manager settles it
BLOCKED = "its data do not fit together: ask the manager"


def sheet_in(sheet: ChangeSheet, language: Language) -> ChangeSheet:
    """A sheet in another language; names and reasons that people wrote stay."""
    if language.code == "en":
        return sheet
    say, each = language.say, _each
    return replace(
        sheet,
        week=say(sheet.week),
        made=language.data(sheet.made),
        changed=tuple(_zone(one, language) for one in sheet.changed),
        blocked=tuple((say(who), say(BLOCKED)) for who, _ in sheet.blocked),
        same=each(sheet.same, language),
        nights=tuple(map(language.data, sheet.nights)),
        skips=tuple(
            replace(one, rain=tuple(map(language.data, one.rain)))
            for one in sheet.skips
        ),
        rain_unit=language.unit(sheet.rain_unit),
        crosses=say(sheet.crosses),
        warnings=each(sheet.warnings, language),
        instead=tuple(
            Instead(
                say(one.why), each(one.programs, language), each(one.water, language)
            )
            for one in sheet.instead
        ),
        language=language.code,
    )


def _zone(one: ChangedZone, language: Language) -> ChangedZone:
    say = language.say
    return replace(
        one,
        now=say(one.now),
        detail=say(one.detail),
        starts=_each(one.starts, language),
        nights=say(one.nights),
        why=language.each(one.why, ", "),
        no_room=language.data(one.no_room),
    )


def _each(texts: Iterable[str], language: Language) -> tuple[str, ...]:
    return tuple(map(language.say, texts))
