# What to buy (api/buying.py).

api-buying-no-recipe = Dieses Rezept gibt es nicht. Wähl eins aus der Liste.
