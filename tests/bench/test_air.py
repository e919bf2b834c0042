"""Dew point against PsychroLib (ASHRAE's formula) and the table worked from Magnus (J. Appl. Meteorol. 35, 601)."""

from __future__ import annotations

import psychrolib
import pytest

from bench.air import FIZZ_LOOK_RH, FIZZ_STOP_RH, SOAP_SWEAT_RH, dew_point_c, water_g_per_m3

psychrolib.SetUnitSystem(psychrolib.SI)


@pytest.mark.parametrize("temperature", range(15, 36))
def test_the_dew_point_is_psychrolibs_within_a_twentieth_of_a_degree(temperature):
    for humidity in range(30, 101):
        theirs = psychrolib.GetTDewPointFromRelHum(temperature, humidity / 100)

        assert dew_point_c(temperature, humidity) == pytest.approx(theirs, abs=0.05)


@pytest.mark.parametrize(
    ("temperature", "humidity", "dew", "water"),
    [
        (20, 50, 9.261, 8.64),
        (20, 65, 13.221, 11.24),
        (25, 40, 10.465, 9.21),
        (25, 60, 16.698, 13.82),
        (25, 75, 20.260, 17.27),
        (30, 80, 26.171, 24.28),
    ],
)
def test_the_worked_table_holds(temperature, humidity, dew, water):
    """The Magnus-1996 column of the table; the water by the gas law."""
    assert dew_point_c(temperature, humidity) == pytest.approx(dew, abs=0.001)
    assert water_g_per_m3(temperature, humidity) == pytest.approx(water, abs=0.06)


@pytest.mark.parametrize("temperature", [15, 21, 35])
def test_full_air_is_at_its_dew_point(temperature):
    assert dew_point_c(temperature, 100) == pytest.approx(temperature, abs=1e-9)


def test_fizz_is_warned_of_below_every_published_figure_for_its_parts():
    citric_acid_turned, bicarbonate_drinks = 69.9, 76  # J. Pharm. Sci. 98, 1744; Int. J. Pharm. 166, 167

    assert FIZZ_LOOK_RH < FIZZ_STOP_RH < min(citric_acid_turned, bicarbonate_drinks)
    assert SOAP_SWEAT_RH < 80
