#!/usr/bin/python3
"""A window of WebKitGTK as small as a phone, for WebKitWebDriver to drive.

    window.py FOLDER     told USR1, it prints what it shows to FOLDER/printed.pdf; its number is in FOLDER/window.pid

It is run by the system's Python, which has the bindings (python3-gi, gir1.2-webkit2-4.1): MiniBrowser
never becomes narrower than 447 px, and a driven page's own print() does nothing. The session is a private one.
"""

from __future__ import annotations

import os
import signal
import sys
from pathlib import Path

import gi

gi.require_version("Gtk", "3.0")
gi.require_version("WebKit2", "4.1")
from gi.repository import GLib, Gtk, WebKit2  # noqa: E402  the versions are asked for before

WIDTH, HEIGHT = 390, 844


def main(folder: Path) -> None:
    context = WebKit2.WebContext.new_ephemeral()
    context.set_automation_allowed(True)
    context.connect("automation-started", lambda _context, session: started(session, context, folder))
    (folder / "window.pid").write_text(str(os.getpid()))
    Gtk.main()


def started(session: WebKit2.AutomationSession, context: WebKit2.WebContext, folder: Path) -> None:
    info = WebKit2.ApplicationInfo()
    info.set_name("MiniBrowser")  # the name that selenium asks for
    session.set_application_info(info)
    session.connect("create-web-view", lambda _session: shown(context, folder))


def shown(context: WebKit2.WebContext, folder: Path) -> WebKit2.WebView:
    view = WebKit2.WebView(web_context=context, is_controlled_by_automation=True)
    window = Gtk.Window(default_width=WIDTH, default_height=HEIGHT)
    window.connect("destroy", Gtk.main_quit)
    window.add(view)
    window.show_all()
    GLib.unix_signal_add(GLib.PRIORITY_DEFAULT, signal.SIGUSR1, lambda: printed(view, folder))
    return view


def printed(view: WebKit2.WebView, folder: Path) -> bool:
    settings = Gtk.PrintSettings()
    settings.set_printer("Print to File")
    settings.set(Gtk.PRINT_SETTINGS_OUTPUT_FILE_FORMAT, "pdf")
    unfinished = folder / "printing.pdf"
    settings.set(Gtk.PRINT_SETTINGS_OUTPUT_URI, unfinished.as_uri())
    printing = WebKit2.PrintOperation(web_view=view, print_settings=settings, page_setup=Gtk.PageSetup())
    # Until then the page is laid out for paper.
    printing.connect("finished", lambda _printing: unfinished.rename(folder / "printed.pdf"))
    printing.print_()
    return GLib.SOURCE_CONTINUE


if __name__ == "__main__":
    main(Path(sys.argv[1]))
