"""A folder's files as edited in; what they say, what is unsaved, and the saves, out.

Nothing is on disk until it is saved, but for a file beside the site that keeps the
edits against a crash.
"""

from collections.abc import Iterable
from contextlib import suppress
from dataclasses import replace
from typing import TYPE_CHECKING

from scheduler.errors import Finding, SaveError, SchedulerError
from scheduler.units import System, shown
from tui.given_edit import given_edit, texts_after, without_given, zone_ids
from tui.session import Session, apply_edit, own_zone_plan, with_edits
from tui.what_if import Edit, in_force

if TYPE_CHECKING:
    from scheduler.files.field_edits import Typed
    from scheduler.files.folder_edits import Conflict, FolderEdits
    from scheduler.files.site_things import Field, Kind, Section, Thing
    from scheduler.files.text_changes import Change

# tables of a zone whose keys the week may have had to guess
_GUESSED = ("", "plant", "pots", "soil", "intake")
MOST_LINES = 14


# --- what the files say ------------------------------------------------------


def given_things(given: "FolderEdits") -> "tuple[Thing, ...]":
    """Everything that the TOML files of the folder hold, as edited."""
    from scheduler.files.broken_lines import broken_lines
    from scheduler.files.site_things import things

    return (
        *broken_lines(given.now),
        *things({n: t for n, t in given.now.items() if t}),
    )


def kind_named(name: str) -> "Kind | None":
    """The kind of thing whose table has that name."""
    from scheduler.files.site_things import KINDS

    return next((one for one in KINDS if one.name == name), None)


def unread_files(given: "FolderEdits") -> tuple[str, ...]:
    """Files that do not read as TOML, or not as text at all."""
    from scheduler.files.site_things import FILES
    from scheduler.files.toml_scan import is_toml

    return tuple(one for one in FILES if not is_toml(given.now.get(one, "=")))


def thing_key(thing: "Thing") -> str:
    """What tells a thing from all others, for a list on the screen."""
    return "/".join(map(str, (thing.kind.name or "site", *thing.place[1:])))


def given_sections(
    given: "FolderEdits", thing: "Thing", units: System
) -> "tuple[Section, ...]":
    """Tables and fields of a thing, as edited; new keys in the unit system."""
    from scheduler.files.broken_lines import NAME, line_section
    from scheduler.files.site_things import sections

    text = given.now[thing.kind.file]
    if thing.kind.name == NAME:
        return (line_section(text, thing),)
    return sections(text, thing, units)


def own_units(session: Session) -> System:
    """Unit system of keys that are not in the files yet."""
    site = session.site_folder.site if session.site_folder is not None else None
    return site.units if site is not None else session.units


def disk_fields(
    given: "FolderEdits", thing: "Thing"
) -> "dict[tuple[str, str], Field] | None":
    """Fields of a thing as they are on disk, by table and name; None for a new one."""
    from scheduler.files.broken_lines import NAME, line_section
    from scheduler.files.site_things import sections, things
    from scheduler.files.toml_scan import is_toml

    text = given.disk[thing.kind.file].text
    if thing.kind.name == NAME:
        return {("", NAME): line_section(text, thing).fields[0]}
    if not is_toml(text):  # as it is now: what is changed is named by its line
        text = given.now[thing.kind.file]
    there = things({thing.kind.file: text}) if text else ()
    alike = [one for one in there if one.kind == thing.kind and one.is_given]
    same = [one for one in alike if one.name == thing.name] or [
        one for one in alike if one.place == thing.place
    ]
    if not same:
        return None
    return {
        (part.words, one.field.name): one
        for part in sections(text, same[0])
        for one in part.fields
        if one.typed
    }


def guess(session: Session, thing: "Thing", section: "Section", field: "Field") -> str:
    """What the week takes for a field that the files do not give; may be empty."""
    if thing.kind.name != "zone" or section.words not in _GUESSED:
        return ""
    plan = own_zone_plan(session, thing.name)
    found = plan.trace.find(field.field.name) if plan is not None else None
    if found is None or found.value is None:
        return ""
    if isinstance(found.value, str):
        return found.value
    return shown(found.value, field.field.suffix, session.units)


# --- what is edited ----------------------------------------------------------


