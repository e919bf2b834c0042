# The language itself and the units, and the choice of them.

language-name = English
language-choice = Language
language-as-phone = As the phone
language-needs-connection = No connection. The language changes once there is one.

language-masses = Masses
language-masses-g = Grams (g)
language-masses-oz = Ounces and pounds (oz, lb)
language-temperatures = Temperatures
