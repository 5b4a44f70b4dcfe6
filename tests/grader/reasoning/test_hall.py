from itertools import combinations

from hypothesis import given
from hypothesis import strategies as st

from grader.reasoning.hall import hall_sets
from verifier.puzzle.masks import mask_of

SETS = st.lists(st.integers(0, 0b111111), max_size=8)


@given(sets=SETS, size=st.integers(1, 4))
def test_hall_sets_are_those_that_trying_every_choice_finds(sets: list[int], size: int) -> None:
    named = list(enumerate(sets))
    tried = []
    for choice in combinations(named, size):
        members = mask_of(bit for bit in range(6) if any(mask >> bit & 1 for _, mask in choice))
        if members.bit_count() == size:
            tried.append((tuple(name for name, _ in choice), members))
    assert list(hall_sets(named, size)) == tried


def test_sets_with_one_member_too_many_between_them_are_none() -> None:
    assert not list(hall_sets([(0, 0b011), (1, 0b101)], 2))
