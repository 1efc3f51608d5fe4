"""What may be tried in, a site with it in memory out; nothing reaches the disk."""

import math
import re
from collections.abc import Iterable
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Literal, TypeGuard

from scheduler.errors import QuantityError
from scheduler.units import number, shown

if TYPE_CHECKING:
    from scheduler.money.assumed import Then
    from scheduler.plan import ZonePlan
    from scheduler.plant import Plant
    from scheduler.site import Site, Zone
    from scheduler.units import System
    from scheduler.watering.night_plan import Pin

What = Literal[
    "rule",
    "kc",
    "days",
    "units",
    "du",
    "kc factor",
    "allowed",
    "pump",
    "move",
    "move worth",
    "as entered",
    "water price",
    "energy price",
    "interest",
    "life",
    "then",
    "given",
    "settled",
]
# of these no week changes
MONEY: "tuple[What, ...]" = ("water price", "energy price", "interest", "life", "then")
NAMES: "dict[What, str]" = {"du": "DU", "kc": "Kc", "kc factor": "Kc factor"}
SUFFIXES: "dict[What, str]" = {
    "pump": "l_per_min",
    "water price": "money_per_m3",
    "energy price": "money_per_kwh",
}
WEEK = ("mon", "tue", "wed", "thu", "fri", "sat", "sun")
# what - and + move: the step, and how far it goes
DIALS: "dict[What, tuple[float, float, float]]" = {
    "du": (0.05, 0.3, 0.95),
    "kc factor": (0.05, 0.5, 1.5),
    "allowed": (0.05, 0.1, 0.9),
}


@dataclass(frozen=True, slots=True)
class Edit:
    """One what-if of a zone, of the pump or of money, or the units shown.

    Attributes
    ----------
    what : str
        What is changed; `as entered` takes back what was tried in the zone.
    value : str, float, tuple of str, Pin or Then
        A rule, a coefficient or a factor of it, a DU low quarter, an allowed part,
        weekdays such as `("mon", "thu")`, the pump's flow in L/min, where a watering
        was moved to, a price, an interest or a life, what would stand there, a unit
        system, or the texts of the folder's files after an edit of them (`given`).
    zone : str
        Id of the zone; empty for pump, worth of a move, prices and units.
    typed : str
        A price as typed; of `then` the id of the option.
    settled : tuple of Edit
        What-ifs that this step keeps, by its texts, or drops (`settled`).
    renamed : tuple of (str, str)
        Zones that have another id after this step: the old one and the new.
    """

    what: What
    value: "str | float | tuple[str, ...] | tuple[tuple[str, str], ...] | Pin | Then"
    zone: str = ""
    typed: str = ""
    settled: "tuple[Edit, ...]" = ()
    renamed: tuple[tuple[str, str], ...] = ()

    def __str__(self) -> str:
        return self.text("metric")

    @property
    def name(self) -> str:
        """What is changed, and where: `Z4 DU`, `water price`, `R4 then`."""
        place = self.typed if self.what == "then" else self.zone
        return f"{place} {NAMES.get(self.what, self.what)}".strip()

    def text(self, units: "System") -> str:
        """It in a few words, in the units that a face shows."""
        return f"{self.name} {value_text(self.what, self.value, units)}"


def value_text(what: What, value: object, units: "System") -> str:
    """A tried value, or the one it takes the place of, as a face shows it."""
    if isinstance(value, tuple):
        return "every day" if len(value) == len(WEEK) else " ".join(map(str, value))
    if not is_size(value):
        return "–" if value is None else str(value)
    if what in ("allowed", "interest", "move worth"):
        digits = 0 if what == "allowed" else 1
        return f"{value:.{digits}%}".replace("%", " %")
    if what == "life":
        return f"{value:g} y"
    return shown(value, SUFFIXES.get(what, ""), units)


def is_size(value: object) -> TypeGuard[float]:
    """Whether a value is a number that a dial can show."""
    return isinstance(value, float)


def in_force(edits: Iterable[Edit]) -> tuple[Edit, ...]:
    """The last edit of each kind for each zone, without those that were taken back.

    Of moved waterings, the last of each zone and night. A zone goes by the id that
    it has after all steps.
    """
    kept: dict[tuple[str, str], Edit] = {}
    for edit in edits:
        zone = edit.zone.casefold()
        if edit.what == "as entered":
            kept = {key: one for key, one in kept.items() if key[0] != zone}
        elif edit.what in ("given", "settled"):
            for one in edit.settled:
                kept.pop(_kind(one), None)
            if edit.renamed:
                there = (_under(one, edit.renamed) for one in kept.values())
                kept = {_kind(one): one for one in there}
        elif edit.what != "units":
            kept.pop(_kind(edit), None)  # the newest stands last
            kept[_kind(edit)] = edit
    return tuple(kept.values())


