"""Lets ``python -m runplanner`` do what ``runplanner`` does."""

import signal


def run() -> int:
    """Run the command line; Ctrl-C ends it in peace even while it is being loaded.

    So does a system that asks it to end, at log-off or when its time is up.  Once it has ended
    further presses change nothing, while Python clears up.
    """
    signal.signal(signal.SIGTERM, signal.default_int_handler)
    try:
        from runplanner.cli import main

        code = main()
        signal.signal(signal.SIGINT, signal.SIG_IGN)
    except KeyboardInterrupt:
        signal.signal(signal.SIGINT, signal.SIG_IGN)
        return 130
    return code


if __name__ == "__main__":
    raise SystemExit(run())
