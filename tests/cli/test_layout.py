from hypothesis import given
from hypothesis import strategies as st

from wickwright.cli.layout import bullet, page_width, paragraph, right, table

words = st.text(alphabet="abcdefgh", min_size=1, max_size=9)
texts = st.lists(words, max_size=25).map(" ".join)


@given(st.lists(st.tuples(words, texts, words, texts), min_size=1, max_size=5))
def test_a_table_loses_no_word_and_keeps_to_the_page(rows: list[tuple[str, ...]]) -> None:
    """If this failed, a narrow terminal would hide part of an answer."""
    lines = table(rows, 80, wrapped=(1, 3), rights=(2,))
    assert max(map(len, lines)) <= 80
    said = sorted(" ".join(lines).split())
    assert said == sorted(word for row in rows for cell in row for word in cell.split())


@given(texts, st.integers(20, 120))
def test_a_paragraph_loses_no_word(text: str, width: int) -> None:
    """If this failed, a sentence would be cut short."""
    lines = paragraph(text, width, "  ", "    ")
    assert " ".join(lines).split() == text.split()
    assert all(len(line) <= width for line in lines)


def test_lines_of_a_bullet_hang_below_each_other() -> None:
    """If this failed, a list could not be told from a paragraph."""
    assert bullet("one two three four five", 16) == ["  - one two", "    three four", "    five"]


def test_a_price_stands_at_the_right_edge() -> None:
    """If this failed, prices could not be read down the page."""
    assert right("ab", "cd", 10) == "ab      cd"
    assert right("a long line", "cd", 10) == "a long line  cd"


def test_a_page_is_neither_too_narrow_nor_too_wide() -> None:
    """If this failed, a tiny or a huge window would make the page unreadable."""
    assert [page_width(one) for one in (0, 40, 80, 500)] == [40, 40, 80, 120]


def test_an_empty_table_has_no_lines() -> None:
    """If this failed, an empty list would end in an error."""
    assert table([], 80) == []
