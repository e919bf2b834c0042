# Was vor dem ersten Wiegen bereitliegt (bench/gather.py, frontend/bench/gather.js).

gather-protection = { $thing ->
    [heatproof_gloves] Hitzefeste Handschuhe
    [long_sleeves] Lange Ärmel
    [cold_water_near] Kaltes Wasser in Reichweite
    [lid_for_the_pan] Deckel für den Topf
    [dust_mask] Staubmaske
    [eye_protection] Augenschutz
    [window_open] Fenster offen
    [heaters_and_flames_off] Wärmequellen und Flammen aus
    [dry_towel] Trockenes Tuch
   *[floor_cloth] Bodentuch
}
gather-vessel-for = Für { $name }
gather-small-cup = Becherchen
gather-start-cleaned = Tisch, Werkzeug und Gefäße sind sauber
gather-start-cleared = Nichts von einer anderen Charge auf dem Tisch
