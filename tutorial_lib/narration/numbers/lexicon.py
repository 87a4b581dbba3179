"""Number words, fraction words and units of spoken English."""

from __future__ import annotations

from fractions import Fraction

from tutorial_lib.measures import factor

ONES = {
    w: n
    for n, w in enumerate(
        "zero one two three four five six seven eight nine ten eleven twelve thirteen fourteen fifteen sixteen "
        "seventeen eighteen nineteen".split()
    )
}
TENS = {w: 10 * n for n, w in enumerate("twenty thirty forty fifty sixty seventy eighty ninety".split(), 2)}
TENS["fourty"] = 40
CARDINALS = {**ONES, **TENS}
SCALES = {"hundred": 100, "thousand": 1000, "grand": 1000, "million": 1_000_000}
DOZENS = {"dozen": 12, "dozens": 12, "pair": 2, "pairs": 2, "couple": 2, "score": 20}


def plural(word: str) -> str:
    """The plural of a number word ("six" -> "sixes", "twenty" -> "twenties")."""
    if word.endswith("y"):
        return word[:-1] + "ies"
    return word + ("es" if word.endswith("x") else "s")


PLURAL_CARDINALS = {plural(w): n for w, n in CARDINALS.items() if w not in ("zero", "one")} | {
    "twelves": 12,
    "fives": 5,
    "hundreds": 100,
}

ORDINALS = {
    "first": 1,
    "second": 2,
    "third": 3,
    "fourth": 4,
    "fifth": 5,
    "sixth": 6,
    "seventh": 7,
    "eighth": 8,
    "ninth": 9,
    "tenth": 10,
    "eleventh": 11,
    "twelfth": 12,
    "thirteenth": 13,
    "fourteenth": 14,
    "fifteenth": 15,
    "sixteenth": 16,
    "seventeenth": 17,
    "eighteenth": 18,
    "nineteenth": 19,
    "twentieth": 20,
    "thirtieth": 30,
}
DENOMINATORS = {
    "half": 2,
    "halves": 2,
    "third": 3,
    "quarter": 4,
    "fourth": 4,
    "fifth": 5,
    "sixth": 6,
    "seventh": 7,
    "eighth": 8,
    "ninth": 9,
    "tenth": 10,
    "twelfth": 12,
    "sixteenth": 16,
    "twentieth": 20,
    "hundredth": 100,
    "thousandth": 1000,
    "thirtysecond": 32,
    "sixtyfourth": 64,
    "eight": 8,
}
DENOMINATORS["eights"] = 8
DENOMINATORS["halfs"] = 2  # "two-and-a-halfs", as a size is called
DENOMINATORS |= {w + "s": n for w, n in DENOMINATORS.items() if w not in ("half", "halves", "halfs", "eight", "eights")}
VULGAR = {
    "½": Fraction(1, 2),
    "⅓": Fraction(1, 3),
    "⅔": Fraction(2, 3),
    "¼": Fraction(1, 4),
    "¾": Fraction(3, 4),
    "⅕": Fraction(1, 5),
    "⅖": Fraction(2, 5),
    "⅗": Fraction(3, 5),
    "⅘": Fraction(4, 5),
    "⅙": Fraction(1, 6),
    "⅚": Fraction(5, 6),
    "⅛": Fraction(1, 8),
    "⅜": Fraction(3, 8),
    "⅝": Fraction(5, 8),
    "⅞": Fraction(7, 8),
}

UNITS = {
    "inch": "in",
    "inches": "in",
    '"': "in",
    "″": "in",
    "”": "in",
    "“": "in",
    "''": "in",
    "inchers": "in",
    "foot": "ft",
    "feet": "ft",
    "ft": "ft",
    "footer": "ft",
    "footers": "ft",
    "'": "ft",
    "′": "ft",
    "’": "ft",
    "mm": "mm",
    "mil": "mm",
    "mils": "mm",
    "mill": "mm",
    "mills": "mm",
    "millimetre": "mm",
    "millimetres": "mm",
    "millimeter": "mm",
    "millimeters": "mm",
    "cm": "cm",
    "cms": "cm",
    "centimetre": "cm",
    "centimetres": "cm",
    "centimeter": "cm",
    "centimeters": "cm",
    "metre": "m",
    "metres": "m",
    "meter": "m",
    "meters": "m",
    "yard": "yd",
    "yards": "yd",
    "lb": "lb",
    "lbs": "lb",
    "pound": "lb",
    "pounds": "lb",
    "kilo": "kg",
    "kilos": "kg",
    "kg": "kg",
    "kgs": "kg",
    "kilogram": "kg",
    "kilograms": "kg",
    "kilogrammes": "kg",
    "stone": "stone",
    "ounce": "oz",
    "ounces": "oz",
    "tonne": "tonne",
    "tonnes": "tonne",
    "ton": "ton",
    "tons": "ton",
    "gram": "g",
    "grams": "g",
    "dollar": "usd",
    "dollars": "usd",
    "bucks": "usd",
    "buck": "usd",
    "cent": "cents",
    "cents": "cents",
    "euro": "eur",
    "euros": "eur",
    "quid": "gbp",
    "pence": "pence",
    "p": "pence",
    "grand": "usd",
    "fiver": "gbp",
    "second": "s",
    "seconds": "s",
    "secs": "s",
    "minute": "min",
    "minutes": "min",
    "mins": "min",
    "min": "min",
    "hour": "h",
    "hours": "h",
    "hrs": "h",
    "hr": "h",
    "h": "h",
    "day": "days",
    "days": "days",
    "night": "days",
    "nights": "days",
    "week": "weeks",
    "weeks": "weeks",
    "month": "months",
    "months": "months",
    "weekend": "days",
    "weekends": "days",
    "morning": "days",
    "mornings": "days",
    "evenings": "days",
    "year": "years",
    "years": "years",
    "degree": "deg",
    "degrees": "deg",
    "°": "deg",
    "percent": "pct",
    "%": "pct",
    "grit": "grit",
    "gauge": "gauge",
    "times": "times",
    "litre": "l",
    "litres": "l",
    "liter": "l",
    "liters": "l",
    "gallon": "gal",
    "gallons": "gal",
    "ml": "ml",
    "millilitre": "ml",
    "millilitres": "ml",
    "milliliter": "ml",
    "milliliters": "ml",
    "quart": "qt",
    "quarts": "qt",
    "pint": "pt",
    "pints": "pt",
    "o'clock": "clock",
    "am": "clock",
    "pm": "clock",
    "fps": "fps",
    "miles": "mile",
    "mile": "mile",
    "k": "px",
    "newton": "Nm",
    "nm": "Nm",
    "volt": "V",
    "volts": "V",
    "rpm": "rpm",
    "watts": "W",
    "psi": "psi",
    "tpi": "tpi",
    "tooth": "teeth",
    "teeth": "teeth",
}
MONEY_SIGNS = {"$": "usd", "£": "gbp", "€": "eur"}
LENGTHS = {unit: factor(unit, "in") for unit in ("in", "ft", "yd", "mm", "cm", "m")}  # [in]
MONEY = frozenset(("usd", "aud", "eur", "gbp", "cents", "pence"))
DURATIONS = frozenset(("s", "min", "h", "days", "weeks", "months", "years"))
MASSES = frozenset(("lb", "kg", "stone", "oz", "tonne", "ton", "g"))
LUMBER_THICK = frozenset(map(Fraction, (1, 2, 4, 6))) | {Fraction(5, 4)}
LUMBER_WIDE = frozenset(map(Fraction, (2, 3, 4, 6, 8, 10, 12)))
MONTHS = frozenset("january february march april june july august september october november december".split())
