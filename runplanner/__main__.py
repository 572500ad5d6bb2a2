"""Lets ``python -m runplanner`` do what ``runplanner`` does."""

from runplanner.cli import main

if __name__ == "__main__":
    raise SystemExit(main())
