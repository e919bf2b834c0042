# What was said of the duties of selling (api/duties.py).

api-duties-about = Manche Pflichten gelten der ganzen Werkstatt, manche einem Rezept. In „about“ das Rezept nennen oder nichts.
api-duties-unknown = Diese Pflicht gibt es nicht. /api/v1/recipes/…/duties nennt sie.
api-duties-another = Unter dieser Id steht schon etwas anderes. Eine neue nehmen.
