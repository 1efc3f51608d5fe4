"""Lines that TOML refuses are explained and set aside; places are exact."""

import re
import tomllib
from pathlib import Path

import pytest

from scheduler.files.text_file import TextFile
from scheduler.files.toml_scan import spots
from scheduler.files.toml_text import parsed_toml

TEMPLATE = Path(__file__).parents[3] / "scheduler" / "files" / "template"


def said(text: str) -> list[str]:
    return [str(one) for one in parsed_toml(TextFile("site.toml", text, ""))[1]]


@pytest.mark.parametrize(
    ("line", "remedy"),
    [
        ("du = .7", "write du = 0.7"),
        ("du = -.7", "write du = -0.7"),
        ("du = 7.", "write du = 7.0"),
        ("du = 0,7", "write du = 0.7"),
        ("area_m2 = 1,250", "write area_m2 = 1250 or area_m2 = 1.250"),
        ("start = 05:30", 'write start = "05:30"'),
        ("start = 5:30  # early", 'write start = "05:30"'),
        ("minutes = 0:30", "write minutes = 30 for half an hour"),
        ("is_arid = yes", "write true"),
        ("is_arid = No", "write false"),
        ("is_arid = TRUE", "write true"),
        ("texture = sandy loam", 'write texture = "sandy loam"'),
        ("name = “north”", 'write plain quotes: name = "..."'),
        ('name = "north', 'put " behind the text'),
        ("name = 'north", "put ' behind the text"),
        ('file = "weather\\quellan.csv"', 'write file = "weather/quellan.csv"'),
        ("date = 5/12/2026", "write date like 2026-05-12"),
        ("date = 2026-5-12", "write date like 2026-05-12"),
        ("start = 20 April", "write start like 2026-05-12"),
        ("start = 20. Apr 2026", "write start like 2026-05-12"),
        ("slope = 2 %", "write slope = 0.02"),
        ("area = 5 ft2", "with the unit at the end of the key"),
        ("valve = 012", "write valve = 12"),
        ("area_m2 =", "write a value behind area_m2 ="),
        ("area m2 = 5", "write key = value"),
        ("just words", "write key = value, or put # before a remark"),
        ("a = 1 b = 2", "write one value behind a ="),
        ('days = ["mon" "tue"]', 'between "mon" and "tue"; write "mon", "tue"'),
        ("kc = [0.3, 0.4 0.5]  # x", "between 0.4 and 0.5; write 0.4, 0.5"),
        ('days = ["row 1 2", tue]', "write the items with commas between them"),
        ('name = Yard"', 'is Yard": the quote is closed but not opened; put " before'),
        ("area_m2 = 5\narea_m2 = 6", "first on line 1; keep one of the two lines"),
        ("[place\nx = 1", "write [place], or [[place]] for one of several"),
        ("[place]\nx = 1\n[place]\ny = 2", "stands twice; join the two"),
        (
            'days = ["mon", "tue"\narea_m2 = 5',
            'is ["mon", "tue": it opens a list that is not closed; add ]',
        ),
        (
            'days = ["mon",\n  "tue",\n\n',
            'site.toml:2: days: is "tue",: the last line of a list that is not closed; '
            "add ]",
        ),
        (
            'days = [\n  "mon",\n  tue",\n]',
            'site.toml:3: days: is tue",: an item of a list that cannot be read; write',
        ),
        ('days = [\n  "mon",\n  "tue"\x01,\n]', "site.toml:3: days: holds a character"),
        (
            'days = [\n  "mon"  # dry\n  # so it is\n  "tue"\n]',
            'site.toml:2: days: is "mon": a comma is missing before "tue" on line 4; '
            'write "mon",',
        ),
        (
            'days = ["mon"\n  "tue"]',
            'site.toml:1: days: is ["mon": a comma is missing before "tue"] on line 2',
        ),
        (
            'name = """Old beds"\nvalve = "2"\n\n[a]\nb = "c"',
            'site.toml:1: name: is """Old beds": """ opens a text over many lines that '
            "does not end; write one quote on each side, or",
        ),
        (
            'name = """Old beds"\n\n[a]\nnote = """fine"""',
            'site.toml:1: name: is """Old beds": """ opens a text over many',
        ),
        ("note = '''two\nlines", "site.toml:1: note: is '''two: ''' opens a text"),
        ('note = """\ntwo\nlines""" x\na = 1', 'site.toml:3: \'lines""" x\' is not a'),
        ('note = """two\nlines"""\ndu = .7', "site.toml:3: du: is .7"),
        (
            "[zone]  # one\na = 1\n[[zone]]\na = 2\n[[zone]]\na = 3",
            "site.toml:1: [zone] stands here and [[zone]] on line 3; write [[zone]]",
        ),
        (
            "[[zone]]\na = 1\n[zone]\na = 2",
            "site.toml:3: [zone] stands here and [[zone]] on line 1; write [[zone]]",
        ),
        (
            "soil = { slope = 1 depth = 2 }",
            "a table in braces cannot be read; write it on one line, as soil = { ",
        ),
        (
            'name = "Old\x00beds"',
            "name: holds a character that cannot be seen (U+0000)",
        ),
        ("du\u00a0= 5", "du: holds a character that cannot be seen (U+00A0); type the"),
        ('name = "Old\u00a0beds', 'put " behind the text'),
    ],
)
def test_a_slip_is_explained_with_what_to_write(line: str, remedy: str) -> None:
    found = said(line + "\n")
    assert len(found) == 1
    assert remedy in found[0]


