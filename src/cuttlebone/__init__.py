"""cuttlebone: is this small bird's home right, and what should change first?"""

__version__ = "0.1.0"