def typed(
    given: "FolderEdits", at: "tuple[Thing, Section, Field]", text: str
) -> "Typed":
    """What is typed into a field, checked against all TOML files of the folder."""
    from scheduler.files.broken_lines import NAME, typed_line
    from scheduler.files.field_edits import typed_into

    if at[0].kind.name == NAME:
        return typed_line(given, at[0], text)
    return typed_into(given, *at, text)


def with_more(given: "FolderEdits", kind: "Kind", units: System) -> "FolderEdits":
    """The files with one more thing of a kind.

    Raises
    ------
    SaveError
        If there can be only one, or the layout of the file does not allow it.
    """
    from scheduler.files.field_edits import added

    return added(given, kind, units)


def with_twin(given: "FolderEdits", thing: "Thing") -> "FolderEdits":
    """The files with a thing once more.

    Raises
    ------
    SaveError
        If it is no thing of a list.
    """
    from scheduler.files.field_edits import copied

    return copied(given, thing)


def without(
    given: "FolderEdits", thing: "Thing", section: "Section | None" = None
) -> "FolderEdits":
    """The files without a thing, or without one table of it.

    Raises
    ------
    SaveError
        If it is not there, or is the last of its list.
    """
    from scheduler.files.broken_lines import NAME
    from scheduler.files.field_edits import removed, without_section

    if thing.kind.name == NAME:
        fix = "enter types into it; with nothing typed an empty line stays"
        raise SaveError(f"{thing.name} is to be corrected", fix)
    if section is not None and section.words:
        return without_section(given, thing, section)
    alike = [one for one in given_things(given) if one.kind == thing.kind]
    if thing.kind.file != "site.toml" and len(alike) == 1:
        what = f"{thing.name} is the last {thing.kind.words}"
        raise SaveError(what, f"delete {thing.kind.file} by hand if none is wanted")
    if not thing.kind.name:
        raise SaveError("the site itself stays", "remove one of its tables")
    return removed(given, thing)


def what_is_new(given: "FolderEdits") -> tuple[Finding, ...]:
    """What the edits make wrong that was not wrong before, worst first."""
    from scheduler.files.folder_edits import new_findings

    rank = {"stop": 0, "warning": 1, "note": 2}
    return tuple(sorted(new_findings(given), key=lambda one: rank[one.level]))


def all_changes(given: "FolderEdits") -> "tuple[tuple[str, Change], ...]":
    """Everything that is not saved, file by file."""
    return tuple((file, one) for file in given.changed for one in given.changes(file))


def change_line(file: str, one: "Change") -> str:
    """One change in a line: `zones.toml  Z4 area_ft2  21600 → 20000`."""
    place = " ".join(
        str(part + 1) if isinstance(part, int) else part.replace("_", " ")
        for part in one.place
        if part not in ("zone", "package", "option") or len(one.place) == 1
    )
    if one.is_table:
        lines = (one.now or one.was).count("\n")
        deed = "added" if one.now else "removed"
        return f"{file}  {place}  {deed}, {lines} lines"
    key = one.key or one.key_was
    was, now = one.was or "not given", one.now or "not given"
    if one.was and one.now and one.key != one.key_was:
        key, was, now = "", f"{one.key_was} = {was}", f"{one.key} = {now}"
    return "  ".join(
        part for part in (file, f"{place} {key}".strip(), f"{was} → {now}") if part
    )


def change_lines(given: "FolderEdits", most: int = MOST_LINES) -> list[str]:
    """What a save would write, a line a change."""
    lines = [change_line(*one) for one in all_changes(given)]
    if len(lines) <= most:
        return lines
    return [*lines[: most - 1], f"and {len(lines) - most + 1} more"]


# --- saved, and read again ---------------------------------------------------


def saved(session: Session, given: "FolderEdits") -> Session:
    """Write the edits; the session knows the files as they are on disk then.

    Raises
    ------
    SaveError
        If they would not read, somebody else changed a file, or the disk refuses.
    """
    from scheduler.files.folder_edits import saved_edits

    done, was = saved_edits(given), session.given
    # what the session was planned from stays its own: an edit that is saved before it
    # was planned is still to be planned
    return replace(session, given=replace(done, now=was.now) if was else done)


