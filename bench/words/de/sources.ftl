# Woher eine Angabe der Stofftabelle stammt.

sources-iupac = gekürzte Standard-Atomgewichte der CIAAW, summiert
sources-memory = aus dem Gedächtnis: im Datenblatt nachsehen
sources-common-practice = übliche Praxis
sources-definition = was der Name sagt
sources-second-hand = veröffentlichte Zahl, aus zweiter Hand
sources-from-alcohol = 14 Vol.-% Alkohol im Destillat, aus dem Gedächtnis
sources-eu-2021-849 = Verordnung (EU) 2021/849, in Kraft ab 17. Dezember 2022
sources-eu-2023-2055 = Verordnung (EU) 2023/2055, in Kraft ab 17. Oktober 2023; Zusammenfassung gelesen
sources-eu-2019-831 = Verordnung (EU) 2019/831 vom 22. Mai 2019; das Verbot aus zweiter Hand
sources-excipients = Handbuch der Hilfsstoffe: loses und geklopftes Pulver
sources-sshade = Datenbank SSHADE
sources-usp-nf-23 = USP-NF 23, relative Dichte
sources-chocolate-handbook = Handbuch industrieller Schokolade, 4. Auflage 2009
sources-national-formulary = National Formulary, heißes Fett gegen Wasser
sources-clp-603-117-00-0 = harmonisierte Einstufung 603-117-00-0 (aus zweiter Hand)
sources-iec-60079-20-1 = IEC 60079-20-1:2010
sources-echa-menthol = Registrierungsdossier vom 19. Mai 2023, Selbsteinstufung
sources-cfr-2015 = 21 CFR, Jahresausgabe 2015: heutige prüfen
