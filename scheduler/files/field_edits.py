"""Edits of a site folder and what is typed into a field in; the next edits out."""

from dataclasses import dataclass

from scheduler.errors import Finding, QuantityError, SaveError
from scheduler.files.folder_edits import FolderEdits, new_findings
from scheduler.files.site_things import Field, Kind, Section, Thing, sections, things
from scheduler.files.toml_edit import (
    with_copy,
    with_table,
    with_value,
    without_key,
    without_table,
)
from scheduler.files.toml_says import quoted
from scheduler.files.toml_scan import is_toml, known_spots
from scheduler.files.typed_value import typed_entry
from scheduler.files.zone_renaming import KEY as FORMERLY
from scheduler.files.zone_renaming import former_ids, with_id_followed


@dataclass(frozen=True, slots=True)
class Typed:
    """What came of typing into a field.

    Attributes
    ----------
    edits : FolderEdits or None
        The edits with it; None when it is refused.
    wrong : Finding or None
        What is wrong with it: a stop at this field refuses it, one elsewhere must be
        settled before the edits can be saved.
    """

    edits: FolderEdits | None
    wrong: Finding | None


def typed_into(
    edits: FolderEdits, thing: Thing, section: Section, field: Field, text: str
) -> Typed:
    """Check what is typed into a field against the whole of the TOML files.

    Parameters
    ----------
    edits : FolderEdits
        The edits so far.
    thing, section, field : Thing, Section, Field
        Where it is typed.
    text : str
        What is typed; empty takes the key out.

    Returns
    -------
    Typed
        The edits with it, and the first thing wrong with it.
    """
    file = thing.kind.file
    try:
        done = with_field(edits, thing, section, field, text)
    except (QuantityError, SaveError) as problem:
        where = f"{file}:{field.line or ''}".rstrip(":") + f": {field.key}"
        return Typed(None, Finding("stop", where, problem.what, problem.fix))
    if done is edits:
        return Typed(edits, None)
    before = {_key_of(one) for one in new_findings(edits)}
    fresh = [one for one in new_findings(done) if _key_of(one) not in before]
    fresh.sort(key=lambda one: one.level != "stop")
    wrong = fresh[0] if fresh else None
    must = field.field.is_required and not text.strip()
    stops = (one for one in fresh if one.level == "stop")
    here = [one for one in stops if _is_at(one, field, file)
            or (must and "is missing" in one.what)]  # fmt: skip
    return Typed(None, here[0]) if here else Typed(done, wrong)


def _key_of(one: Finding) -> tuple[str, str]:
    return one.what, one.where.rpartition(":")[2]


def _is_at(finding: Finding, field: Field, file: str) -> bool:
    """Whether a finding is about the value of this field, whatever its unit."""
    where, _, name = finding.where.rpartition(": ")
    return where.startswith(file) and name.startswith(field.field.stem)


def with_field(
    edits: FolderEdits, thing: Thing, section: Section, field: Field, text: str
) -> FolderEdits:
    """Edits with one field as typed; the table around it is written if need be.

    Raises
    ------
    QuantityError
        If what is typed is no value of the field.
    SaveError
        If the layout of the file does not let it be changed.
    """
    file, now = thing.kind.file, edits.now[thing.kind.file]
    if not text.strip():
        if not field.typed:
            return edits
        return edits.with_text(file, without_key(now, field.place))
    entry = typed_entry(field.field, field.key, text)
    if (entry.key, entry.value) == (field.key, field.typed) or text == field.text:
        return edits
    if not section.is_given:
        line = f"{entry.key} = {entry.value}"
        return with_section(edits, thing, section, (line,))
    done = edits.with_text(
        file, with_value(now, field.place, entry.value, key=entry.key)
    )
    if thing.kind.name == "zone" and field.place == (*thing.place, "id"):
        return with_id_followed(done, thing.place, field.text)
    return done


def with_section(
    edits: FolderEdits, thing: Thing, section: Section, lines: tuple[str, ...] = ()
) -> FolderEdits:
    """Edits with a table added to a thing: `[zone.soil]`, `[[option.items]]`.

    Raises
    ------
    SaveError
        If it is there, or the layout of the file does not let it be added.
    """
    file, within = thing.kind.file, section.place
    # the table around it: of `[[option.items]]` the option, not the list
    within = within[:-2] if isinstance(within[-1], int) else within[:-1]
    done = with_table(edits.now[file], [section.header], lines, within=within)
    return edits.with_text(file, done)


