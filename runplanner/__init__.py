"""Plan a beekeeper's take-off, condensing and autumn feeding as a season of truck trips."""

from runplanner.version import __version__

__all__ = ["__version__"]
