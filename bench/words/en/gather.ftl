# What to lay out before the first weighing (bench/gather.py, frontend/bench/gather.js).

gather-protection = { $thing ->
    [heatproof_gloves] Heatproof gloves
    [long_sleeves] Long sleeves
    [cold_water_near] Cold water near
    [lid_for_the_pan] Lid for the pan
    [dust_mask] Dust mask
    [eye_protection] Eye protection
    [window_open] Window open
    [heaters_and_flames_off] Heaters and flames off
    [dry_towel] Dry towel
   *[floor_cloth] Floor cloth
}
gather-vessel-for = For { $name }
gather-small-cup = Small cup
gather-start-cleaned = Bench, tools and vessels are clean
gather-start-cleared = Nothing of another batch is on the bench