def without_section(edits: FolderEdits, thing: Thing, section: Section) -> FolderEdits:
    """Edits without one table of a thing, or without the thing.

    Raises
    ------
    SaveError
        If it is not there as a table of its own.
    """
    file = thing.kind.file
    return edits.with_text(file, without_table(edits.now[file], section.place))


# The least that a new thing says, so that the rest of the folder still reads; what is
# to be filled in is said by the findings.
_FIRST: dict[str, tuple[str, ...]] = {
    "window": ('start = "22:00"', 'end = "04:00"'),
    "blocked": ('start = "06:00"', 'end = "08:00"', 'reason = "people"'),
    "supply": ('source = "well"',),
    "controller": (),
    "tariff": ('currency = "USD"',),
    "shortage": ("cut = 0.1", 'reason = ""'),
    "zone": ("id = {id}", 'name = "new zone"', "{area}",
             'grown_in = "soil"', 'watered = "off"'),
    "package": ("id = {id}", 'name = "new package"'),
    "option": ("id = {id}", 'name = "new option"', 'deed = "replace"', "zones = [{z}]"),
    "station": ('name = "new station"', 'file = "weather/new.csv"'),
    "wind_log": ('name = "new logger"', 'file = "wind/new.csv"', 'clock = "standard"',
                 'stamp = "end"'),
}  # fmt: skip
_LETTER = {"zone": "Z", "package": "P", "option": "O", "controller": "C"}


def added(edits: FolderEdits, kind: Kind, units: str = "us") -> FolderEdits:
    """Edits with one more thing of a kind, with the least it must say.

    Parameters
    ----------
    edits : FolderEdits
        The edits so far.
    kind : Kind
        What to add.
    units : {'us', 'metric'}
        Unit system of its keys.

    Raises
    ------
    SaveError
        If it is there already and there can be only one.
    """
    if kind.file not in edits.now or not is_toml(edits.now[kind.file]):
        fix = "correct its broken lines first, or by hand what is no text in UTF-8"
        raise SaveError("cannot be read as TOML", fix, kind.file)
    text = edits.now[kind.file]
    names = [one.name for one in things(edits.now) if one.kind.name == "zone"]
    facts = {
        "id": quoted(free_id(edits, kind)),
        "area": "area_ft2 = 10000" if units == "us" else "area_m2 = 1000",
        "z": quoted(names[0]) if names else "",
    }
    is_list = kind.is_list or (kind.name, 0) in known_spots(text)
    is_clock = kind.name == "controller" and is_list  # the first one has its limits
    first = ("id = {id}",) if is_clock else _FIRST[kind.name]
    lines = [one.format(**facts) for one in first]
    header = f"[[{kind.name}]]" if is_list else f"[{kind.name}]"
    text = text or "format = 1\n"
    return edits.with_text(kind.file, with_table(text, [header], lines))


def copied(edits: FolderEdits, thing: Thing) -> FolderEdits:
    """Edits with a thing of a list once more, under an id that is free.

    Ids that a zone had before stay with it: its records are no other zone's.

    Raises
    ------
    SaveError
        If it is no thing of a list.
    """
    file, values = thing.kind.file, {}
    if thing.kind.name in _LETTER:
        values["id"] = quoted(free_id(edits, thing.kind))
    text = with_copy(edits.now[file], thing.place, values)
    twin = (thing.kind.name, sum(o.kind == thing.kind for o in things(edits.now)))
    if (*twin, FORMERLY) in known_spots(text):
        text = without_key(text, (*twin, FORMERLY))
    return edits.with_text(file, text)


def removed(edits: FolderEdits, thing: Thing) -> FolderEdits:
    """Edits without a thing.

    Raises
    ------
    SaveError
        If it is not given, or not as a table of its own.
    """
    text = edits.now[thing.kind.file]
    return without_section(edits, thing, sections(text, thing)[0])


def free_id(edits: FolderEdits, kind: Kind) -> str:
    """The next id of a list that nothing has: `Z10` behind `Z9`."""
    taken = {one.name.casefold() for one in things(edits.now) if one.kind == kind}
    if kind.name == "zone":  # an old id would bring the records of another zone
        taken |= former_ids(edits.now[kind.file])
    letters = [one.rstrip("0123456789") for one in sorted(taken)]
    usual = max(letters, key=letters.count).upper() if letters else ""
    letter = usual if len(usual) == 1 else _LETTER.get(kind.name, "")
    n = next(i for i in range(1, 1000) if f"{letter}{i}".casefold() not in taken)
    ends = (one.removeprefix(letter.casefold()) for one in taken)
    above = [int(one) for one in ends if one.isdigit()]
    return f"{letter}{max([n - 1, *above]) + 1}"
