"""Typed text must come out as that text: on a page, in a workbook, whatever script or trick it holds."""

import pytest

from jarwright.papers.text import markup, plain, printable


@pytest.mark.parametrize(
    ("typed", "shown"),
    [
        ("Anna <b>bold</b> & co", "Anna <b>bold</b> & co"),
        ('=HYPERLINK("x")', '=HYPERLINK("x")'),
        ("two\nlines\tand a tab", "two lines and a tab"),
        ("bell\x07 and nothing\x00", "bell and nothing"),
        ("\u202eturned round\u2069", "turned round"),
        ("Žofie O’Neil ½ cup", "Žofie O’Neil ½ cup"),
        ("e\u0301te\u0301", "été"),
    ],
)
def test_text_is_shown_as_it_was_meant(typed: str, shown: str):
    """Markup, formulas, control and direction characters in a name do nothing but stand there, or vanish where they do not show."""
    assert printable(typed) == shown


def test_a_character_that_no_font_holds_is_shown_as_its_code():
    """A black box tells nobody that something is missing; a code can be looked up."""
    assert printable("peach \U0001f351 and 桃") == "peach U+1F351 and U+6843"


def test_a_workbook_keeps_every_character_that_shows():
    """A spreadsheet has fonts of its own: only what never shows is taken out."""
    assert plain("桃 \U0001f351\u200b\ufe0f\x00 ok") == "桃 \U0001f351 ok"


def test_markup_never_reaches_the_typesetter():
    """An image or a font tag in a name would be obeyed."""
    assert markup("<img src='file:/x'/> & </para>") == "&lt;img src='file:/x'/&gt; &amp; &lt;/para&gt;"


def test_a_name_longer_than_any_name_is_cut_with_a_sign():
    """One pasted essay must not push the steps off the card."""
    shown = printable("x" * 5000)

    assert len(shown) == 600
    assert shown.endswith("…")


def test_three_hundred_characters_are_shown_whole():
    """Long double names exist."""
    name = "Anna-Maria " * 27 + "End"

    assert printable(name) == name


def test_hebrew_stands_in_the_order_in_which_it_is_drawn():
    """Without this the letters of a Hebrew name stand back to front."""
    assert printable("שרה כהן") == "ןהכ הרש"


def test_numbers_and_brackets_keep_their_sense_among_hebrew():
    """A phone number read backwards is another number."""
    assert printable("לוי (12) א") == "א (12) יול"


def test_a_hebrew_name_in_an_english_line_stays_in_its_place():
    """The keeper's line reads from left to right around the name."""
    assert printable("Keepers: שרה at Canner 1") == "Keepers: הרש at Canner 1"


def test_arabic_letters_join():
    """Unjoined Arabic is as readable as a word in single letters."""
    assert printable("علي") == "\ufef2\ufee0\ufecb"
    assert printable("سلام") == "\ufee1\ufefc\ufeb3"
