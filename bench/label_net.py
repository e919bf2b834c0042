"""Net content on a label: its words, how far short a pack may be, and how high letters and digits have to be."""

from bench.shapes.entries import Market
from bench.shapes.record import LabelSize, LeastHeights
from bench.whole import ceiling
from bench.words import point

INCH_UM = 25_400
OUNCE_NG = 28_349_523_125  # one ounce avoirdupois, exactly (UCUM v2.2)
_POUND, _FOUR_POUNDS = 16, 64  # in ounces

# 21 CFR 701.13: up to so many square inches of the principal display panel, the least height in sixteenths of an inch.
_SMALL = 5  # square inches
NET_SIXTEENTHS = ((_SMALL, 1), (25, 2), (100, 3), (400, 4), (None, 8))
# German FPackV, section 38(2), which is not the directive: up to so many grams, the least height of the digits in µm.
DIGITS = ((50, 2_000), (200, 3_000), (1_000, 4_000), (None, 6_000))
# Directive 76/211/EEC, Annex I: up to so many grams, tenths of a per cent of them, or tenths of a gram.
SHORTFALLS = (
    (50, 90, 0),
    (100, 0, 45),
    (200, 45, 0),
    (300, 0, 90),
    (500, 30, 0),
    (1_000, 0, 150),
    (10_000, 15, 0),
)
LEAST_NOMINAL_MG = 5_000


def net_text(mg: int, market: Market) -> str:
    """Net content of one piece, never more than is there: whole grams, tenths below 10 g.

    In the US avoirdupois ounces first, in English: to a hundredth below one ounce, else to a tenth; from one
    pound pounds beside them; from four pounds pounds alone (21 CFR 701.13).
    """
    tenths = mg // 100
    sign = "." if market == "us" else point()
    grams = f"{mg // 1000} g" if mg >= 10_000 else f"{tenths // 10}{sign}{tenths % 10} g"
    if market != "us":
        return grams
    hundredths = hundredths_of_an_ounce(mg)
    if hundredths < 100:
        return f"Net Wt 0.{hundredths:02} oz ({grams})"
    tenths = hundredths // 10
    ounces = f"{tenths // 10}.{tenths % 10} oz"
    if tenths < 10 * _POUND:
        return f"Net Wt {ounces} ({grams})"
    if tenths < 10 * _FOUR_POUNDS:
        over = tenths % (10 * _POUND)
        rest = f" {over // 10}.{over % 10} oz" if over else ""
        return f"Net Wt {ounces} ({tenths // (10 * _POUND)} lb{rest}) {grams}"
    of_pound = hundredths // _POUND
    return f"Net Wt {of_pound // 100}.{of_pound % 100:02} lb ({grams})"


def hundredths_of_an_ounce(mg: int) -> int:
    """Whole hundredths that are in it: two decimals are the most (21 CFR 701.13)."""
    return mg * 100 * 1_000_000 // OUNCE_NG


def shortfall(mg: int, market: Market) -> int | None:
    """By how much one pack may be short of its nominal content, in mg; None where no figure is known here.

    A per cent is rounded up to a tenth of a gram. The mean of a batch may not be short at all.
    """
    nominal = mg // 1_000
    if market == "us" or mg < LEAST_NOMINAL_MG:
        return None
    for most, per_mille, tenths in SHORTFALLS:
        if nominal <= most:
            return 100 * (tenths or ceiling(nominal * per_mille, 100))
    return None


def stands_low(market: Market, size: LabelSize | None) -> bool | None:
    """Whether the net content belongs in the lower 30 % of the panel: in the US above 5 square inches (21 CFR 701.13).

    None where the panel is not known.
    """
    if market != "us":
        return False
    return None if size is None else _panel(size) > 100 * _SMALL * INCH_UM * INCH_UM


def _panel(size: LabelSize) -> int:
    """The principal display panel in hundredths of µm²: 40 % of what is no rectangle (16 CFR 500.21)."""
    return size["width_um"] * size["height_um"] * (100 if size["shape"] == "rectangle" else 40)


def least_heights(market: Market, size: LabelSize | None, net_mg: int | None = None) -> LeastHeights:
    """The least letter heights, rounded up.

    US: the list 1/16 in, or 1/32 in on a label of less than 12 square inches (21 CFR 701.3(b)); the
    net content by the principal display panel (701.13): all of a rectangle, 40 % of a cylinder's
    girth by height, 40 % of any other surface (16 CFR 500.21). EU and UK: the digits of the net content
    by the nominal content; that figure is of the German text.
    """
    if market != "us":
        nominal = (net_mg or 0) // 1_000
        digits = next(height for most, height in DIGITS if most is None or nominal <= most)
        return {"list_um": None, "net_um": digits if net_mg else None}
    if size is None:
        return {"list_um": None, "net_um": None}
    surface = size["width_um"] * size["height_um"]
    panel = _panel(size)
    square_inch = INCH_UM * INCH_UM
    parts = 32 if surface < 12 * square_inch else 16
    sixteenths = next(
        height for most, height in NET_SIXTEENTHS if most is None or panel <= 100 * most * square_inch
    )
    return {"list_um": -(-INCH_UM // parts), "net_um": -(-INCH_UM * sixteenths // 16)}
