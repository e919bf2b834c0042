"""One version's side of `two_versions.py`: says how long each task takes it that it is asked for by name.

Run as a file, from whatever checkout, so it imports `bench` and nothing else of ours.
"""

import json
import sys
import time

import bench

SIZE = {"pieces": 10, "without": [], "swaps": {}, "weigh": "running"}
REF = {"id": "00000000-0000-4000-8000-000000000000", "version": 1}

with open(sys.argv[1], encoding="utf-8") as file:
    given = json.load(file)
kit = bench.read_kit(given["kit"])
long, short = bench.read_recipe(given["long"]), bench.read_recipe(given["short"])
sheet = bench.make_sheet(short, REF, SIZE, kit)
assert given["some"][0]["body"]["line"] in {line["id"] for line in sheet["lines"]}
state = bench.fold(sheet, given["some"])
tasks = {
    "sheet": lambda: bench.make_sheet(long, REF, SIZE, kit),
    "fold": lambda: bench.fold(sheet, given["many"]),
    "record": lambda: bench.record(sheet, state, given["some"]),
}
for name in map(str.strip, sys.stdin):
    tasks[name]()
    began = time.process_time()
    tasks[name]()
    print(time.process_time() - began, flush=True)
