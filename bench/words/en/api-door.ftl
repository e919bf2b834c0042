# The door: who may come in, and how often (api/door).


## Who is not let in

api-door-problem-unpaired = This device is not paired with the studio. Open /pair, with a code from a maker's device.
api-door-problem-shut-out = This device was shut out of the studio. Ask a maker for a new code, then open /pair.
api-door-problem-maker-only = Only a maker's device may do this. This one is a helper's. Ask a maker, or for a change of its role.
api-door-confirm = { $role ->
    [maker] This gives a device what a maker may do. Send confirm with the same role.
   *[helper] This gives a device what a helper may do. Send confirm with the same role.
}
api-door-last-maker = This is the only maker's device. Pair another as a maker first. Or on the studio's computer: `bowlside shut-out`.
api-door-other-name = That is no name of this server. Is it the studio's own? Then add it to BOWLSIDE_HOSTS and start again.
api-door-other-site = Another site's page sent this. Open the studio at its own address and do it there.
api-door-anothers-id = This bench name belongs to: { $name }. Send it from that device, or under this device's own name.

## How often

api-door-too-many = Too many at once. Try again in { $length }.
api-door-budget = { $what ->
    [bytes-a-minute] This device has sent 64 MB in a minute.
    [bytes-a-day] This device has sent 1 GB today.
    [plans-an-hour] This device has begun 120 plans in an hour.
    [runs-an-hour] This device has begun 120 batches in an hour.
   *[plans-at-once] This device has { $count } plans in the making already.
}
api-door-go-on = Nothing of this was saved. Go on in { $length }.

## Codes

api-door-no-pairing = This studio is open to its own computer alone, and needs no pairing there. To let devices in: `bowlside serve --lan`.
api-door-no-code = No code is open. It was used, mistyped too often, or older than 10 min. Ask for a new one: on a maker's device under Settings. Or on the computer: `bowlside pair`.
api-door-wrong-code = { $count ->
    [one] That is not the code. One try is left.
   *[other] That is not the code. { $count } tries are left.
}
api-door-wrong-code-too-often = That is not the code. Type it as the maker's screen shows it, or ask for a new one.

## The certificate authority

api-door-authority-begins = The studio's authority begins on { $at }. This computer's clock is before that. Set it.
api-door-authority-ended = The studio's authority ended on { $at }. Devices no longer trust it.
api-door-authority-ends = The studio's authority ends on { $at }.
api-door-authority-new = Move its folder away to get a new one. Devices must then trust that again.

## The pairing page

api-door-page-title = Pair this device with the studio
api-door-page-heading = Pair this device
api-door-page-way = The studio is shut to devices it does not know. A maker makes a code: on a paired device under Settings. Or on the studio's computer: `bowlside pair`.
api-door-page-install-first = On an iPhone or iPad, install first, then pair.
api-door-page-install = In Safari: Share, then Add to Home Screen. Open Bowlside from there and type the code there. The installed page keeps its own data: pairing in Safari does not count.
api-door-page-code = Code
api-door-page-about-code = 8 letters and digits, for one device and 10 min. The letter O counts as a zero.
api-door-page-name = Name of this device
api-door-page-about-name = As the batch record should say it, such as “Tablet by the bowl”.
api-door-page-pair = Pair
api-door-page-too-late = Code too old? Ask for another. Nothing on this device is lost by waiting.
api-door-page-paired = Paired already: open the studio

## The landing page: menus are named as the device names them

api-door-landing-title = Trust this studio
api-door-landing-heading = Let this device trust the studio
api-door-landing-why = Work with no network, and a screen that stays on. Both need a browser that trusts this computer. That takes a certificate on this device, once.
api-door-landing-state = The steps below are for once. After them, open:
api-door-landing-untrusted = This device does not trust the studio yet. The steps below are for once.
api-door-landing-trusted = This device trusts the studio.
api-door-landing-open = Open the studio
api-door-landing-fetch = Fetch the certificate
api-door-landing-compare = Compare the fingerprint
api-door-landing-compare-why = It is shown where Bowlside was started. This device shows it, too, as SHA-256 of the certificate. If they differ, stop: someone else is answering.
api-door-landing-tell = Tell the device to trust it
api-door-landing-menus = Menus differ a little between versions. Look for these words.
api-door-landing-android-search = In Settings, look for “CA certificate”. It is under Security, Encryption & credentials, Install a certificate.
api-door-landing-android-install = Choose “Install anyway”, and the file that you fetched.
api-door-landing-android-open = Open the studio in the device's own browser.
api-door-landing-apple-fetch = Fetch it in Safari and allow the profile. If it went to Files, tap it there.
api-door-landing-apple-install = Settings, “Profile Downloaded” (or General, VPN & Device Management): Install.
api-door-landing-apple-trust = Settings, General, About, “Certificate Trust Settings”: switch it on. Without this last switch nothing changes.
api-door-landing-apple-home = Install before you pair: open the studio in Safari, “Share”, “Add to Home Screen”. Open it from there, and pair there.
api-door-landing-windows-open = Open the file and choose “Install Certificate”, for the current user.
api-door-landing-windows-place = Place it in “Trusted Root Certification Authorities”, not in the place suggested.
api-door-landing-mac-open = Open the file: Keychain Access adds it to the login keychain.
api-door-landing-mac-trust = Open it there, and under “Trust” choose Always Trust.
api-door-landing-chromium = Chromium: Settings, Privacy and security, Security, “Manage certificates”. Import it as a trusted one.
api-door-landing-firefox = Firefox: Settings, Privacy & Security, “View Certificates”, Authorities. Import it for websites.
api-door-landing-vouches = It vouches only for this computer's names and for addresses inside a house. It never does for a site on the internet. To take the trust back, remove it in the same place.
api-door-landing-code = { $address } as a QR code
api-door-landing-nothing-else = Only the landing page is here: /
