# A batch for practice (frontend/screens/practice.js).

page-practice-short = Übung: 1 min hier ist 1 h
