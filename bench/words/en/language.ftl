# The language itself, and the choice of it.

language-name = English
language-choice = Language
language-as-phone = As the phone
language-needs-connection = No connection. The language changes once there is one.
