# Settings, and the plain truth about this phone and the server (frontend/screens/studio.js and its parts).

## What this browser can't do, and why

page-studio-cannot = What this browser can't do
page-studio-cannot-reload = It can't open or reload without the server. Keep it open until the batch is finished.
page-studio-cannot-awake = It can't keep the screen on. Set the phone's own lock to its longest time.
page-studio-cannot-keep-in-safari = Safari clears all of it after 7 days without a visit. Add the page to the home screen, open it there, and pair there.
page-studio-cannot-keep = Short of space, the phone may clear what is saved here. Connect soon after each batch.
page-studio-cannot-speak = It can't speak.
page-studio-cannot-ring = It can't ring.
page-studio-because-insecure = Why: this page was opened over plain http.
page-studio-because-lacking = Why: this browser has no way to.
page-studio-because-not-installed = Why: it is not on the home screen.
page-studio-because-no-promise = Why: the browser hasn't promised to save it.

## At the bench

page-studio-bench = At the bench
page-studio-colours = Colours
page-studio-day = Day
page-studio-night = Night
page-studio-weighing = Weighing
page-studio-dry = Dry enough for you
page-studio-dry-constant = Constant weight: { $mass } for each gram in an hour
page-studio-dry-own = Your own: { $mass } for each gram in an hour
page-studio-ring = Ring when something is ready or late
page-studio-speech = Say each step aloud

## Will it ring?

page-studio-ring-open = It rings while this page is open and the screen is on.
page-studio-ring-dark-apple = With the screen off, or another app in front, nothing rings.
page-studio-ring-dark = With the screen off or another app in front: late rings, or none.
page-studio-ring-calendar = For a long wait, put the sessions into the phone's calendar: open The day.
page-studio-iphone = On an iPhone or iPad
page-studio-iphone-install = First install: in Safari, Share, then Add to Home Screen.
page-studio-iphone-pair = Open it from the home screen, and pair it there. Its batches are apart from Safari's.
page-studio-iphone-lock = While you work: Settings, Display & Brightness, Auto-Lock, Never.
page-studio-iphone-silent = Silent switch off. From iOS 16.4 it rings even when silent.
page-studio-ring-test = Test ring

## Batches, money and labels

page-studio-own = Batches, money and labels
page-studio-pattern = Batch numbers by this pattern
page-studio-pattern-says = { $fields }; { $mark } and { $number } are each device's own. So no number is given twice.
page-studio-currency = Currency
page-studio-rate = An hour of hand work
page-studio-wrap = Wrap for each piece, where no card is also called “wrap”
page-studio-no-tax = Tax is reclaimed
page-studio-cost-more = More costs, and a price
page-studio-cost-packaging_cost = Packaging, for each piece
page-studio-cost-sprays_cost = What goes in unweighed, for each batch
page-studio-cost-overhead_cost = Overhead, for each batch
page-studio-cost-cleaning_minutes = Minutes of cleaning, for each batch
page-studio-cost-labelling_seconds = Seconds of labelling, for each piece
page-studio-cost-fee_percent = Fees, per cent of the price
page-studio-cost-fee_each = Fee for each piece sold
page-studio-cost-margin_percent = Margin, per cent of the price without tax
page-studio-cost-tax_percent = Tax on the price, per cent
page-studio-before = Questions before the first weighing
page-studio-maker = Name and address for labels
page-studio-label-width = Label width, mm
page-studio-label-height = Label height, mm
page-studio-market = Sold in
page-studio-market-name = { $market ->
    [us] The US
    [uk] The UK
   *[eu] The EU
}
page-studio-opened = Good after opening, months
page-studio-save = Save the settings
page-studio-saved = Saved.
page-studio-makers = Only a maker changes these.

## The server

page-studio-server = Connection to the server
page-studio-not-let-in = Connected, but this phone is not let in.
page-studio-asking = Connecting…
page-studio-online = Connected.
page-studio-heard = Last connection { $at }.
page-studio-not-heard = Not connected yet.
page-studio-unsent = { $count ->
    [0] Everything is sent.
   *[other] { $count } not sent yet.
}
page-studio-try = Try now
page-studio-leap = { $way ->
    [forward] The server's clock was set { $length } forward.
   *[back] The server's clock was set { $length } back.
}
page-studio-leap-timers = Running timers keep their own time.
page-studio-newer = A newer page is ready. No batch is lost.
page-studio-newer-use = Use it

