"""A site folder's texts and a tried value in; the texts with it, as typed, out.

Each function writes one what-if where a person would: in the unit that the file has it
in, its remarks kept. What stood in its way, such as another source of Kc, goes.
"""

import math
from collections.abc import Iterable, Mapping
from decimal import Decimal

from scheduler.errors import SaveError
from scheduler.files.field_edits import added, copied, with_field, without_section
from scheduler.files.folder_edits import FolderEdits
from scheduler.files.site_things import (
    KINDS,
    Field,
    Kind,
    Section,
    Thing,
    sections,
    things,
)
from scheduler.money.assumed import Then
from scheduler.plant import OWN
from scheduler.units import converted

# of what no one typed in the unit of the key: enough to read back, few enough to read
DIGITS = 6
# a number that ends before this many digits was typed so
MOST_TYPED = 8
# of a factor on top of another: two from the dial on two of the file
FACTOR_DECIMALS = 4
KEPT_FROM = "tried in the dashboard, and kept"
_OTHERS = (*OWN, "dual", "ground_cover", "kc_factor")


def with_zone_value(
    edits: FolderEdits, zone_id: str, name: str, value: str | float
) -> FolderEdits:
    """The texts with one key of a zone's own table.

    Raises
    ------
    SaveError
        If there is no such zone, or its file cannot be edited.
    QuantityError
        If the zone does not allow the value.
    """
    return _with(edits, _thing(edits, "zone", zone_id), "", {name: value})


def with_kc(edits: FolderEdits, zone_id: str, kc: float) -> FolderEdits:
    """The texts with one entered coefficient in place of the zone's own.

    Raises
    ------
    SaveError
        If there is no such zone, or no plant in it.
    """
    for name in _OTHERS:
        zone = _thing(edits, "zone", zone_id)
        inner = _section(edits, zone, f"plant {name.replace('_', ' ')}")
        if inner is not None and inner.is_given:
            edits = without_section(edits, zone, inner)
        zone = _thing(edits, "zone", zone_id)
        edits = _with(edits, zone, "plant", {name: ""}, only_given=True)
    zone = _thing(edits, "zone", zone_id)
    return _with(edits, zone, "plant", {"kc": kc, "kc_from": KEPT_FROM})


def with_kc_factor(edits: FolderEdits, zone_id: str, factor: float) -> FolderEdits:
    """The texts with every plant of a zone using so many times as much.

    Raises
    ------
    SaveError
        If there is no such zone.
    """
    zone = _thing(edits, "zone", zone_id)
    for section in _given(edits, zone):
        if section.words == "plant" or section.words.endswith(" plant"):
            now = _field(section, "kc_factor")
            own = float(now.text) if now.typed else 1.0
            told = {"kc_factor": round(own * factor, FACTOR_DECIMALS)}
            edits = _with(edits, zone, section.words, told)
    return edits


def with_allowed(edits: FolderEdits, zone_id: str, part: float) -> FolderEdits:
    """The texts with another part of the water that soil or pots may lose.

    Raises
    ------
    SaveError
        If there is no such zone.
    """
    zone = _thing(edits, "zone", zone_id)
    for section in _given(edits, zone):
        if section.words.split(" ")[-1] in ("soil", "pots"):
            told = {"allowed_depletion": part}
            edits = _with(edits, zone, section.words, told)
    return edits


def with_pump(edits: FolderEdits, flow_l_per_min: float) -> FolderEdits:
    """The texts with another flow of the pump.

    Raises
    ------
    SaveError
        If site.toml cannot be edited.
    """
    thing = _thing(edits, "supply")
    return _with(edits, thing, "", {"flow_l_per_min": flow_l_per_min})


def with_move_worth(edits: FolderEdits, part: float) -> FolderEdits:
    """The texts with another worth of a moved watering, a part of its water.

    Raises
    ------
    SaveError
        If site.toml cannot be edited.
    """
    if not _thing(edits, "controller").is_given:
        edits = added(edits, _kind("controller"))
    return _with(edits, _thing(edits, "controller"), "", {"move_worth": part})


def with_price(edits: FolderEdits, what: str, value: float) -> FolderEdits:
    """The texts with another price of water or energy, interest or life.

    Parameters
    ----------
    edits : FolderEdits
        The texts.
    what : str
        As `parsed_assumption` takes it.
    value : float
        Money per m3 or kWh, a part of one, or years.

    Returns
    -------
    FolderEdits
        A price of energy holds at every hour, interest and life for every option; what
        said otherwise goes.

    Raises
    ------
    SaveError
        If a file cannot be edited.
    """
    if what == "life":
        return _with_life(edits, value)
    if not _thing(edits, "tariff").is_given:
        edits = added(edits, _kind("tariff"))
        edits = _with(edits, _thing(edits, "tariff"), "", {"currency": "money"})
    tariff = _thing(edits, "tariff")
    if what == "interest":
        for option in _options(edits):
            edits = _with(edits, option, "", {"interest": ""}, only_given=True)
        return _with(edits, tariff, "", {"interest": value})
    if what == "water price":
        return _with(edits, tariff, "", {"water_price_money_per_m3": value})
    for section in reversed(_given(edits, tariff)):
        if section.words.startswith("period"):
            edits = without_section(edits, tariff, section)
    tariff = _thing(edits, "tariff")
    return _with(edits, tariff, "", {"energy_price_money_per_kwh": value})


