"""The air over the bench: dew point, and what it means for drying and wrapping.

The published figures are for single substances; a mixture takes up water at a lower humidity
than either part (J. Phys. Chem. B 110 (2006) 10190), and none was found for a fizz mix. So the
thresholds here lie below the single-substance values, and say so.
"""

from math import exp, log

# Magnus form, J. Appl. Meteorol. 35 (1996) 601; temperatures in °C, relative humidity in per cent.
_A = 17.625
_B = 243.04
# Over ice, the same paper, from memory; the tests hold it against ASHRAE's formula.
_ICE_HPA_RATIO = 6.1121 / 6.1094
_ICE_A = 22.587
_ICE_B = 273.86

# Anhydrous citric acid held at 69.9 % RH turned fully to monohydrate (J. Pharm. Sci. 98 (2009)
# 1744); bicarbonate powder takes up water between 76 and 88 % (Int. J. Pharm. 166 (1998) 167).
FIZZ_LOOK_RH = 55
FIZZ_STOP_RH = 65
# Glycerol has no threshold: it takes up water at any ordinary humidity. A design inference.
SOAP_SWEAT_RH = 60


def dew_point_c(temperature_c: float, humidity: float) -> float:
    """The dew point in °C of air at this temperature (°C, -20 to 60) and relative humidity (1 to 100 %).

    Below 0 °C it is the frost point, where ice and not dew forms.
    """
    g = log(humidity / 100) + _A * temperature_c / (_B + temperature_c)
    if g >= 0:
        return _B * g / (_A - g)
    g -= log(_ICE_HPA_RATIO)
    return _ICE_B * g / (_ICE_A - g)


def water_g_per_m3(temperature_c: float, humidity: float) -> float:
    """How much water the air holds, in g/m3, by the gas law from the Magnus vapour pressure."""
    pascal = 610.94 * exp(_A * temperature_c / (_B + temperature_c)) * humidity / 100
    return pascal / (461.5 * (temperature_c + 273.15)) * 1000
