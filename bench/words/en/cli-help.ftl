# What `bowlside --help` says of commands and options.

cli-help-usage = Usage:
cli-help-options = Options
cli-help-commands = Commands
cli-help-help = Show this help.
cli-help-version = Show the version.
cli-help-database = The SQLite file to use. Else BOWLSIDE_DATABASE, else var/bowlside.sqlite3.

## Commands

cli-help-main = A bench companion: what to do now, how much to pour, and every wait at once.
cli-help-serve = Serve the page and the API: to this machine, unless an option says more.
cli-help-check = Check a recipe: what is wrong, odd or good to know.
cli-help-sheet = Print a recipe at a size: its sheet, as text.
cli-help-import = Bring in a studio's export, a recipe or a kit. Adds, and never overwrites. Others can write meanwhile. Cut off? Give it again: what is here by then is skipped.
cli-help-export = Write the whole studio as one JSON, to FILE or to standard output.
cli-help-pair = Make a code that lets one device in, for 10 min.
cli-help-devices = List the paired devices, and when each was last seen.
cli-help-shut-out = Shut a device out, by its name or its id, the only maker's too.
cli-help-audit = Say what was done to the studio, by whom and when: the newest first.
cli-help-batches = List the batches, the newest first, and how each was judged.
cli-help-judge = Release, hold or reject a batch, by its number or id. A further judgement corrects it, and all of them stay.
cli-help-backup = Copy everything into a new FILE, whether or not the studio is open.
cli-help-verify = Lay a copy out as if to restore it. Say whether all of it can be used.
cli-help-restore = Restore a copy. What is there is replaced, and copied first.
cli-help-move = Move the studio to an empty database. TO is a SQLite file or a postgresql:// address. What is at the old place stays and can be read. Nothing more is saved there.
cli-help-copies-key = Make a key for encrypted copies: FILE opens them, and its public half encrypts them.

## Options

cli-help-port = Else BOWLSIDE_PORT, else 8420. 0 takes a free one.
cli-help-port-of-server = The port of the server. Else BOWLSIDE_PORT, else 8420.
cli-help-demo = Fill an empty database with the demo studio.
cli-help-lan = Open the studio to paired devices on this network, by TLS.
cli-help-landing-port = With --lan: the page that says how to trust it.
cli-help-listen = With --lan or --behind-proxy: listen on this address and no other.
cli-help-behind-proxy = Paired devices come through a proxy (BOWLSIDE_PROXIES of them).
cli-help-workers = How many processes answer. Else BOWLSIDE_WORKERS, else 1.
cli-help-pieces = How many pieces this batch should give.
cli-help-kit = A kit file. Without one: a kitchen scale of 5 kg by 1 g.
cli-help-findings-json = For a program: the findings as canonical JSON.
cli-help-json = For a program: the sheet as canonical JSON.
cli-help-new = Make a studio first, where there is none.
cli-help-replace = Write over a file that is there.
cli-help-helper = For a device that may make batches, not edit recipes or kit.
cli-help-what = Only what was done of one kind, such as paired or restored.
cli-help-since = Only from this day on, by UTC.
cli-help-most = How many lines. Else 100.
cli-help-release = Only those that were judged so. none: not judged yet.
cli-help-name = Who judges.
cli-help-why = Why. A batch that is held or rejected needs a reason.
cli-help-identity = The key file that opens an encrypted copy (bowlside copies-key).
cli-help-yes = Do not ask whether to replace what is there.
cli-help-anyway = Restore also what this version cannot read.
cli-help-from = A SQLite file or a postgresql:// address. Else the settings' own.
cli-help-to = The same as TO.
cli-help-back = Let the place that a studio moved away from be the studio again.
