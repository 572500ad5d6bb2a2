"""Lets ``python -m runplanner`` do what ``runplanner`` does."""

import signal

_ENDS = ("SIGTERM", "SIGHUP", "SIGBREAK")
"""What a system sends to whoever is to end; not every system has all."""


def run() -> int:
    """Run the command line; Ctrl-C ends it in peace even while it is being loaded.

    So does a system that asks it to end, at log-off, when its time is up, or when its window or
    connection goes; who had it go on without one (``nohup``) is heeded.  Once it has ended
    further presses change nothing, while Python clears up.
    """
    for name in _ENDS:
        end = getattr(signal, name, None)
        if end is not None and signal.getsignal(end) == signal.SIG_DFL:
            signal.signal(end, signal.default_int_handler)
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
