# Reading a code with the camera (frontend/parts/scanner.js).

page-scanner-sees = What the camera sees
page-scanner-hold = Hold the code in front of the camera.
page-scanner-no-camera = No camera ({ $why }). Go back and type the code.
