"""What a week comes to, aim by aim, counted from the batches themselves."""

from bench.shapes.week import WeekAimName
from bench.week.bench_time import Made, ready
from bench.week.units import InUnits


def measure(units: InUnits, made: Made) -> dict[WeekAimName, int]:
    back = quality = hands = age = 0
    for batch in made.batches:
        size = units.sizes[batch.make][batch.size]
        hands += size.hands
        done = ready(size, batch.starts)
        age += sum(units.due[want] - done for want in batch.gives)
        for gap in size.between:
            if gap.most is not None and batch.starts[gap.two] - batch.starts[gap.one] > gap.most:
                back += gap.price if gap.name == "back" else 0
                quality += gap.name == "quality"
    return {
        "short": sum(made.short(units).values()),
        "back": back,
        "quality": quality,
        "batches": len(made.batches),
        "hands": hands,
        "age": age,
    }
