"""Lets ``python -m runplanner`` do what ``runplanner`` does."""


def run() -> int:
    """Run the command line; Ctrl-C ends it in peace even while it is being loaded."""
    try:
        from runplanner.cli import main

        return main()
    except KeyboardInterrupt:
        return 130


if __name__ == "__main__":
    raise SystemExit(run())
