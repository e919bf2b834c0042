# Abnehmer: wohin fertige Stücke gehen (api/outlets.py).

api-outlets-erased = Dieser Abnehmer wurde gelöscht und bleibt es. Leg einen neuen an.
