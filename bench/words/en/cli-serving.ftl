# `bowlside serve`.

cli-serving-to-machine = this machine only
cli-serving-to-proxy = the proxy, for paired devices
cli-serving-to-network = paired devices on this network

## Where it is

cli-serving-at = Bowlside is at { $address } ({ $to }). Ctrl+C stops it.
cli-serving-trust-at = A device learns to trust it at { $address }
cli-serving-fingerprint = The certificate's fingerprint there must be
cli-serving-left-out = { $host } is left out: the authority was not made for it. Move the folder { $folder } away to get a new one. Devices must then trust that again.
cli-serving-pair = To let a device in: `bowlside pair`.

## Why it cannot

cli-serving-two-ways = --lan and --behind-proxy are two ways of opening the studio: choose one.
cli-serving-listen-alone = --listen goes with --lan or --behind-proxy. Else only this machine is answered.
cli-serving-listen-address = --listen wants an address of this machine, as numbers: { $address } is none.
cli-serving-proxy-needs = --behind-proxy needs BOWLSIDE_PROXIES: how many proxies stand in front (most often 1). And BOWLSIDE_HOSTS: the name by which devices reach the studio.
cli-serving-clock = This computer's clock is years behind: no device would trust what it vouches for. Set it, then start again.
cli-serving-no-such-address = Cannot listen on { $address }: this machine does not have that address.
cli-serving-cannot-listen = Cannot listen: { $why }. Name another port with --port. 0 takes a free one.
