# What to buy (api/buying.py).

api-buying-no-recipe = There is no such recipe. Pick one of the list.
