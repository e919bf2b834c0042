# All finished batches in figures (frontend/screens/figures.js, frontend/parts/batch-panels.js).

page-figures-recipe = Recipe
page-figures-every = All recipes
page-figures-version = Version
page-figures-all-versions = All versions
page-figures-from = Finished from
page-figures-to = Finished until
page-figures-show = Show
page-figures-measure = { $measure ->
    [hands] Min­utes a piece
    [yield] Yield, %
    [cost] Cost a piece
    [spoiled] Spoiled, %
   *[deviations] Devia­tions
}
page-figures-dots = 1 dot a batch, the last 30 of each recipe. Every panel: 0 to { $most }.
page-figures-dots-of-one = 1 dot a batch, the last 30.
page-figures-scale = 0 to { $most }
page-figures-lines = A line shows a new version, by its number.
page-figures-hollow = Hollow, or ≥: a price is missing, so it cost at least that.
page-figures-panel = { $count ->
    [one] { $name }: 1 batch, { $last }.
   *[other] { $name }: { $count } batches, { $low } to { $high }, last { $last }.
}
page-figures-panel-none = { $name }: no batch tells this.
page-figures-changes = Version { $version } from batch { $place } on.
page-figures-more-recipes = Show more recipes
page-figures-table = { $count ->
    [one] 1 finished batch
   *[other] { $count } finished batches, the newest first
}
page-figures-good = { $good } of { $planned } good
page-figures-uncounted = not counted
page-figures-no-number = No number
page-figures-older = Show older batches
page-figures-none = No batch is finished yet.
page-figures-none-here = No batch fits. Choose another recipe, version or day.
page-figures-units = Whole numbers; each column names its unit.
page-figures-no-parquet = For Parquet, install bowlside[parquet] on the server.
