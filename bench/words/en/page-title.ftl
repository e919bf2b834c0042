# What each page is called, by the word of its address (frontend/app.js, frontend/parts/page-head.js).

page-title-recipes = Recipes
page-title-size = Size
page-title-recipe = New recipe
page-title-bench = Bench
page-title-day = The day
page-title-gather = Gather
page-title-record = Batch record
page-title-label = Label
page-title-shelf = Shelf
page-title-card = On paper
page-title-practice = Practice
page-title-audit = Who did what
page-title-versions = Versions
page-title-bring = Bring in a recipe
page-title-kit = Kit
page-title-studio = Settings
page-title-delivery = Bring in a delivery
page-title-pieces = Pieces
page-title-recall = Recall
page-title-week = Week
page-title-buying = What to buy
page-title-figures = All batches
page-title-trials = Trials
