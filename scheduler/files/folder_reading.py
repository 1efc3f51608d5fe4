"""A folder of text files in; each file as text, TOML or nouns, and findings, out."""

import difflib
from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass, field
from pathlib import Path
from typing import TypeVar

from scheduler.errors import Finding, Level
from scheduler.files.nouns import read_noun
from scheduler.files.text_file import TextFile, decoded_text, is_there, read_text_file
from scheduler.files.toml_scan import Path as Keys
from scheduler.files.toml_text import TomlText, format_findings, parsed_toml
from scheduler.site import Noun

N = TypeVar("N", bound=Noun)


@dataclass(slots=True)
class FolderReading:
    """One folder while it is read, and what came up so far.

    Attributes
    ----------
    folder : Path
        The folder on disk.
    name : str
        How findings name it, with a slash behind; empty for the site folder itself.
    findings : list of Finding
        Everything wrong so far.
    digests : dict
        Fingerprint of each file read, by its place in the site folder.
    texts : mapping
        What stands in a file in place of what is on disk, for edits not saved yet.
    former : mapping
        Id of today of a zone, by each id it had before, in small letters.
    disputed : frozenset of str
        Ids that two zones had before, in small letters: they are followed to neither.
    """

    folder: Path
    name: str = ""
    findings: list[Finding] = field(default_factory=list)
    digests: dict[str, str] = field(default_factory=dict)
    texts: Mapping[str, str] = field(default_factory=dict)
    former: Mapping[str, str] = field(default_factory=dict)
    disputed: frozenset[str] = frozenset()

    def has(self, name: str) -> bool:
        """Whether a file is there, on disk or as an edit."""
        return f"{self.name}{name}" in self.texts or is_there(self.folder / name)

    def say(self, level: Level, where: str, what: str, fix: str) -> None:
        """Add a finding."""
        self.findings.append(Finding(level, where, what, fix))

    def file(self, name: str) -> TextFile | None:
        """Text of a file in the folder, or None with a finding."""
        where = f"{self.name}{name}"
        if where in self.texts:
            file, said = decoded_text(self.texts[where].encode(), where)
        else:
            file, said = read_text_file(self.folder / name, where)
        self.findings += said
        if file is not None:
            self.digests[file.where] = file.digest
        return file

    def toml(self, name: str) -> TomlText | None:
        """A TOML file of format 1 in the folder, or None with a finding."""
        file = self.file(name)
        if file is None:
            return None
        toml, said = parsed_toml(file)
        self.findings += said
        if toml is None:
            return None
        refused = format_findings(toml)
        self.findings += refused
        return None if any(one.level == "stop" for one in refused) else toml

    def noun(
        self,
        model: type[N],
        toml: TomlText,
        keys: Keys,
        *,
        skip: Collection[str] = (),
    ) -> N | None:
        """The noun at a place of a TOML file, or None with findings."""
        table: object = toml.data
        for key in keys:
            table = table[key]  # type: ignore[index]
        noun, said = read_noun(model, table, toml, keys, skip=skip)
        self.findings += said
        return noun

    def nouns(self, model: type[N], toml: TomlText, name: str) -> dict[int, N]:
        """Nouns of a list of tables that could be read, by their place in the list."""
        tables = toml.data.get(name, [])
        if not isinstance(tables, list):
            fix = f"write [[{name}]] for each of them"
            self.say("stop", toml.place((name,)), "is one table, not a list", fix)
            return {}
        read = {i: self.noun(model, toml, (name, i)) for i in range(len(tables))}
        return {i: noun for i, noun in read.items() if noun is not None}


def did_you_mean(name: str, known: Sequence[str], file: str) -> str:
    """What to do about a name that is not there."""
    close = difflib.get_close_matches(name, known, n=1)
    if close:
        return f"did you mean {close[0]}?"
    listed = f" ({', '.join(known)})" if 0 < len(known) <= 8 else ""
    return f"add it to {file}, or use one that is there{listed}"
