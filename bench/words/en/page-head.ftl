# The head of a quiet page (frontend/parts/page-head.js).

page-head-pages = Pages
