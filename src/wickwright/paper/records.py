"""What stands on a sheet of instructions, in words."""

from __future__ import annotations

from dataclasses import dataclass

__all__ = ["Item", "Said", "SheetPage"]


@dataclass(frozen=True, slots=True)
class Item:
    """A thing with its number, or a figure with its value.

    Attributes
    ----------
    key, name : str
        Number and name, or name and value.
    note : str
        A few words more; may be blank.
    """

    key: str
    name: str
    note: str = ""


@dataclass(frozen=True, slots=True)
class Said:
    """Something that must be read.

    Attributes
    ----------
    mark : str
        What stands before it in bold, such as ``DANGER``.
    words : str
        The sentence.
    grave : bool
        True where a hurry past it can hurt someone.
    """

    mark: str
    words: str
    grave: bool = False


@dataclass(frozen=True, slots=True)
class SheetPage:
    """A sheet of instructions.

    Attributes
    ----------
    sender, heading, about : str
        Who sends it, what it is for, and what was asked; plain text like all others.
    references : tuple of Item
        Numbers and dates it is found again by.
    warnings : tuple of Said
        What comes before everything else.
    fit, aside : tuple of Item
        Things to be fitted, and things no longer used.
    before, steps, after, cautions, assumed : tuple of str
        Before the first step; the steps, which are numbered; after the last; what always
        holds; what was taken for granted.
    figures : tuple of Item
        Name, value, remark.
    drawing_says, drawing_key : str
        What the drawing shows, for whoever does not see it; what its marks mean.
    """

    sender: str
    heading: str
    about: str
    references: tuple[Item, ...]
    warnings: tuple[Said, ...]
    fit: tuple[Item, ...]
    aside: tuple[Item, ...]
    before: tuple[str, ...]
    steps: tuple[str, ...]
    after: tuple[str, ...]
    cautions: tuple[str, ...]
    assumed: tuple[str, ...]
    figures: tuple[Item, ...]
    drawing_says: str
    drawing_key: str
