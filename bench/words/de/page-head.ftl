# Der Kopf einer ruhigen Seite (frontend/parts/page-head.js).

page-head-pages = Seiten
