# A batch for practice (frontend/screens/practice.js).

page-practice-short = Practice: 1 min here is 1 h
