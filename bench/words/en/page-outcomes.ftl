# What batches of one version came to beside those of another (frontend/parts/outcome-rows.js).

page-outcomes-title = Batches of version { $before } and { $version }
page-outcomes-none = No finished batches of both yet.
page-outcomes-measure = { $measure ->
    [hands] Hand work a piece:
    [spoiled] Spoiled pieces:
    [lost] Mass lost:
   *[deviations] Deviations a batch:
}
page-outcomes-values = { $before }, then { $now }
page-outcomes-says = { $says ->
    [more] More than before.
    [less] Less than before.
    [too_few] Too few batches to say.
   *[cannot_tell] No clear difference.
}
page-outcomes-batches = { $before } and { $now } batches; 4 of each are needed.
page-outcomes-between = Changed by { $low } to { $high }, 95 %.
page-outcomes-why = Air, hands and lots may have changed too.
