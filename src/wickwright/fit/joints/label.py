"""What the maker's size label settles where a measurement is missing."""

from __future__ import annotations

from typing import TYPE_CHECKING

from wickwright.fit.joints.verdict import Fit, Joined

if TYPE_CHECKING:
    from wickwright.fit.joints.verdict import Half

__all__ = ["by_label"]


def by_label(
    measured: Joined | None, missing: tuple[str, ...], carrier: Half, stander: Half
) -> Joined:
    """Compare size labels in place of what is missing.

    Parameters
    ----------
    measured : Joined or None
        The verdict on the clearance where the diameters are known.
    missing : tuple of str
        The measurements that are missing.
    carrier, stander : Half
        The two sides.

    Returns
    -------
    Joined
        ``measured`` itself where it is 'does not fit': no label mends a size. Not known where
        a label is blank. Does not fit where the labels differ. Where they are the same (capitals
        and blanks around them do not count): what was measured, else fits.
    """
    if measured is None:
        measured = Joined(Fit.FITS, "label")
    elif measured.fit is Fit.NOT:
        return measured
    one, other = carrier.port.label.strip(), stander.port.label.strip()
    if not one or not other:
        return measured._replace(fit=Fit.UNKNOWN, why="missing", missing=missing + measured.missing)
    words = {"carrier": one, "stander": other}
    missing += measured.missing
    if one.casefold() != other.casefold():
        return measured._replace(
            fit=Fit.NOT, why="labels", by_label=True, missing=missing, words=words
        )
    return measured._replace(by_label=True, missing=missing, words=words)
