"""Today's air, and what it means for drying and for wrapping."""

from collections.abc import Iterator

from bench.air import FIZZ_LOOK_RH, FIZZ_STOP_RH, SOAP_SWEAT_RH, dew_point_c, water_g_per_m3
from bench.checks.finding import finding
from bench.checks.subject import SOAP, Subject
from bench.shapes.recipe import Finding

_PAPERS = "J. Pharm. Sci. 98 (2009) 1744; Int. J. Pharm. 166 (1998) 167; J. Phys. Chem. B 110 (2006) 10190"


def dew_point(subject: Subject) -> Iterator[Finding]:
    if subject.air is None:
        return
    temperature, humidity = subject.air["temperature_c"], subject.air["humidity"]
    yield finding(
        "know",
        "air",
        f"At {temperature:g} °C and {humidity:g} % the dew point is {dew_point_c(temperature, humidity):.1f} °C.",
        why="Whatever is colder than that gathers water: a part out of the fridge, a cold tray, a cold wrap.",
        by=f"{water_g_per_m3(temperature, humidity):.1f} g of water in a cubic metre of air",
        do="Let every part come to the warmth of the room, covered, before it is dried, joined or wrapped.",
        source="Magnus form, J. Appl. Meteorol. 35 (1996) 601",
    )


def damp_for_fizz(subject: Subject) -> Iterator[Finding]:
    if subject.air is None or "bicarbonate" not in subject.kinds:
        return
    humidity = subject.air["humidity"]
    if humidity >= FIZZ_LOOK_RH:
        yield finding(
            "look",
            "air",
            "The air is too damp to dry a fizzing part well."
            if humidity >= FIZZ_STOP_RH
            else "The air is damp for a fizzing part. It dries slowly, and may begin to react.",
            why="Citric acid alone turned to its hydrate at 69.9 %, and bicarbonate alone takes up water from somewhere "
            "between 76 and 88 %. A mixture does so sooner. No figure for this mixture was found, so the check "
            f"begins to warn at {FIZZ_LOOK_RH} %, below the published ones.",
            by=f"{humidity - FIZZ_LOOK_RH:g} points over {FIZZ_LOOK_RH} %",
            do="Dry the air, or wait for a drier day. Wrap as soon as the piece is dry. Never dry it in a warm oven.",
            source=_PAPERS,
        )
    else:
        yield finding(
            "know",
            "air",
            f"The air is below the {FIZZ_LOOK_RH} % from which this check warns of slow drying.",
            why=f"That figure is set below the published ones for single substances. From {FIZZ_STOP_RH} % it warns more plainly.",
            by=f"{FIZZ_LOOK_RH - humidity:g} points under",
            do="Dry in the open, and wrap once dry.",
            source=_PAPERS,
        )


def damp_for_soap(subject: Subject) -> Iterator[Finding]:
    if subject.air is None or not subject.kinds & SOAP:
        return
    humidity = subject.air["humidity"]
    if humidity >= SOAP_SWEAT_RH:
        yield finding(
            "look",
            "air",
            "Soap parts are likely to sweat in this air.",
            why="Glycerol takes up water at any ordinary humidity. There is no published limit; this one is the check's own.",
            by=f"{humidity - SOAP_SWEAT_RH:g} points over {SOAP_SWEAT_RH} %",
            do="Wrap each piece as soon as it is cool.",
            source="ASTM D5032 (glycerol and humidity); the level is a design inference",
        )
