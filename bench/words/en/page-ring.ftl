# Will it ring? (frontend/parts/ring-state.js)

page-ring-will = It will ring.
page-ring-may-not = It may not ring.
page-ring-sound = Sound
page-ring-sound-on = on
page-ring-sound-off = off. Tick it above.
page-ring-browser = Browser
page-ring-browser-can = lets this page sound
page-ring-browser-not-yet = gives no sound yet. Touch the page.
page-ring-switch = Silent switch
page-ring-switch-unknown = a page can't see it, nor the volume. Test the ring.
page-ring-screen = Screen
page-ring-screen-dark = may go dark. Set the phone's own lock to never.
page-ring-screen-on = stays on while something counts
page-ring-clock = Clock
page-ring-clock-sure = checked with the server
page-ring-clock-unsure = not checked: no connection yet. Timers go on all the same.
