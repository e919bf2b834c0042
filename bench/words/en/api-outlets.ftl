# Outlets: where finished pieces go (api/outlets.py).

api-outlets-erased = This outlet was erased, and stays so. Name a new one.
