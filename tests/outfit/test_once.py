"""What is read out of frozen facts is read once, and never taken for what others say."""

from runplanner.outfit.once import KEPT, once


def test_the_same_facts_are_read_once() -> None:
    """Equal ones are others; the first that are kept no longer are read again."""
    read: list[list[int]] = []

    @once
    def total(facts: list[int]) -> int:
        read.append(facts)
        return sum(facts)

    facts, others = [1, 2], [[1, 2] for _ in range(KEPT)]

    assert [3, 3, 3] == [total(facts), total(facts), total(others[0])]
    assert [facts, others[0]] == read
    assert [3] * KEPT == [total(one) for one in others]
    assert 3 == total(facts)
    assert 2 + KEPT == len(read)
    assert read[-1] is facts
