from grader.board.basis import Basis, seen_by_all, sight, sights
from grader.board.board import Board, board_from_text
from grader.reasoning.chains.link_graph import LinkGraph
from grader.reasoning.chains.links import (
    Node,
    StrongLink,
    bivalue_links,
    cage_links,
    combination_links,
    every_link,
    house_links,
    open_cages,
)
from grader.reasoning.chains.locked_sets import almost_locked_sets
from grader.reasoning.chains.wide_graph import WideLinkGraph
from tests.grader.boards import board_without, names
from verifier.puzzle.masks import bits, mask_of
from verifier.puzzle.rules.cage import Cage


def told(board: Board, link: StrongLink) -> tuple[str, str]:
    return names(board, bits(link.one.cells)), names(board, bits(link.other.cells))


def of_row_1(links: list[StrongLink]) -> list[StrongLink]:
    return [link for link in links if link.basis.rules == 1]


def test_a_cell_with_two_candidates_is_a_strong_link() -> None:
    board = board_from_text("37 5 379")
    assert list(bivalue_links(board)) == [StrongLink(Node(1, 3), Node(1, 7), Basis(looks=1))]


def test_two_places_of_a_digit_in_a_house_are_a_strong_link() -> None:
    board = board_without(6, "- . - - . - - - -")
    (link,) = of_row_1(list(house_links(board, board.places())))
    assert told(board, link) == ("r1c2", "r1c5")
    assert names(board, bits(link.basis.looks)) == "r1c1 r1c3 r1c4 r1c6 r1c7 r1c8 r1c9"


def test_three_places_are_a_strong_link_only_for_groups() -> None:
    board = board_without(6, "- . . - . - - - -")
    assert not of_row_1(list(house_links(board, board.places())))
    (link,) = of_row_1(list(house_links(board, board.places(), grouped=True)))
    assert told(board, link) == ("r1c2 r1c3", "r1c5")


def test_places_in_three_boxes_of_a_row_are_no_strong_link() -> None:
    board = board_without(6, "- . - - . - . - -")
    assert not of_row_1(list(house_links(board, board.places(), grouped=True)))


def test_a_digit_in_every_combination_of_a_cage_links_its_two_places() -> None:
    board = board_from_text("589 5678 6789", [Cage((0, 1, 2), 22)])
    (link,) = cage_links(board, board.places(), open_cages(board))
    assert (link.one.digit, told(board, link)) == (9, ("r1c1", "r1c3"))
    assert link.basis == Basis(rules=1 << len(board.layout.houses), looks=0b111)


def test_a_digit_that_one_combination_lacks_links_nothing() -> None:
    board = board_from_text("56789 5678 6789", [Cage((0, 1, 2), 21)])  # 4+8+9 is out, 6+7+8 has no 9
    assert all(link.one.digit != 9 for link in cage_links(board, board.places(), open_cages(board)))


def test_two_combinations_link_a_digit_of_the_one_to_a_digit_of_the_other() -> None:
    board = board_from_text("238 389", [Cage((0, 1), 11)])
    links = list(combination_links(board.places(), open_cages(board)))
    assert [(link.one.digit, link.other.digit) for link in links] == [(2, 3), (2, 8), (9, 3), (9, 8)]


def test_a_placed_digit_leaves_the_rest_of_its_cage() -> None:
    board = board_from_text("1 . .", [Cage((0, 1, 2), 6)])
    (cage,) = open_cages(board)
    assert (list(bits(cage.empty)), cage.combinations) == ([1, 2], (0b1100,))


def test_candidates_of_a_digit_exclude_each_other_where_they_see_each_other() -> None:
    board = board_from_text("13 . . 12")
    graph = LinkGraph(board.layout, board.places(), bivalue_links(board))
    ones = [number for number, node in enumerate(graph.nodes) if node.digit == 1]
    assert [graph.weak[number] for number in ones] == [1 << ones[1], 1 << ones[0]]


def test_candidates_of_a_cell_exclude_each_other_only_where_a_web_goes_across() -> None:
    board = board_from_text("12")
    places, links = board.places(), list(bivalue_links(board))
    assert LinkGraph(board.layout, places, links).weak == [0, 0]
    assert WideLinkGraph(board, links, ()).weak == [0b10, 0b01]


def test_of_two_links_between_the_same_nodes_the_one_with_fewer_premises_counts() -> None:
    board = board_from_text("12")
    wide = StrongLink(Node(1, 1), Node(1, 2), Basis(rules=0b11, looks=1))
    (tight,) = bivalue_links(board)
    assert LinkGraph(board.layout, board.places(), [wide, tight]).basis(0, 1) == tight.basis


def test_cells_that_see_all_of_a_group_see_each_of_its_cells() -> None:
    layout = board_from_text("").layout
    group = mask_of([0, 1])
    assert list(bits(seen_by_all(layout, group))) == [*range(2, 9), 9, 10, 11, 18, 19, 20]


def test_one_house_is_reason_enough_for_a_group() -> None:
    layout = board_from_text("").layout
    assert sight(layout, mask_of([0, 1]), mask_of([8])) == Basis(rules=1 << 0)


def test_a_cage_is_the_reason_where_no_house_is() -> None:
    layout = board_from_text("", [Cage((0, 40), 10)]).layout
    assert sight(layout, 1 << 0, 1 << 40) == Basis(rules=1 << len(layout.houses))


def test_the_reasons_do_not_depend_on_the_order_in_which_they_are_asked_for() -> None:
    # r1c1 sees r1c2 by row 1 or box 1, and r2c2 by box 1 alone: one house for both.
    layout = board_from_text("").layout
    pairs = [(1 << 0, 1 << 1), (1 << 0, 1 << 10)]
    assert sights(layout, Basis(), pairs) == sights(layout, Basis(), pairs[::-1]) == Basis(rules=1 << 18)


def test_an_almost_locked_set_has_one_digit_more_than_cells() -> None:
    board = board_from_text("13 136 . . . . . . 16")
    found = [(names(board, bits(one.cells)), list(bits(one.digits))) for one in almost_locked_sets(board)]
    assert ("r1c1 r1c2", [1, 3, 6]) in found
    assert ("r1c1", [1, 3]) in found
    assert all(len(digits) == len(cells.split()) + 1 for cells, digits in found)


def test_a_set_that_holds_a_locked_set_is_not_almost_locked() -> None:
    board = board_from_text("13 13 16")
    assert "r1c1 r1c2 r1c3" not in {names(board, bits(one.cells)) for one in almost_locked_sets(board)}


def test_weak_links_go_both_ways() -> None:
    # Beside 3 and 1 the cage of 8 needs a 4: the 1 of r1c2 and the 2 of r1c3 exclude each other.
    board = board_from_text("3? 1? 24\n. 234\n.\n. 234", [Cage((0, 1, 2), 8)], size=4)
    cages = open_cages(board)
    graph = WideLinkGraph(board, every_link(board, board.places(), cages), cages)
    one, two = graph.nodes.index(Node(1 << 1, 1)), graph.nodes.index(Node(1 << 2, 2))
    assert graph.weak[one] >> two & 1
    assert graph.weak[two] >> one & 1