def _under(edit: Edit, renamed: Iterable[tuple[str, str]]) -> Edit:
    """A what-if of a zone under the id that the zone has now."""
    for old, new in renamed:
        if edit.zone.casefold() == old.casefold():
            moved = replace(edit, zone=new)
            if edit.what != "move":
                return moved
            pin: Pin = edit.value  # type: ignore[assignment]
            return replace(moved, value=replace(pin, zone=new))
    return edit


def _kind(edit: Edit) -> tuple[str, str]:
    """Of edits alike in it the last is in force."""
    night = getattr(edit.value, "night", "")  # of a moved watering
    option = edit.typed if edit.what == "then" else ""
    return edit.zone.casefold(), f"{edit.what} {night}{option}".strip()


def dial(
    plan: "ZonePlan | None", edits: Iterable[Edit], zone_id: str, what: What
) -> float | None:
    """Where a dial of a zone stands: as last tried, else as the week has it.

    The plan is the zone's own, without what-ifs.
    """
    for edit in in_force(edits):
        if (edit.zone, edit.what) == (zone_id, what) and is_size(edit.value):
            return edit.value
    if what == "kc factor":
        return 1.0
    if plan is None or plan.evidence is None:
        return None
    if what == "du":
        return plan.evidence.du_lq
    allowed = plan.trace.find("allowed_depletion")
    return allowed.value if allowed and is_size(allowed.value) else None


def turned(
    plan: "ZonePlan | None", edits: Iterable[Edit], zone_id: str, what: What, by: int
) -> Edit | None:
    """The edit that moves a dial one step up or down, onto a round number."""
    now, (step, least, most) = dial(plan, edits, zone_id, what), DIALS[what]
    if now is None:
        return None
    at = now / step
    place = math.floor(at + 1e-6) + 1 if by > 0 else math.ceil(at - 1e-6) - 1
    there = round(min(most, max(least, place * step)), 4)
    return None if there == now else Edit(what, there, zone_id)


def edited(site: "Site", edit: Edit) -> "Site":
    """The site with one what-if in it.

    Raises
    ------
    QuantityError
        If there is no such zone, or it does not allow the value.
    """
    if edit.what == "move":  # of the night plan, not of the site
        return site
    if edit.what == "pump":
        return _edited_pump(site, edit.value)
    if edit.what == "move worth":
        return _edited_worth(site, edit.value)
    if edit.what in MONEY:
        return _edited_money(site, edit)
    zone = site.zone(edit.zone)
    if zone is None:
        known = ", ".join(one.id for one in site.zones)
        raise QuantityError(f"there is no zone {edit.zone!r}", f"use one of {known}")
    changed = _edited_zone(zone, edit)
    zones = tuple(changed if one.id == zone.id else one for one in site.zones)
    return site.model_copy(update={"zones": zones})


def _edited_money(site: "Site", edit: Edit) -> "Site":
    from scheduler.money.assumed import ASSUMPTIONS, Then, site_assuming, site_with_then

    if isinstance(edit.value, Then):
        return site_with_then(site, edit.typed, edit.zone, edit.value)
    what = next(one for one in ASSUMPTIONS if one == edit.what)
    assert is_size(edit.value), "prices, interest and life are numbers"
    return site_assuming(site, what, edit.value)


def _edited_worth(site: "Site", worth: object) -> "Site":
    if not (is_size(worth) and 0 <= worth <= 1):
        raise QuantityError(f"move worth cannot be {worth}", _ALLOWED["move worth"])
    controller = site.controller.model_copy(update={"move_worth": worth})
    return site.model_copy(update={"controller": controller})


def _edited_pump(site: "Site", flow_l_per_min: object) -> "Site":
    if site.supply is None or not is_size(flow_l_per_min):
        raise QuantityError("the site has no pump", "give [supply] in site.toml")
    from scheduler.noun import MOST_PUMP_L_PER_MIN

    if not 0 < flow_l_per_min <= MOST_PUMP_L_PER_MIN:
        raise QuantityError(f"pump cannot be {flow_l_per_min:g}", _ALLOWED["pump"])
    supply = site.supply.model_copy(update={"flow_l_per_min": flow_l_per_min})
    return site.model_copy(update={"supply": supply})


