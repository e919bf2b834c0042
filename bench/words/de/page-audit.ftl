# Who did what to the studio (frontend/screens/audit.js).

page-audit-title = Wer was getan hat
page-audit-says = Geräte, Rollen, Einstellungen, Dateien und Sicherungen. Nichts hier lässt sich ändern oder entfernen.
page-audit-none = Noch nichts.
page-audit-older = Ältere zeigen
