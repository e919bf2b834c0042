"""What batches of one version came to beside those of another."""

from typing import Literal, TypedDict

OutcomeMeasure = Literal["hands", "spoiled", "lost", "deviations"]


class Difference(TypedDict):
    """A mean over batches and over others, and the interval of what lies between, in whole units of the measure.

    hands: ms a good piece; spoiled: ppm of the pieces counted; lost: ppm of the mass; deviations: thousandths of one.
    """

    measure: OutcomeMeasure
    batches: list[int]  # that tell of it: of the former version, of the other
    before: int | None  # None: no batch tells of it
    now: int | None
    low: int | None  # of now less before; None: too few batches, or none differs from another
    high: int | None
    says: Literal["more", "less", "cannot_tell", "too_few"]


class Outcomes(TypedDict):
    """What followed when a version followed another."""

    before: int
    version: int
    differences: list[Difference]
