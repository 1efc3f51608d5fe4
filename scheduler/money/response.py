"""A zone in; its water of a year at any uniformity, under every rule, out."""

from dataclasses import dataclass, field

import numpy as np

from scheduler.arrays import FloatArray
from scheduler.field.guess import ZoneCatch
from scheduler.field.uniformity import quarter_means
from scheduler.money.even_year import even_year
from scheduler.money.factors import evenness, roots_du, zone_factor
from scheduler.season import ZoneSeason
from scheduler.site import Rule, Site, Zone

L_PER_M3 = 1000.0
# uniformities that are run; between them 1 / DU is straight, as the rules nearly are
GRID_DU = np.arange(1, 21) / 20.0


@dataclass(slots=True, eq=False)
class Response:
    """One zone's water as its uniformity changes.

    Attributes
    ----------
    season : ZoneSeason or None
        The season to run; None where it cannot be.
    can_du_lq : float
        Uniformity at can height of what the season's map is of: where roots share
        water, that map is more even, and another uniformity is carried to it. [-]
    need_mm : float or None
        A year's need as entered, which is then multiplied with the factor instead of
        running the season. [mm]
    """

    zone: Zone
    catch: ZoneCatch
    site: Site
    season: ZoneSeason | None
    can_du_lq: float
    need_mm: float | None = None
    _curves: dict[Rule, FloatArray] = field(default_factory=dict)
    _points: dict[tuple[Rule, float], float] = field(default_factory=dict)

    @property
    def is_known(self) -> bool:
        """Whether there is anything to compute water from."""
        return self.need_mm is not None or (
            self.season is not None and self.season.input is not None
        )

    def at_roots(self, du_lq: float) -> float:
        """Uniformity that the roots feel where the cans have the given one.

        Parameters
        ----------
        du_lq : float
            DU low quarter at can height. [-]

        Returns
        -------
        float
            The same, drawn together as the roots draw the map of now together. [-]
        """
        return roots_du(du_lq, of_cans=self.can_du_lq, of_roots=self.catch.du_lq)

    def volume_m3(self, rule: Rule, du_lq: float) -> float:
        """Water of a year at a uniformity under a rule.

        Parameters
        ----------
        rule : str
            The rule.
        du_lq : float
            DU low quarter. [-]

        Returns
        -------
        float
            Volume. [m3]
        """
        if (rule, du_lq) not in self._points:
            self._points[rule, du_lq] = self._volume_m3(rule, du_lq)
        return self._points[rule, du_lq]

    def _volume_m3(self, rule: Rule, du_lq: float) -> float:
        even = evenness(self.catch, self.at_roots(du_lq))
        factor = zone_factor(self.zone, self.site, rule, even)
        if self.need_mm is not None:
            return self.need_mm * factor * self.zone.area_m2 / L_PER_M3
        assert self.season is not None, "the caller has looked"
        watered_mm = even_year(self.season, even, factor).watered_mm
        return watered_mm * self.zone.area_m2 / L_PER_M3

    def quarters_mm(self, rule: Rule, du_lq: float) -> FloatArray:
        """Water that each quarter gets in a year at a uniformity under a rule.

        Parameters
        ----------
        rule : str
            The rule.
        du_lq : float
            DU low quarter. [-]

        Returns
        -------
        array of shape (4,)
            Mean depth, driest quarter first. [mm]
        """
        even = evenness(self.catch, self.at_roots(du_lq))
        factor = zone_factor(self.zone, self.site, rule, even)
        if self.need_mm is not None:
            return quarter_means(even.share) * factor * self.need_mm
        assert self.season is not None, "the caller has looked"
        return quarter_means(even_year(self.season, even, factor).applied_mm)

    def volumes_m3(self, rule: Rule, du_lq: FloatArray) -> FloatArray:
        """Water at many uniformities, between those of a grid.

        Parameters
        ----------
        rule : str
            The rule.
        du_lq : array of shape (n,)
            DU low quarter. [-]

        Returns
        -------
        array of shape (n,)
            Volumes, straight in 1 / DU between the grid. [m3]
        """
        if rule not in self._curves:
            values = [self.volume_m3(rule, float(one)) for one in GRID_DU]
            self._curves[rule] = np.array(values)
        curve = self._curves[rule]
        at = np.interp(1.0 / du_lq, 1.0 / GRID_DU[::-1], curve[::-1])
        return np.asarray(at, dtype=np.float64)
