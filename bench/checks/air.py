"""Today's air, and what it means for drying and for wrapping."""

from collections.abc import Iterator

from bench.air import FIZZ_LOOK_RH, FIZZ_STOP_RH, SOAP_SWEAT_RH, dew_point_c, water_g_per_m3
from bench.checks.finding import decimal, finding, number
from bench.checks.subject import SOAP, Subject
from bench.shapes.recipe import Finding
from bench.whole import temperature
from bench.words import say


def dew_point(subject: Subject) -> Iterator[Finding]:
    if subject.air is None:
        return
    degrees, humidity = subject.air["temperature_c"], subject.air["humidity"]
    yield finding(
        "dew-point",
        "know",
        "air",
        say(
            "checks-dew-point",
            temperature=temperature(round(degrees * 1000)),
            humidity=number(humidity),
            dew=temperature(round(dew_point_c(degrees, humidity) * 10) * 100),
        ),
        by=say("checks-dew-point-by", mass=f"{decimal(water_g_per_m3(degrees, humidity), 1)} g"),
    )


def damp_for_fizz(subject: Subject) -> Iterator[Finding]:
    if subject.air is None or not any(map(subject.carbonates, subject.parts)):
        return
    humidity = subject.air["humidity"]
    if humidity >= FIZZ_LOOK_RH:
        yield finding(
            "damp-fizz",
            "look",
            "air",
            say("checks-damp-fizz-stop") if humidity >= FIZZ_STOP_RH else say("checks-damp-fizz"),
            why=say("checks-damp-fizz-why", share=FIZZ_LOOK_RH),
            by=say("checks-damp-over", points=number(humidity - FIZZ_LOOK_RH), share=FIZZ_LOOK_RH),
        )
    else:
        yield finding(
            "dry-for-fizz",
            "know",
            "air",
            say("checks-dry-for-fizz", share=FIZZ_LOOK_RH),
            why=say("checks-dry-for-fizz-why", share=FIZZ_STOP_RH),
            by=say("checks-dry-for-fizz-by", points=number(FIZZ_LOOK_RH - humidity)),
        )


def damp_for_soap(subject: Subject) -> Iterator[Finding]:
    if subject.air is None or not subject.kinds & SOAP:
        return
    humidity = subject.air["humidity"]
    if humidity >= SOAP_SWEAT_RH:
        yield finding(
            "damp-soap",
            "look",
            "air",
            say("checks-damp-soap"),
            by=say("checks-damp-over", points=number(humidity - SOAP_SWEAT_RH), share=SOAP_SWEAT_RH),
        )
