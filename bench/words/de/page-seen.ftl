# Was nur der Server ausrechnet: Etikett, Kosten, die letzten Male, Pflichten (frontend/keep/seen.js).

page-seen-as-of = Keine Verbindung. Stand: { $at }.
page-seen-never = Keine Verbindung. Auf diesem Handy noch nicht gesehen: kommt mit einer Verbindung.
page-seen-unsent = Seit Beginn dieser Charge keine Verbindung. Das kommt, sobald sie gesendet ist.
