# What is wrong with a kit (bench/kit.py, bench/weighing.py, frontend/bench/weighing.js).

kit-no-scale = The kit has no scale, and this recipe is weighed. Add a scale with its capacity and division.
kit-division-too-fine = A division finer than 1 mg is past this bench. Write 0.001 g or more.
kit-capacity-too-small = A scale shows at least a hundred of its divisions. Check capacity and division.
