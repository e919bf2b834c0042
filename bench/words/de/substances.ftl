# Was die Tabelle der Stoffe von einer Zahl sagt (bench/substances/proposing.py).

substances-density-by = { $source }: { $least } bis { $most } g/ml
