"""How many fondant blocks a colony gets at a stop."""

from runplanner.outfit.outfit import Rules


def blocks_each(rules: Rules, off: int, blocks: int) -> int:
    """Return how many blocks each colony got of those given beside a take-off.

    As many as the rules say; a driver may have given each more.

    Args:
        rules: What colonies are to get as they come off.
        off: Colonies that come off at the stop.
        blocks: Blocks given there.
    """
    return max(1, rules.blocks, blocks // max(1, off))
