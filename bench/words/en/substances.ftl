# What the table of substances says of a figure (bench/substances/proposing.py).

substances-density-by = { $source }: { $least } to { $most } g/ml
