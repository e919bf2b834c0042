# Was Chargen einer Fassung neben denen einer anderen ergaben (frontend/parts/outcome-rows.js).

page-outcomes-title = Chargen nach Fassung { $before } und { $version }
page-outcomes-none = Noch keine fertigen Chargen von beiden.
page-outcomes-measure = { $measure ->
    [hands] Arbeitszeit je Stück:
    [spoiled] Verdorbene Stücke:
    [lost] Verlorene Masse:
   *[deviations] Abweichungen je Charge:
}
page-outcomes-values = { $before }, dann { $now }
page-outcomes-says = { $says ->
    [more] Mehr als vorher.
    [less] Weniger als vorher.
    [too_few] Zu wenige Chargen für eine Aussage.
   *[cannot_tell] Kein klarer Unterschied.
}
page-outcomes-batches = { $before } und { $now } Chargen; je 4 sind nötig.
page-outcomes-between = Geändert um { $low } bis { $high }, 95 %.
page-outcomes-why = Luft, Hände und Lieferungen können sich auch geändert haben.
