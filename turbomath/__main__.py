"""``python -m turbomath`` is the command line."""

import sys

from turbomath.cli import main

if __name__ == "__main__":
    sys.exit(main())
