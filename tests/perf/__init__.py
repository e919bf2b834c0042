"""The figures that must hold, each a ratio taken in one run: `make perf`, or `python -m tests.perf NAME`.

A figure is a function that returns its value, registered under its name in `registry.figure`. A new
one goes into a module of its subject here, and the module's name into `MODULES` of `__main__`.
"""
