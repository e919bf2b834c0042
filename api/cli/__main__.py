"""`python -m api.cli` is `bowlside`."""

from api.cli import main

main()