def test_the_line_of_a_slip_is_named() -> None:
    assert said("format = 1\n\ndu = .7\n")[0].startswith("site.toml:3: du: ")


def test_all_slips_of_a_file_are_said_at_once() -> None:
    text = "a = .7\n[[zone]]\nb = 0,7\nc = yes\n[[zone]]\nd = 1\n"
    assert len(said(text)) == 3


def test_a_table_in_single_brackets_is_read_as_one_of_its_list() -> None:
    text = "[zone]\na = 1\n[[zone]]\na = 2\n"
    toml, _ = parsed_toml(TextFile("zones.toml", text, ""))
    assert toml is not None
    assert toml.data == {"zone": [{"a": 1}, {"a": 2}]}


def test_what_stands_beside_a_slip_is_still_read() -> None:
    text = "[[zone]]\nb = 0,7\n[[zone]]\nd = 1\n"
    toml, _ = parsed_toml(TextFile("zones.toml", text, ""))
    assert toml is not None
    assert toml.data["zone"][1] == {"d": 1}


def test_a_table_that_cannot_be_read_keeps_its_id() -> None:
    text = '[[zone]]\nid = "Z1"\njust words\nx = 1\n[[zone]]\nid = "Z2"\n'
    toml, _ = parsed_toml(TextFile("zones.toml", text, ""))
    assert toml is not None
    assert [zone["id"] for zone in toml.data["zone"]] == ["Z1", "Z2"]


def test_deep_nesting_is_refused_not_followed() -> None:
    assert "nested too deeply" in said("a = " + "[" * 50_000)[0]


MIXED = '''\
# remark
name = "a # no remark"   # remark
'quoted key' = 1
days = [
  "mon",  # first
  "tue",
]
long = """
two lines "quoted"
"""
point = { x = 1, y = [2, 3] }
a.b.c = 4

[place]
z = 5
[[zone]]
area = 6
[zone.plant]
kc = 7
[[zone.part]]
q = 8
[[zone]]
area = 9
[zone.plant]
kc = 10
'''


@pytest.mark.parametrize(
    ("path", "line", "typed"),
    [
        (("name",), 2, '"a # no remark"'),
        (("quoted key",), 3, "1"),
        (("days", 1), 6, '"tue"'),
        (("point", "y", 1), 11, "3"),
        (("a", "b", "c"), 12, "4"),
        (("place",), 14, ""),
        (("place", "z"), 15, "5"),
        (("zone", 0, "plant", "kc"), 19, "7"),
        (("zone", 0, "part", 0, "q"), 21, "8"),
        (("zone", 1), 22, ""),
        (("zone", 1, "plant", "kc"), 25, "10"),
    ],
)
def test_each_value_has_its_line_and_its_typed_form(
    path: tuple[str | int, ...], line: int, typed: str
) -> None:
    spot = spots(MIXED)[path]
    assert (spot.line, spot.typed) == (line, typed)


def _paths(data: object, at: tuple[str | int, ...] = ()) -> set[tuple[str | int, ...]]:
    found = {at} if at else set()
    pairs = (
        data.items() if isinstance(data, dict)
        else enumerate(data) if isinstance(data, list) else ()
    )  # fmt: skip
    for key, value in pairs:
        found |= _paths(value, (*at, key))
    return found


@pytest.mark.parametrize("name", ["site.toml", "zones.toml", "packages.toml"])
def test_no_value_of_a_file_lacks_its_line(name: str) -> None:
    # against the standard library's reader, which says what there is
    text = (TEMPLATE / name).read_text(encoding="utf-8")
    # the template's own names are no TOML before they are filled in
    text = re.sub(r"= \$\w+", "= 1", text)
    text = "\n".join(line for line in text.split("\n") if not line.startswith("$"))
    assert _paths(tomllib.loads(text)) - set(spots(text)) <= {("zone",), ("package",),
                                                              ("window",)}  # fmt: skip


def test_an_item_that_cannot_be_read_is_pinned_to_its_list() -> None:
    text = '[[zone]]\nid = "Z1"\ndays = [\n  "mon",\n  tue,\n]\n[[zone]]\nid = "Z2"\n'
    toml, found = parsed_toml(TextFile("zones.toml", text, ""))
    assert toml is not None
    assert toml.data["zone"][1] == {"id": "Z2"}
    assert "zones.toml:5: days: is tue,: an item of a list that" in str(found[0])


def test_a_key_that_stands_three_times_is_said_twice() -> None:
    found = said("[[zone]]\nx = 1\nx = 2\nx = 3\n")
    assert [one.split(":")[1] for one in found] == ["3", "4"]


def test_a_file_that_is_beyond_saving_is_not_read() -> None:
    toml, found = parsed_toml(TextFile("site.toml", "just words\nname = 1\n", ""))
    assert toml is None
    assert len(found) == 1
