"""A station's daily table in; complete weather days with every guess flagged out.

`checked` throws out what cannot be true. `filled` puts the rules of FAO-56 chapter 3 in
place of what was not measured. Both say what they did, once per quantity.
"""

from scheduler.need.weather.checking import checked
from scheduler.need.weather.days import day_of_year
from scheduler.need.weather.filling import Weather, filled

__all__ = ["Weather", "checked", "day_of_year", "filled"]