def _edited_zone(zone: "Zone", edit: Edit) -> "Zone":
    from pydantic import ValidationError

    if edit.what == "du":  # of what was tested, not of the zone
        return zone
    try:
        return type(zone).model_validate(_fields(zone, edit))
    except ValidationError as error:
        name, value = NAMES.get(edit.what, edit.what), _said(edit.value)
        raise QuantityError(
            f"zone {zone.id}: {name} cannot be {value}", _ALLOWED[edit.what]
        ) from error


def _said(value: object) -> str:
    """A value as people write it."""
    if isinstance(value, tuple):
        return " ".join(map(str, value))
    return f"{value:g}" if is_size(value) else str(value)


def typed_kc(text: str) -> float:
    """Read a Kc that was typed; a comma is its decimal point.

    Raises
    ------
    QuantityError
        If it is no number, or more than one stands there.
    """
    size, rest = number(re.sub(r"(?<=\d),(?=\d)", ".", text))
    if rest:
        raise QuantityError(f"{text.strip()!r} is not a Kc", "write it like 0.85")
    return size


def typed_days(text: str) -> tuple[str, ...]:
    """Read days that were typed: each once, in the order of the week.

    Raises
    ------
    QuantityError
        If a word is no day of the week, or there is none.
    """
    words = text.replace(",", " ").casefold().split()
    if not words:
        raise QuantityError(f"{text.strip()!r} names no day", _ALLOWED["days"])
    for word in words:
        if len(word) < len("mon") or not any(o.startswith(word) for o in _DAYS):
            raise QuantityError(f"{word!r} is not a day", _ALLOWED["days"])
    typed = {word[:3] for word in words}
    return tuple(one[:3] for one in _DAYS if one[:3] in typed)


def _fields(zone: "Zone", edit: Edit) -> dict[str, object]:
    """Fields of a zone with one what-if in them."""
    if edit.what == "kc":
        plant = _plant_of(zone).with_kc(edit.value, "what-if")
        return {**zone.model_dump(), "plant": plant}
    if edit.what == "kc factor":
        return _with_factor(zone, edit.value if is_size(edit.value) else 0.0)
    if edit.what == "allowed":
        return _with_allowed(zone, edit.value)
    return {**zone.model_dump(), edit.what: edit.value}


def _with_factor(zone: "Zone", factor: float) -> dict[str, object]:
    """Fields of a zone whose plants, all that share its valve, use more or less."""
    groups = [{**o.model_dump(), "plant": o.plant.times(factor)} for o in zone.group]
    plant = _plant_of(zone).times(factor)
    return {**zone.model_dump(), "plant": plant, "group": tuple(groups)}


def _with_allowed(zone: "Zone", part: object) -> dict[str, object]:
    """Fields of a zone whose plants may use another part of the water held."""
    fields: dict[str, object] = zone.model_dump()
    for name, held in (("soil", zone.soil), ("pots", zone.pots)):
        if held is not None:
            fields[name] = {**held.model_dump(), "allowed_depletion": part}
    groups = [one.model_dump() for one in zone.group]
    for one in groups:
        if one["pots"] is not None:
            one["pots"]["allowed_depletion"] = part
    return {**fields, "group": tuple(groups)}


def _plant_of(zone: "Zone") -> "Plant":
    if zone.plant is None:
        fix = "give [zone.plant] in zones.toml"
        raise QuantityError(f"zone {zone.id} has no plants", fix)
    return zone.plant


_DAYS = ("monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday")
_ALLOWED: dict[What, str] = {
    "pump": "give a flow above 0 and at most 600,000 L/min (158,500 gpm)",
    "move": "move it to a free place",
    "move worth": "give a part of a watering's water, from 0 to 1",
    "rule": "choose average, low half, low quarter or share served",
    "kc": "give a number above 0 and at most 8",
    "days": "give one or more of mon tue wed thu fri sat sun",
    "units": "choose us or metric",
    "du": "give a number above 0 and at most 1",
    "kc factor": "give a number that keeps kc_factor between 0.2 and 3",
    "allowed": "give a part above 0 and at most 1, in a zone with soil or pots",
}
