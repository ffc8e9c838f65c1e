"""What can come after an end: the same number means the same thing wherever one stands."""

from identify.jobs.facts import Place
from identify.pages.onward import onward_blocks


def test_a_number_means_the_same_after_either_end() -> None:
    first = [
        b.pick for b in onward_blocks(5, Place(1, "A"), Place(1, "B"), Place(2, "A")) if b.pick
    ]
    second = [
        b.pick for b in onward_blocks(5, Place(1, "B"), Place(2, "A"), Place(2, "A")) if b.pick
    ]
    assert first[: len(second)] == second
    assert len(first) == len(second) + 1
