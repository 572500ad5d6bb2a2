"""Lets ``python -m runplanner`` do what ``runplanner`` does."""

import signal


def run() -> int:
    """Run the command line; Ctrl-C ends it in peace even while it is being loaded.

    So does a system that asks it to end, at log-off or when its time is up.
    """
    signal.signal(signal.SIGTERM, signal.default_int_handler)
    try:
        from runplanner.cli import main

        return main()
    except KeyboardInterrupt:
        return 130


if __name__ == "__main__":
    raise SystemExit(run())
