"""Files that do not read as TOML in; their broken lines as things to type into, out.

The line that the reader names is the only field of such a thing. It is corrected as
text, in its place; the rest of the file stays as it is.
"""

from collections.abc import Mapping

from scheduler.errors import Finding
from scheduler.files.field_edits import Typed
from scheduler.files.folder_edits import FolderEdits, new_findings
from scheduler.files.noun_fields import NounField
from scheduler.files.site_things import FILES, Field, Kind, Section, Thing
from scheduler.files.text_file import TextFile
from scheduler.files.toml_scan import is_toml
from scheduler.files.toml_text import parsed_toml
from scheduler.site import Noun

NAME = "line"
_KINDS = {file: Kind(NAME, file, Noun, "line", is_list=True) for file in FILES}
_FIELD = NounField(
    name=NAME, stem=NAME, suffix="", kinds=(str,), choices=(), noun=None,
    is_required=True,
)  # fmt: skip


def broken_lines(texts: Mapping[str, str]) -> tuple[Thing, ...]:
    r"""Lines that TOML refuses, file by file.

    Parameters
    ----------
    texts : mapping
        Text by file.

    Returns
    -------
    tuple of Thing
        None of a file that can be read; what is wrong stands in `about`.

    Examples
    --------
    >>> broken_lines({"zones.toml": 'id = "Z1\n'})[0].name
    'zones.toml:1'
    """
    found: dict[tuple[str, int], Thing] = {}
    for file, text in texts.items():
        for line, said in _slips(file, text):
            about = f"{said.what}; {said.fix}"
            thing = Thing(
                _KINDS[file], (NAME, file, line), f"{file}:{line}", True, line, about
            )
            found.setdefault((file, line), thing)
    return tuple(found.values())


def line_section(text: str, thing: Thing) -> Section:
    """The one field of a broken line.

    Parameters
    ----------
    text : str
        Text of its file.
    thing : Thing
        The line.

    Returns
    -------
    Section
        With the line as it stands.
    """
    lines = text.split("\n")
    typed = lines[thing.line - 1] if thing.line <= len(lines) else ""
    field = Field(_FIELD, thing.place, NAME, typed, typed, "", thing.line)
    return Section(thing.place, "", "", True, (field,), Noun)


def typed_line(edits: FolderEdits, thing: Thing, text: str) -> Typed:
    """Check what is typed in place of a broken line.

    Parameters
    ----------
    edits : FolderEdits
        The edits so far.
    thing : Thing
        The line.
    text : str
        The line as it shall be; empty leaves an empty line.

    Returns
    -------
    Typed
        Refused where TOML or the reader of the file refuses the line still; else the
        edits with it, and what they make wrong elsewhere.
    """
    file = thing.kind.file
    lines = edits.now[file].split("\n")
    lines[thing.line - 1] = text
    done = edits.with_text(file, "\n".join(lines))
    still = [one for line, one in _slips(file, done.now[file]) if line == thing.line]
    fresh = [one for one in new_findings(done) if one.level == "stop"]
    here = [one for one in fresh if one.where.startswith(f"{file}:{thing.line}:")]
    if text.lstrip().startswith("["):
        # what its table lacks can be given only once the table is there again
        here = [one for one in here if "known" in one.what]
    wrong = next(iter((*still, *here, *fresh)), None)
    return Typed(None if still or here else done, wrong)


def _slips(file: str, text: str) -> list[tuple[int, Finding]]:
    """Lines of a file that TOML refuses, each with what is wrong."""
    if is_toml(text):
        return []
    _, said = parsed_toml(TextFile(file, text, ""))
    slips = []
    for one in said:
        line = one.where.removeprefix(f"{file}:").partition(":")[0]
        if line.isdigit():
            slips.append((int(line), one))
    return slips
