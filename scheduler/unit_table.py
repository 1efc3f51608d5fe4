"""The one table of units: suffixes, exact factors, faces and spellings."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Unit:
    """One unit: value_in_base = value * factor + offset."""

    label: str
    dimension: str
    factor: float
    digits: int
    offset: float = 0.0


# Exact by definition: inch 25.4 mm, pound 0.45359237 kg, US gallon 231 in3,
# US fluid ounce 1/128 gallon, international mile 1609.344 m, standard gravity.
MM_PER_INCH = 25.4
M_PER_FOOT = 0.3048
L_PER_US_GALLON = 3.785411784
ML_PER_US_FL_OZ = 29.5735295625
M_PER_S_PER_MPH = 0.44704
KPA_PER_PSI = 6.894757293168361
M2_PER_FT2 = 0.09290304
M2_PER_ACRE = 4046.8564224
CM2_PER_IN2 = 6.4516
G_PER_LB = 453.59237

UNITS: dict[str, Unit] = {
    # length and water depth share a dimension; base is the millimetre
    "mm": Unit("mm", "length", 1.0, 1),
    "cm": Unit("cm", "length", 10.0, 1),
    "m": Unit("m", "length", 1000.0, 1),
    "in": Unit("in", "length", MM_PER_INCH, 2),
    "ft": Unit("ft", "length", 1000.0 * M_PER_FOOT, 1),
    "km": Unit("km", "length", 1e6, 1),
    "mi": Unit("mi", "length", 1609344.0, 1),
    # area; base is the square metre
    "cm2": Unit("cm²", "area", 1e-4, 1),
    "in2": Unit("in²", "area", CM2_PER_IN2 * 1e-4, 2),
    "m2": Unit("m²", "area", 1.0, 0),
    "ft2": Unit("ft²", "area", M2_PER_FT2, 0),
    "acre": Unit("acre", "area", M2_PER_ACRE, 2),
    "ha": Unit("ha", "area", 1e4, 2),
    # volume; base is the litre
    "ml": Unit("mL", "volume", 1e-3, 0),
    "l": Unit("L", "volume", 1.0, 0),
    "m3": Unit("m³", "volume", 1e3, 1),
    "fl_oz": Unit("fl oz", "volume", ML_PER_US_FL_OZ * 1e-3, 1),
    "gal": Unit("gal", "volume", L_PER_US_GALLON, 0),
    "kgal": Unit("kgal", "volume", 1e3 * L_PER_US_GALLON, 1),
    "ft3": Unit("ft³", "volume", 28.316846592, 0),
    "acre_ft": Unit("acre-ft", "volume", 43560 * 28.316846592, 3),
    # mass, of pots on the scales; base is the gram
    "g": Unit("g", "mass", 1.0, 0),
    "kg": Unit("kg", "mass", 1000.0, 2),
    "lb": Unit("lb", "mass", G_PER_LB, 2),
    # rates of depth; base is mm per hour
    "mm_per_h": Unit("mm/h", "depth rate", 1.0, 1),
    "in_per_h": Unit("in/h", "depth rate", MM_PER_INCH, 2),
    "mm_per_day": Unit("mm/day", "depth rate", 1 / 24, 1),
    "in_per_day": Unit("in/day", "depth rate", MM_PER_INCH / 24, 2),
    # flow; base is litres per minute
    "l_per_min": Unit("L/min", "flow", 1.0, 1),
    "l_per_s": Unit("L/s", "flow", 60.0, 2),
    "m3_per_h": Unit("m³/h", "flow", 1000 / 60, 2),
    "gpm": Unit("gpm", "flow", L_PER_US_GALLON, 1),
    # pressure; base is the kilopascal
    "kpa": Unit("kPa", "pressure", 1.0, 0),
    "bar": Unit("bar", "pressure", 100.0, 2),
    "psi": Unit("psi", "pressure", KPA_PER_PSI, 0),
    # speed; base is metres per second
    "m_per_s": Unit("m/s", "speed", 1.0, 1),
    "km_per_h": Unit("km/h", "speed", 1 / 3.6, 1),
    "mph": Unit("mph", "speed", M_PER_S_PER_MPH, 1),
    "kn": Unit("kn", "speed", 1852 / 3600, 1),
    # temperature; base is the degree Celsius
    "degc": Unit("°C", "temperature", 1.0, 1),
    "degf": Unit("°F", "temperature", 5 / 9, 0, -160 / 9),
    # time; base is the minute
    "min": Unit("min", "time", 1.0, 0),
    "h": Unit("h", "time", 60.0, 1),
    # how fast something falls away; base is per hour
    "per_h": Unit("per h", "decay", 1.0, 2),
    "per_min": Unit("per min", "decay", 60.0, 3),
    # radiation over a day
    "mj_per_m2_day": Unit("MJ/m²/day", "radiation", 1.0, 1),
    "w_per_m2": Unit("W/m²", "radiation", 0.0864, 0),
    "langley_per_day": Unit("ly/day", "radiation", 0.04184, 0),
    # electrical conductivity of water, for salt; base is decisiemens per metre
    "ds_per_m": Unit("dS/m", "conductivity", 1.0, 2),
    "ms_per_cm": Unit("mS/cm", "conductivity", 1.0, 2),
    "us_per_cm": Unit("µS/cm", "conductivity", 1e-3, 0),
    # angle
    "deg": Unit("°", "angle", 1.0, 0),
    # prices of water and energy, in the site's currency
    "money_per_m3": Unit("per m³", "water price", 1.0, 2),
    "money_per_kgal": Unit("per kgal", "water price", 1 / 3.785411784, 2),
    "money_per_kwh": Unit("per kWh", "energy price", 1.0, 3),
    # prices of pipe, work and nitrogen, and what they are prices of
    "money_per_m": Unit("per m", "length price", 1.0, 2),
    "money_per_ft": Unit("per ft", "length price", 1 / M_PER_FOOT, 2),
    "money_per_h": Unit("per h", "labour price", 1.0, 2),
    "money_per_kg": Unit("per kg", "mass price", 1.0, 2),
    "money_per_lb": Unit("per lb", "mass price", 1000 / G_PER_LB, 2),
    "kwh": Unit("kWh", "energy", 1.0, 0),
    "kw": Unit("kW", "power", 1.0, 1),
    # of a lifted volume; without it the name would read as that volume
    "kwh_per_m3": Unit("kWh per m³", "energy of a volume", 1.0, 3),
    "kwh_per_kgal": Unit("kWh per kgal", "energy of a volume", 1 / 3.785411784, 2),
    "money_per_kw": Unit("per kW", "power price", 1.0, 2),
    "mg_per_l": Unit("mg/L", "concentration", 1.0, 0),
    "per_m2": Unit("per m²", "density", 1.0, 1),
    "per_ft2": Unit("per ft²", "density", 1 / M2_PER_FT2, 2),
    "per_ha": Unit("per ha", "density", 1e-4, 0),
    "per_acre": Unit("per acre", "density", 1 / M2_PER_ACRE, 1),
}

# What each face shows for an inside unit. mL stays mL in both systems.
US_FACE = {
    "mm": "in", "cm": "in", "m": "ft", "km": "mi", "cm2": "in2", "m2": "ft2",
    "m3": "gal", "l": "gal", "mm_per_h": "in_per_h", "mm_per_day": "in_per_day",
    "l_per_min": "gpm", "kpa": "psi", "m_per_s": "mph", "degc": "degf",
    "money_per_m3": "money_per_kgal", "per_m2": "per_ft2", "kg": "lb",
    "money_per_m": "money_per_ft", "money_per_kg": "money_per_lb",
    "per_ha": "per_acre", "kwh_per_m3": "kwh_per_kgal",
}  # fmt: skip

# Spellings that people type; compared in lower case without spaces and dots.
SPELLINGS = {
    "ml": "ml", "milliliters": "ml", "millilitres": "ml", "cc": "ml",
    "floz": "fl_oz", "oz": "fl_oz", "usfloz": "fl_oz", "fl_oz": "fl_oz",
    "mm": "mm", "cm": "cm", "m": "m", "in": "in", '"': "in", "inch": "in",
    "inches": "in", "ft": "ft", "'": "ft", "feet": "ft", "foot": "ft",
    "km": "km", "mi": "mi", "miles": "mi",
    "cm2": "cm2", "cm²": "cm2", "in2": "in2", "in²": "in2", "sqin": "in2",
    "m2": "m2", "m²": "m2", "ft2": "ft2", "ft²": "ft2", "sqft": "ft2",
    "acre": "acre", "acres": "acre", "ac": "acre", "ha": "ha",
    "l": "l", "m3": "m3", "m³": "m3", "gal": "gal", "gallons": "gal",
    "kgal": "kgal", "ft3": "ft3", "ft³": "ft3", "cuft": "ft3", "acre-ft": "acre_ft",
    "acreft": "acre_ft", "acrefeet": "acre_ft", "ac-ft": "acre_ft",
    "liters": "l", "litres": "l",
    "g": "g", "grams": "g", "kg": "kg", "lb": "lb", "lbs": "lb", "pounds": "lb",
    "mm/h": "mm_per_h", "mm/hr": "mm_per_h", "in/h": "in_per_h",
    "in/hr": "in_per_h", "mm/day": "mm_per_day", "mm/d": "mm_per_day",
    "in/day": "in_per_day", "in/d": "in_per_day",
    "l/min": "l_per_min", "lpm": "l_per_min", "l/s": "l_per_s",
    "m3/h": "m3_per_h", "m³/h": "m3_per_h", "gpm": "gpm", "gal/min": "gpm",
    "kpa": "kpa", "bar": "bar", "psi": "psi",
    "m/s": "m_per_s", "ms-1": "m_per_s", "km/h": "km_per_h", "kmh": "km_per_h",
    "kph": "km_per_h", "mph": "mph", "kn": "kn", "kt": "kn", "knots": "kn",
    "c": "degc", "°c": "degc", "degc": "degc", "f": "degf", "°f": "degf",
    "degf": "degf", "min": "min", "minutes": "min", "h": "h", "hours": "h",
    "mj/m2/day": "mj_per_m2_day", "mj/m2/d": "mj_per_m2_day",
    "mj/m²/day": "mj_per_m2_day", "mj/m2": "mj_per_m2_day", "w/m2": "w_per_m2",
    "w/m²": "w_per_m2", "ly": "langley_per_day", "ly/day": "langley_per_day",
    "langley": "langley_per_day",
    "ds/m": "ds_per_m", "dsm-1": "ds_per_m", "ms/cm": "ms_per_cm",
    "mmho/cm": "ms_per_cm", "mmhos/cm": "ms_per_cm", "us/cm": "us_per_cm",
    # the micro sign and the Greek letter look alike
    "\u00b5s/cm": "us_per_cm", "\u03bcs/cm": "us_per_cm", "umho/cm": "us_per_cm",
    "umhos/cm": "us_per_cm",
}  # fmt: skip
