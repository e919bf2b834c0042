# Who did what to the studio (frontend/screens/audit.js).

page-audit-title = Who did what
page-audit-says = Devices, roles, settings, files and copies. Nothing here can be changed or removed.
page-audit-none = Nothing yet.
page-audit-older = Show older
