# The order of work (api/wants.py).

api-wants-no-outlet = There is no such outlet here. Choose one from the list, or none.
api-wants-another = This line of the order says something else here. Change it here.