def _with_life(edits: FolderEdits, years: float) -> FolderEdits:
    for option in _options(edits):
        edits = _with(edits, option, "", {"life_years": years})
        for item in _given(edits, option):
            if item.words.startswith("items"):
                told: dict[str, str | float] = {"life_years": ""}
                edits = _with(edits, option, item.words, told, only_given=True)
    return edits


def with_then(
    edits: FolderEdits, option_id: str, zone_id: str, then: Then
) -> FolderEdits:
    """The texts with a package, or another spacing of it, in an option.

    Raises
    ------
    SaveError
        If there is no such package, or a file cannot be edited.
    """
    package = then.package
    if then.du_lq is not None:
        edits, package = _with_spaced(edits, then)
    if option_id not in {one.name for one in _options(edits)}:
        edits = added(edits, _kind("option"))
        fresh = {
            "name": f"{then} in {zone_id}, no price", "deed": "re-space",
            "zones": zone_id, "id": option_id,
        }  # fmt: skip
        for name, text in fresh.items():
            edits = _with(edits, _options(edits)[-1], "", {name: text})
    told: dict[str, str | float] = {
        "package": package, "du_lq": then.du_lq or "", "du_lq_low": "",
        "du_lq_high": "", "tested_days": "", "done_on": "",
        "du_from": f"map of {then}, one head's cans laid over each other in still air"
        if then.du_lq is not None else "",
    }  # fmt: skip
    for name, value in told.items():
        option = _thing(edits, "option", option_id)
        edits = _with(edits, option, "", {name: value}, only_given=value == "")
    return edits


def _with_spaced(edits: FolderEdits, then: Then) -> tuple[FolderEdits, str]:
    """The texts with the same heads at another spacing, as a package of its own."""
    name = str(then)
    names = {one.name for one in _all(edits) if one.kind.name == "package"}
    if name not in names:
        edits = copied(edits, _thing(edits, "package", then.package))
        fresh = next(
            one for one in _all(edits)
            if one.kind.name == "package" and one.name not in names
        )  # fmt: skip
        edits = _with(edits, fresh, "", {"id": name})
    told: dict[str, str | float] = {
        "spacing_m": then.spacing_m or "", "row_spacing_m": then.row_spacing_m or "",
        "layout": then.layout,
    }  # fmt: skip
    return _with(edits, _thing(edits, "package", name), "", told), name


# --- places ------------------------------------------------------------------


def _all(edits: FolderEdits) -> tuple[Thing, ...]:
    return things({name: text for name, text in edits.now.items() if text})


def _kind(name: str) -> Kind:
    return next(one for one in KINDS if one.name == name)


def _options(edits: FolderEdits) -> list[Thing]:
    return [o for o in _all(edits) if o.kind.name == "option" and o.is_given]


def _thing(edits: FolderEdits, kind: str, name: str = "") -> Thing:
    alike = [one for one in _all(edits) if one.kind.name == kind]
    mine = [one for one in alike if one.name.casefold() == name.casefold() or not name]
    if not mine:
        what = f"there is no {kind} {name}".rstrip()
        raise SaveError(what, "settle what the findings say of its file")
    return mine[0]


def _given(edits: FolderEdits, thing: Thing) -> list[Section]:
    if not thing.is_given:
        return []
    return [one for one in sections(edits.now[thing.kind.file], thing) if one.is_given]


def _section(edits: FolderEdits, thing: Thing, words: str) -> Section | None:
    found = sections(edits.now[thing.kind.file], thing)
    return next((one for one in found if one.words == words), None)


def _field(section: Section, name: str) -> Field:
    return next(one for one in section.fields if one.field.name == name)


def _with(
    edits: FolderEdits,
    thing: Thing,
    words: str,
    told: Mapping[str, str | float],
    *,
    only_given: bool = False,
) -> FolderEdits:
    """The texts with some keys of a table; an empty one takes its key out."""
    for name, value in told.items():
        section = _section(edits, thing, words)
        if section is None:
            raise SaveError(f"{thing.name} has no {words}", "give it in its file first")
        fields: Iterable[Field] = (o for o in section.fields if o.field.name == name)
        field = next(iter(fields), None)
        if field is None or (only_given and not field.typed):
            continue
        edits = with_field(edits, thing, section, field, _typed(field, value))
    return edits


def _typed(field: Field, value: str | float) -> str:
    """A value as somebody would type it into a field, in the unit of its key."""
    if isinstance(value, str):
        return value
    own = field.field.suffix
    size = converted(value, own, to=field.suffix) if own and field.suffix else value
    return as_written(size)


def as_written(size: float) -> str:
    """A number without exponent: as somebody typed it, else in few digits.

    Examples
    --------
    >>> as_written(0.1 + 0.2), as_written(1234567.0), as_written(1.0 / 3.0)
    ('0.3', '1234567', '0.333333')
    """
    short = Decimal(f"{size:.{MOST_TYPED}g}")
    if not math.isclose(float(short), size, rel_tol=1e-12):
        # no digit before the point is dropped
        digits = max(DIGITS, len(str(int(abs(size)))))
        short = Decimal(f"{size:.{digits}g}")
    text = f"{short:f}"
    return text.rstrip("0").rstrip(".") if "." in text else text
