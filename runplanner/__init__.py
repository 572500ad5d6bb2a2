"""Plan a beekeeper's take-off, condensing and autumn feeding as a season of truck trips."""

__version__ = "0.1.0"