## Refused by the server

page-studio-refused = Refused by the server
page-studio-refused-stay = These stay on this phone.
page-studio-refused-photo = A photo
page-studio-refused-batch = The batch itself
page-studio-send-again = Send again
page-studio-send-all = Send all of them again
page-studio-set-aside = Set aside

## This phone and the studio

page-studio-phone = This phone and the studio
page-studio-you = You
page-studio-address = Address
page-studio-certificate = Certificate
page-studio-copies = Copies
page-studio-clock = Server's clock
page-studio-clock-wrong = Wrong
page-studio-who-unknown = Not known without a connection
page-studio-who = { $role ->
    [maker] { $name }, maker
   *[helper] { $name }, helper: makes batches
}
page-studio-who-here = The maker, at the studio's own computer. Start it with { $option } to let phones in.
page-studio-trusted = https, trusted by this phone
page-studio-not-trusted = Not trusted by this phone
page-studio-plain-http = Plain http
page-studio-needs = Working with no network, keeping the screen on and installing need https.
page-studio-open-https = Open the studio's https address. Its computer shows it.
page-studio-trust = First open the plain page that the studio's computer shows for new phones. Follow its steps to trust the certificate. Then open the studio again.
page-studio-good-until = Good until { $at }
page-studio-not-renewed = It should be renewed by now. Look at the studio's computer.
page-studio-no-copy = No copy yet
page-studio-copy = Last copy { $at }
page-studio-read-back = { $how ->
    [whole] read back whole
    [partly] read back in part
   *[unread] not read back yet
}
page-studio-entries = { $count ->
    [one] { $count } entry
   *[other] { $count } entries
}
page-studio-copy-failed = The last try failed: { $why }
page-studio-copy-stopped = Copies have stopped. Look at the studio's computer.
page-studio-copy-again = It is tried again by itself.

## Not let in

page-studio-door = At the door
page-studio-shut-unpaired = This phone is not paired with the studio. Batches here go on and are saved here. They send once it is paired. A maker's device or the studio's computer gives the code.
page-studio-shut-out = This phone was shut out of the studio. Batches here go on and are saved here. A maker can give it a new code. Then look at what was not sent: send it again or set it aside.
page-studio-pair = Pair this phone

## Take it with you

page-studio-take = Take it with you
page-studio-take-says = Everything on this phone as one file: batches with every entry, and the shelf.
page-studio-take-phone = Save what is on this phone
page-studio-take-server = Save everything from the server

## Who may come in. role: maker or helper

page-studio-devices = Who may come in
page-studio-makers-may = Makers change recipes and kit, see costs, and let others in.
page-studio-helpers-may = Helpers make batches. They can't see costs or change recipes and kit.
page-studio-pair-device = { $role ->
    [helper] Pair a helper's device
   *[maker] Pair a maker's phone
}
page-studio-qr = The address with the code, for a phone's camera
page-studio-code-away = Put the code away
page-studio-code-how = Point the new phone's camera at the square. Open what it shows. Or open { $address } on it and type the code.
page-studio-code-left = Good for one device, for { $left }
page-studio-code-over = The code is over. Make another when the device is at hand.
page-studio-paired = { $name } is paired.
page-studio-name = Name
page-studio-rename = Rename
page-studio-device = { $seen ->
    [this] { $role ->
        [maker] maker, this phone
       *[helper] helper, this phone
    }
    [now] { $role ->
        [maker] maker, here now
       *[helper] helper, here now
    }
   *[at] { $role ->
        [maker] maker, last seen { $at }
       *[helper] helper, last seen { $at }
    }
}
page-studio-make = { $role ->
    [maker] Make maker
   *[helper] Make helper
}
page-studio-make-title = { $role ->
    [maker] Make { $name } a maker?
   *[helper] Make { $name } a helper?
}
page-studio-make-do = { $role ->
    [maker] Make { $name } a maker
   *[helper] Make { $name } a helper
}
page-studio-helper-says = It goes on making batches. It can't see costs or change recipes and kit.
page-studio-shut-out-do = Shut out
page-studio-shut-out-title = Shut out { $name }?
page-studio-shut-out-says = It gets nothing more from the studio, at once. What it has not sent stays on it.
page-studio-shut-out-name = Shut out { $name }
page-studio-code-maker = Make a maker's code
page-studio-code-maker-title = Let in another maker?
