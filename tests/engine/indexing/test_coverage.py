"""Published statements of what a set of plates and gears can do, reproduced by searching all of it."""

from fractions import Fraction
from itertools import permutations

from engine.indexing.compound import compound_ways
from engine.indexing.differential import differential_ways
from engine.indexing.simple import simple_ways
from tests.engine.indexing.checks import GEARS, LARGE, LARGE_100, PLATES


def plain(divisions, plates=PLATES, ratio=40):
    return bool(simple_ways(wanted=Fraction(ratio, divisions), ratio=ratio, plates=plates))


def geared(divisions):
    return differential_ways(wanted=Fraction(40, divisions), ratio=40, plates=PLATES, gears=GEARS)


def test_three_plates_give_all_to_50_and_even_numbers_to_100_except_96():
    # the 1914 treatise on milling machines (public domain), p. 58 of the scan
    assert all(plain(n) for n in range(2, 51))
    assert [n for n in range(52, 101, 2) if not plain(n)] == [96]


def test_three_plates_give_many_multiples_of_5_to_380():
    # the same treatise; "many" is 58 of 76 when searched
    fives = [n for n in range(5, 381, 5) if plain(n)]
    assert len(fives) == 58
    assert not {125, 175, 225, 250} & set(fives)


def test_the_large_plate_gives_all_to_60():
    # NAVEDTRA 14204; so with the 25-hole circle of OD1644 as with the 100-hole circle of the wide-range divider
    for plates in (LARGE, LARGE_100):
        assert all(plain(n, plates) for n in range(2, 61))


def test_differential_gives_2_to_382_and_first_fails_at_383():
    # the 1914 treatise: 1 to 382 and many beyond
    ways = {n: geared(n) for n in range(2, 460)}
    missing = [n for n in ways if not plain(n) and not ways[n]]
    assert missing == [383, 401, 457]
    first = range(2, 383)
    assert sum(plain(n) for n in first) == 142
    compound_trains = [n for n in first if not plain(n) and ways[n][0].train.first]
    assert len(compound_trains) == 23
    assert compound_trains[0] == 173 and compound_trains[-1] == 379


def test_the_first_counts_that_plain_indexing_misses_on_other_heads():
    # derived by arithmetic with the three plates
    for ratio, missing in ((40, [51, 53, 57, 59, 61, 63]), (60, [53, 56, 59, 61, 67]), (90, [28, 44, 52, 53, 56])):
        found = [n for n in range(2, 101) if not plain(n, ratio=ratio)]
        assert found[: len(missing)] == missing


def test_no_exact_compound_on_one_plate():
    # derived by arithmetic: none of these to 127
    hopeless = [53, 59, 61, 67, 71, 73, 79, 81, 83, 89, 97, 101, 103, 106, 107, 109, 112, 113, 117, 118, 119, 121, 122,
                125, 127]  # fmt: skip
    missing = [
        n for n in range(2, 128) if not plain(n) and not compound_ways(wanted=Fraction(40, n), ratio=40, plates=PLATES)
    ]
    assert missing == hopeless


def test_compound_search_finds_what_trying_every_pair_of_holes_finds():
    # brute force over every hole of every pair on a small plate: moves that go no whole turn too far, fewest holes
    plates = ((15, 16, 18, 20),)
    for n in range(2, 130):
        if plain(n, plates):
            continue
        wanted = Fraction(40, n)
        found = []
        for first, second in permutations(plates[0], 2):
            for b in range(1 - second, second):
                turns, holes = divmod((wanted - Fraction(b, second)) * first, first)
                if b and holes and holes.denominator == 1 and turns >= 0:
                    found.append((turns > wanted // 1, holes + abs(b)))
        ways = compound_ways(wanted=wanted, ratio=40, plates=plates)
        best = [(w.turns > wanted // 1, w.holes + abs(w.second_holes)) for w in ways[:1]]
        assert best == sorted(found)[:1], n