def reopened(old: Session | None, fresh: Session, edits: Iterable[Edit]) -> Session:
    """A folder read again, with what-ifs and unsaved edits standing as before.

    Where a file was changed on disk, undo no longer goes back behind that; a file that
    was edited here as well stays a difference until somebody settles it.

    Raises
    ------
    QuantityError
        If a what-if no longer fits.
    """
    edits = tuple(edits)
    if old is None or old.given is None or fresh.given is None:
        return with_edits(fresh, without_given(edits))
    # as asked for, planned or not yet
    was, now = texts_after(old.given, old.opened, edits), fresh.given
    if {n: one.digest for n, one in was.disk.items()} == {
        n: one.digest for n, one in now.disk.items()
    }:
        return with_edits(replace(fresh, opened=old.opened), edits)
    mine = _carried(was, now)
    as_read = mine.with_texts({})
    start = replace(fresh, given=as_read, opened=as_read)
    return with_edits(start, _only_last(edits, mine))


def reopened_without_lost(
    old: Session | None, fresh: Session, edits: Iterable[Edit]
) -> Session:
    """A folder read again with those what-ifs that still fit it."""
    edits = tuple(edits)
    try:
        return reopened(old, fresh, edits)
    except SchedulerError:
        files = (one for one in edits if one.what in ("units", "given"))
        found = reopened(old, fresh, files)
    for one in in_force(edits):
        with suppress(SchedulerError):
            found = apply_edit(found, one)
    return found


def _carried(was: "FolderEdits", now: "FolderEdits") -> "FolderEdits":
    """The files as read now, with the edits of before on those nobody else changed."""
    for file in was.changed:
        there = now.disk.get(file)
        if there is None or there.digest != was.disk[file].digest:
            if there is not None and there.text == was.now[file]:
                continue
            now = replace(now, disk={**now.disk, file: was.disk[file]})
        now = now.with_text(file, was.now[file])
    return now


def _only_last(edits: Iterable[Edit], given: "FolderEdits") -> tuple[Edit, ...]:
    ids = zone_ids(given)  # a rename that was not saved may be gone
    later: tuple[tuple[str, str], ...] = ()
    found: list[Edit] = []
    for one in reversed(without_given(edits)):
        there = tuple(pair for pair in one.renamed if _at_last(pair[1], later) in ids)
        found.append(replace(one, renamed=there))
        later = (*one.renamed, *later)
    what_ifs = tuple(reversed(found))
    return (*what_ifs, given_edit(given, "edits")) if given.changed else what_ifs


def _at_last(zone_id: str, renamed: Iterable[tuple[str, str]]) -> str:
    """Id of a zone after it was renamed, once or again and again."""
    for was, now in renamed:
        zone_id = now if zone_id == was else zone_id
    return zone_id


def resumed(session: Session, kept: "FolderEdits") -> Session:
    """A session that goes on with edits of before; to be computed by its edits."""
    as_read = kept.with_texts({})
    edits = _only_last(session.edits, kept)
    return replace(session, given=as_read, opened=as_read, edits=edits)


# --- somebody else's changes -------------------------------------------------


def changed_on_disk(given: "FolderEdits") -> tuple[str, ...]:
    """Files that are not on disk as they were read or saved."""
    from scheduler.files.folder_edits import read_texts

    now = read_texts(given.folder).disk
    names = dict.fromkeys((*given.disk, *now))
    return tuple(
        one
        for one in names
        if one not in now
        or one not in given.disk
        or now[one].digest != given.disk[one].digest
    )


def differences(given: "FolderEdits") -> "tuple[Conflict, ...]":
    """Files that were edited here and changed on disk meanwhile."""
    from scheduler.files.folder_edits import conflicts

    return conflicts(given)


def settled(
    session: Session, given: "FolderEdits", file: str, *, keep_mine: bool
) -> tuple[Session, tuple[str, ...]]:
    """A session with one difference settled, and my edits that found no place.

    Raises
    ------
    SaveError
        If the file on disk cannot be read.
    """
    from scheduler.files.folder_edits import kept_on_top, taken_theirs

    lost: tuple[str, ...] = ()
    if keep_mine:
        given, gone = kept_on_top(given, file)
        lost = tuple(f"{change_line(file, one)}: {why}" for one, why in gone)
    else:
        given = taken_theirs(given, file)
    return resumed(session, given), lost
