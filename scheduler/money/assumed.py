"""A site and another price, interest, life or uniformity in; the site so, out."""

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any, Literal

from pydantic import ValidationError

from scheduler.errors import QuantityError
from scheduler.option import Option
from scheduler.site import Package, Site, Tariff

Assumption = Literal["water price", "energy price", "interest", "life"]
ASSUMPTIONS: tuple[Assumption, ...] = (
    "water price", "energy price", "interest", "life",
)  # fmt: skip
# of a new option that nobody priced
NEW = "what-if"
ALLOWED: dict[Assumption, str] = {
    "water price": "give 0 or more",
    "energy price": "give 0 or more",
    "interest": "give 0 to 50 % a year",
    "life": "give more than 0 and at most 100 years",
}


@dataclass(frozen=True, slots=True)
class Then:
    """What would stand in the zones of an option, in place of what it says.

    Attributes
    ----------
    package : str
        Id of the package.
    du_lq : float or None
        From a map of its pattern; None where its tests are to tell it. [-]
    spacing_m, row_spacing_m : float or None
        Of that map. [m]
    layout : str
        Of that map.
    words : str
        The same in the user's units, for the source of the uniformity.
    """

    package: str
    du_lq: float | None = None
    spacing_m: float | None = None
    row_spacing_m: float | None = None
    layout: Literal["square", "rectangular", "triangular"] = "rectangular"
    words: str = ""

    def __str__(self) -> str:
        return f"{self.package} {self.words}".strip()


def site_assuming(site: Site, what: Assumption, value: float) -> Site:
    """The site with one price, the interest or the life of the hardware changed.

    Parameters
    ----------
    site : Site
        As it is.
    what : str
        Which of `ASSUMPTIONS`.
    value : float
        Money per m3 or per kWh, a part of one, or years.

    Returns
    -------
    Site
        A price of energy holds at every hour; interest and life hold for every option.

    Raises
    ------
    QuantityError
        If the value is not allowed.

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> from scheduler.site import Place
    >>> here = Place(latitude_deg=36.1, longitude_deg=-79.9, elevation_m=273.0,
    ...              time_zone="America/New_York")
    >>> site = Site(name="a", units="us", place=here)
    >>> site_assuming(site, "interest", 0.05).tariff.interest
    0.05
    """
    tariff = site.tariff or Tariff(currency="money")
    changes: dict[str, Any] = {"tariff": tariff}
    options = site.options
    if what == "water price":
        changes["tariff"] = _made(tariff, what, water_price_money_per_m3=value)
    elif what == "energy price":
        changes["tariff"] = _made(
            tariff, what, energy_price_money_per_kwh=value, period=()
        )
    elif what == "interest":
        changes["tariff"] = _made(tariff, what, interest=value)
        changes["options"] = tuple(_made(o, what, interest=None) for o in options)
    else:
        changes["options"] = tuple(_with_life(o, value) for o in options)
    return site.model_copy(update=changes)


def _made(noun: Any, what: Assumption, **changed: Any) -> Any:
    """A noun with some fields changed, checked again."""
    try:
        return type(noun).model_validate(dict(noun) | changed)
    except ValidationError as error:
        value = next((one for one in changed.values() if one is not None), None)
        raise QuantityError(f"{what} cannot be {value:g}", ALLOWED[what]) from error


def _with_life(option: Option, years: float) -> Option:
    items = tuple(one.model_copy(update={"life_years": None}) for one in option.items)
    made = _made(option, "life", life_years=years, items=items)
    assert isinstance(made, Option), "it was one"
    return made


def site_with_then(site: Site, option_id: str, zone_id: str, then: Then) -> Site:
    """The site with another package, or another spacing of it, in an option.

    Parameters
    ----------
    site : Site
        As it is.
    option_id : str
        The option; one that is not there is made new, with no price.
    zone_id : str
        The zone of a new option.
    then : Then
        What would stand there.

    Returns
    -------
    Site
        Heads are counted anew from the spacing; prices stay as entered.

    Raises
    ------
    QuantityError
        If there is no such package, or no such zone for a new option.

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> from scheduler.site import Place
    >>> here = Place(latitude_deg=36.1, longitude_deg=-79.9, elevation_m=273.0,
    ...              time_zone="America/New_York")
    >>> site = Site(name="a", units="us", place=here, packages=(Package(id="p"),))
    >>> site_with_then(site, "B", "Z1", Then("q"))
    Traceback (most recent call last):
        ...
    scheduler.errors.QuantityError: there is no package 'q'; ...
    """
    package = site.package(then.package)
    if package is None:
        known = ", ".join(one.id for one in site.packages) or "none"
        raise QuantityError(
            f"there is no package {then.package!r}", f"the packages are {known}"
        )
    packages, name = site.packages, package.id
    if then.du_lq is not None:
        package = _spaced(package, then)
        packages, name = _with(site.packages, package, _package_id), package.id
    told = {
        "package": name, "du_lq": then.du_lq, "du_lq_low": None, "du_lq_high": None,
        "tested_days": None, "du_from": _source(then), "done_on": None,
    }  # fmt: skip
    option = next((one for one in site.options if one.id == option_id), None)
    option = option or _new_option(site, option_id, zone_id, then)
    changed = option.model_copy(update=told)
    options = _with(site.options, changed, lambda one: one.id)
    return site.model_copy(update={"packages": packages, "options": options})


def _package_id(one: Package) -> str:
    return one.id


def _with(
    nouns: tuple[Any, ...], new: Any, name: Callable[[Any], str]
) -> tuple[Any, ...]:
    """The nouns with one in the place of its namesake, or at the end."""
    if any(name(one) == name(new) for one in nouns):
        return tuple(new if name(one) == name(new) else one for one in nouns)
    return (*nouns, new)


def _spaced(package: Package, then: Then) -> Package:
    """The same heads at another spacing, under a name that no test has."""
    return package.model_copy(
        update={
            "id": str(then),
            "spacing_m": then.spacing_m,
            "row_spacing_m": then.row_spacing_m,
            "layout": then.layout,
        }
    )


def _source(then: Then) -> str:
    if then.du_lq is None:
        return ""
    return f"what-if: map of {then}, one head's cans laid over each other in still air"


def _new_option(site: Site, option_id: str, zone_id: str, then: Then) -> Option:
    zone = site.zone(zone_id)
    if zone is None:
        known = ", ".join(one.id for one in site.zones) or "none"
        raise QuantityError(f"there is no zone {zone_id!r}", f"the zones are {known}")
    return Option(
        id=option_id or NEW, name=f"{then} in {zone.id}, no price", deed="re-space",
        zones=(zone.id,),
    )  # fmt: skip
