"""What a remedy shows as an example could stand in the field it is shown for."""

import importlib
import pkgutil
import re
from collections.abc import Iterator

import pytest

import scheduler
from scheduler.errors import QuantityError
from scheduler.files.can_test_nouns import Meter
from scheduler.files.noun_examples import typed_example
from scheduler.files.noun_fields import fields_of
from scheduler.files.nouns import read_noun
from scheduler.files.text_file import TextFile
from scheduler.files.toml_text import parsed_toml
from scheduler.files.typed_value import typed_entry
from scheduler.noun import Noun
from scheduler.site import Plant, Window, Zone
from scheduler.units import alternatives


def said_of(model: type[Noun], text: str, key: str) -> list[str]:
    """Findings about one key; not about others that are missing."""
    toml, _ = parsed_toml(TextFile("zones.toml", text, ""))
    assert toml is not None
    _, findings = read_noun(model, toml.data, toml, ())
    return [
        str(one) for one in findings if str(one).startswith(f"zones.toml:1: {key}: ")
    ]


@pytest.mark.parametrize(
    ("model", "text", "remedy"),
    [
        (Plant, 'kc = "big"', "write kc = 0.9"),
        (Plant, "kc = true", "write kc = 0.9"),
        (Zone, 'rain_counted = "big"', "write rain_counted = 0.75"),
        (Zone, 'area_ft2 = "big"', "write area_ft2 = 4300"),
        (Zone, "days = 3", 'write days = ["mon"]'),
        (Zone, "priority = 1.5", "write priority = 2"),
        (Window, "start = 5", 'write start = "05:30"'),
        (Meter, 'minutes = "0:30"', "write the minutes: minutes = 30"),
    ],
)
def test_a_remedy_shows_a_value_of_that_field(
    model: type[Noun], text: str, remedy: str
) -> None:
    (said,) = said_of(model, text, text.partition(" ")[0])
    assert said.endswith(f"; {remedy}")


def test_a_field_that_is_typed_into_shows_its_own_example() -> None:
    with pytest.raises(QuantityError, match="not a number") as refused:
        typed_entry(fields_of(Plant)["kc"], "kc", "big")
    assert refused.value.fix == "write it like 0.9"


# --- laws over every field of every noun --------------------------------------


def nouns() -> list[type[Noun]]:
    for module in pkgutil.walk_packages(scheduler.__path__, "scheduler."):
        importlib.import_module(module.name)
    found, new = set(), [Noun]
    while new:
        inner = new.pop().__subclasses__()
        found.update(inner)
        new.extend(inner)
    return sorted(found, key=lambda one: (one.__module__, one.__name__))


def keyed() -> Iterator[tuple[type[Noun], str, str]]:
    """Every key but free texts of every noun, in every unit it may be written in."""
    for model in nouns():
        for field in fields_of(model).values():
            if field.noun is not None or "..." in typed_example(field, field.suffix):
                continue
            for suffix in alternatives(field.suffix) if field.suffix else ("",):
                key = f"{field.stem}_{suffix}" if suffix else field.name
                yield model, key, typed_example(field, suffix)


def test_every_example_is_taken_by_its_own_field() -> None:
    refused = [
        said
        for model, key, example in keyed()
        for said in said_of(model, f"{key} = {example}", key)
    ]
    assert refused == []


def test_a_number_example_shows_no_exponent() -> None:
    shown = [example for *_, example in keyed()]
    assert not [one for one in shown if re.search(r"\de[+-]?\d", one)]
