"""``python -m cuttlebone.cli``."""

from cuttlebone.cli import main

main()
