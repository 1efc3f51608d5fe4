"""An option, its zones and prices in; what it takes, counted and priced, out."""

from collections.abc import Sequence
from dataclasses import dataclass

from scheduler.errors import Finding
from scheduler.money.geometry import HeadCount, head_count
from scheduler.option import LENGTHS, Option, PriceItem
from scheduler.site import Site, Zone
from scheduler.trace import Trace, entered


@dataclass(frozen=True, slots=True)
class OutlayLine:
    """One line of the outlay.

    Attributes
    ----------
    quantity : float or None
        How many, or metres of pipe; None where it cannot be counted.
    unit_money, money : float or None
        Price of one, and of all; None where no price is entered.
    life_years : float or None
        Its own life, else that of the option.
    """

    what: str
    counted_by: str
    quantity: float | None
    unit_money: float | None
    money: float | None
    life_years: float | None

    @property
    def is_length(self) -> bool:
        """Whether the quantity is metres of pipe."""
        return self.counted_by in LENGTHS


@dataclass(frozen=True, slots=True)
class Outlay:
    """All lines of an option.

    Attributes
    ----------
    counts : tuple of (str, HeadCount)
        What was counted, by zone.
    lines : tuple of OutlayLine
        As entered; one line of the whole where one sum was given.
    gross_money : float or None
        Sum of the lines; None where one of them has no price.
    parts : tuple of (float, float)
        Money after the grant, and life in years, of each line; empty where any is
        missing.
    missing : tuple of str
        What is not entered, in words.
    """

    counts: tuple[tuple[str, HeadCount], ...]
    lines: tuple[OutlayLine, ...]
    gross_money: float | None
    parts: tuple[tuple[float, float], ...]
    missing: tuple[str, ...]
    trace: Trace
    findings: tuple[Finding, ...]

    @property
    def net_money(self) -> float | None:
        """What the site pays itself; None where a price or a life is missing."""
        return None if self.missing else sum(money for money, _ in self.parts)


def outlay(option: Option, site: Site) -> Outlay:
    """What an option takes, and its price.

    Parameters
    ----------
    option : Option
        The option.
    site : Site
        Zones, packages and the price of an hour of work.

    Returns
    -------
    Outlay
        Lines with what is missing left empty.

    Notes
    -----
    Heads are counted on the block of given length and width, with the spacing and the
    layout of the option's package, else of the zone's own. Without a block nothing is
    counted that is not entered as a quantity.

    References
    ----------
    Source: definition; counts as `geometry.head_count`.

    Examples
    --------
    >>> from scheduler.site import Place
    >>> here = Place(latitude_deg=36.1, longitude_deg=-79.9, elevation_m=273.0,
    ...              time_zone="America/New_York")
    >>> site = Site(name="a", units="us", place=here)
    >>> both = Option(id="B", name="b", deed="re-space", zones=("Z1",),
    ...               price_money=9600.0, life_years=12.0)
    >>> outlay(both, site).net_money
    9600.0
    """
    zones = [zone for name in option.zones if (zone := site.zone(name)) is not None]
    counts, said = _counts(option, site, zones)
    hour = site.tariff.labour_price_money_per_h if site.tariff else None
    if option.items:
        lines = tuple(
            _line(item, counts, (len(zones), hour, option.life_years))
            for item in option.items
        )
    else:
        price = 0.0 if option.deed == "do nothing" else option.price_money
        lines = (OutlayLine("the whole", "once", 1.0, price, price, option.life_years),)
    missing = tuple(dict.fromkeys(why for one in lines for why in _missing(one)))
    kept = 1.0 - option.grant_share
    parts = tuple(
        (one.money * kept, one.life_years)
        for one in lines
        if one.money and one.life_years is not None
    )
    known = [one.money for one in lines if one.money is not None]
    gross = sum(known) if len(known) == len(lines) else None
    trace = Trace(
        "outlay_money",
        None if gross is None else gross * kept,
        "sum of quantity x price, less the grant",
        "definition",
        (
            *(entered(one.what, one.money, f"{one.quantity}") for one in lines),
            entered("grant_share", option.grant_share, "options.toml"),
        ),
    )
    return Outlay(counts, lines, gross, () if missing else parts, missing, trace, said)


def _missing(line: OutlayLine) -> tuple[str, ...]:
    missing = []
    if line.quantity is None:
        missing.append(f"how many: {line.what}")
    if line.unit_money is None:
        missing.append(f"price: {line.what}")
    if line.life_years is None and line.money != 0.0:
        missing.append(f"life: {line.what}")
    return tuple(missing)


def _counts(
    option: Option, site: Site, zones: Sequence[Zone]
) -> tuple[tuple[tuple[str, HeadCount], ...], tuple[Finding, ...]]:
    """Heads on the block of each zone, as far as block and spacing are known."""
    if option.block_length_m is None or option.block_width_m is None:
        return (), ()
    where = f"option {option.id}"
    area = option.block_length_m * option.block_width_m
    counted, said = [], []
    for zone in zones:
        package = site.package(option.package) or site.package_of(zone)
        if package is None or package.spacing_m is None:
            what = f"no spacing is known in zone {zone.id}: its heads are not counted"
            fix = "name a package with its spacing, or enter quantities"
            said.append(Finding("warning", where, what, fix))
            continue
        counted.append((zone.id, head_count(
            option.block_length_m,
            option.block_width_m,
            layout=package.layout,
            spacing_m=package.spacing_m,
            row_spacing_m=package.row_spacing_m,
            stand=option.heads_stand,
        )))  # fmt: skip
        if not 0.9 < area / zone.area_m2 < 1.1:
            what = (
                f"its block is {area / zone.area_m2:.0%} of the area of zone {zone.id}"
            )
            fix = "correct block_length and block_width, or the area of the zone"
            said.append(Finding("warning", where, what, fix))
    return tuple(counted), tuple(said)


def _line(
    item: PriceItem,
    counts: Sequence[tuple[str, HeadCount]],
    known: tuple[int, float | None, float | None],
) -> OutlayLine:
    n_zones, hour, life = known
    quantity = item.quantity
    if quantity is None and (counts or item.counted_by == "once"):
        counted = float(n_zones)
        if item.counted_by != "once":
            counted = sum(_counted(item.counted_by, one) for _, one in counts)
        quantity = counted * item.each
    price = item.price_money
    if item.counted_by in LENGTHS:
        price = item.price_money_per_m
    if item.work_hours is not None:
        price = None if hour is None else item.work_hours * hour
    money = None if None in (quantity, price) else (quantity or 0.0) * (price or 0.0)
    return OutlayLine(
        item.what, item.counted_by, quantity, price, money, item.life_years or life
    )


def _counted(by: str, count: HeadCount) -> float:
    return {
        "head": float(count.heads),
        "full-circle head": float(count.full_circle),
        "part-circle head": float(count.part_circle),
        "lateral": float(count.rows),
        "lateral length": count.lateral_m,
        "main length": count.main_m,
    }[by]
