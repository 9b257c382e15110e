"""Which words a quick line takes for a thread: written as one, a wrong one too; never a drill, a count or a plain word."""

from engine.threads.designation import is_thread
from tests.rows import each_row


@each_row(
    "text",
    [
        *(
            "M10",
            "m13",
            "M10x1,25-6g",
            "tr20x4",
            "Tr14x6(P3)",
            "sq20x4",
            "S 0.8",
            "W 21.8x1/14",
            "4ba",
            "BA 4",
            "26 BA",
        ),
        *("3/8 unf", "1/4-20", "1/4-24", "#10-32", "No. 10-32", "6x1", "10x32", "G1/4", "r1/2", "3/8 bsw", "1/2 whit"),
        *("1/4x40 me", "1 1/2 npt", "3/4-6 acme", "1/2-10 stub acme", "1/8 nptf", "5/7 npt", "0.80 UNM", "1-4 square"),
    ],
)
def test_threads(text):
    assert is_thread(text)


@each_row(
    "text",
    [
        *(
            "",
            " ",
            "10",
            "37",
            "3/8",
            "7.5",
            "#7",
            "f",
            "r",
            "g",
            "s",
            "w",
            "m",
            "tr",
            "2.5 mm",
            "2 in",
            "H7/g6",
            "50x100",
        ),
        *("div 37", "bore 12 r", "ream 8", "drill 3", "brass", "brass 1/4", "cycle 3", "10 g", "square 20", "x" * 80),
    ],
)
def test_other_words(text):
    assert not is_thread(text)
