# Was von einer Zutat nach ihrem Namen bekannt ist (frontend/parts/known.js, frontend/parts/combo.js).

page-known-list = Was es sein kann
page-known-taken-for = Gilt als: { $name }.
page-known-card = Die Karte im Lager kennt es.
page-known-class = Seine Einstufung: { $hazards } ({ $source }).
page-known-fact = { $field }: { $value }
page-known-density = { $density } g/ml ({ $source })
page-known-leave = Was davon bekannt war, weg: { $fields }
page-known-take = Übernehmen: { $fields }
page-known-stays = Was du geschrieben hast, bleibt:
page-known-other = { $field }: deins { $mine }, bekannt { $known }
page-known-instead = { $count ->
    [one] Stattdessen das Bekannte nehmen
   *[other] Stattdessen alle { $count } nehmen
}
page-known-field = { $field ->
    [kind] was es ist
    [form] Form
    [inci] INCI-Name
    [cas] CAS-Nummer
    [density] Dichte
    [hazards] Hinweise
    [fragrance] Grenzwert des Dufts
    [most_c] nicht wärmer als
    [active] Wirkanteil
   *[heat] Wärmedaten
}
page-known-ask = Hier nicht bekannt. Sag es einmal, das Lager merkt es sich.
page-known-keep = Merken
page-known-kept = Auf der Karte im Lager gemerkt.
page-known-own = hier gemessen
