from __future__ import annotations

import pytest
from tests.support.halves import carrier, exact, stander

from wickwright.fit.joints import judge
from wickwright.fit.joints.verdict import Fit, Gap, Half

WORDS = {"form": "un", "hand": "right"}


def collar(size: str = exact(22.0), *, pitch: str = "1.814 mm", **words: str) -> Half:
    """Make a collar of 22 mm."""
    return carrier("thread", {"diameter": size, "pitch": pitch}, words=WORDS | words)


def burner(size: str = exact(21.7), *, pitch: str = "1.814 mm", **words: str) -> Half:
    """Make a burner's thread, 0.3 mm smaller."""
    return stander("thread", {"diameter": size, "pitch": pitch}, words=WORDS | words)


@pytest.mark.parametrize(
    ("gap", "fit", "why"),
    [
        (-0.001, Fit.NOT, "tight"),
        (0.0, Fit.FITS, "clearance"),
        (0.6, Fit.FITS, "clearance"),
        (0.601, Fit.LOOSE, "loose"),
        (0.9, Fit.LOOSE, "loose"),
        (0.901, Fit.NOT, "loose"),
    ],
)
def test_borders(gap: float, fit: Fit, why: str) -> None:
    """The limits of the collar would have moved."""
    joined = judge(collar(exact(22.0)), burner(exact(22.0 - gap)))
    assert (joined.fit, joined.why) == (fit, why)


@pytest.mark.parametrize(
    ("tolerance", "fit", "why"),
    [
        ("0.15", Fit.FITS, "clearance"),
        ("0.2", Fit.FITS, "clearance-likely"),
        ("0.25", Fit.UNKNOWN, "wide"),
    ],
)
def test_tolerances_widen_the_verdict(tolerance: str, fit: Fit, why: str) -> None:
    """The worst case alone, or the middle alone, would decide in place of the likely interval."""
    joined = judge(collar(f"22 ± {tolerance} mm"), burner(f"21.7 ± {tolerance} mm"))
    assert (joined.fit, joined.why) == (fit, why)


def test_gaps_by_hand() -> None:
    """The intervals shown to the adviser would not be those of the two sizes."""
    joined = judge(collar("22 ± 0.3 mm"), burner("21.7 ± 0.4 mm"))
    assert joined.worst is not None
    assert joined.likely is not None
    assert joined.worst == pytest.approx((-0.4e-3, 1.0e-3))
    assert joined.likely == pytest.approx((-0.2e-3, 0.8e-3))
    assert joined.permitted == Gap(0.0, 0.6e-3)
    assert joined.missing == ("carrier diameter", "stander diameter")


@pytest.mark.parametrize(
    ("pitch", "fit"), [("1.85 mm", Fit.FITS), ("1.852 mm", Fit.NOT), ("1.411 mm", Fit.NOT)]
)
def test_pitch_within_two_per_cent(pitch: str, fit: Fit) -> None:
    """A burner of the fine thread would be sent for a coarse collar."""
    assert judge(collar(pitch="1.814 mm"), burner(pitch=pitch)).fit is fit


def test_pitch_that_differs_is_told_as_printed() -> None:
    """The adviser could not read out the two pitches."""
    joined = judge(collar(pitch="1.814 mm"), burner(pitch="1.411 mm"))
    assert joined.why == "pitch"
    assert joined.words == {"carrier": "1.814 mm", "stander": "1.411 mm"}


@pytest.mark.parametrize(("column", "word"), [("form", "round"), ("hand", "left")])
def test_form_and_hand_must_be_the_same(column: str, word: str) -> None:
    """A left-hand or rounded thread would pass for another."""
    joined = judge(collar(), burner(**{column: word}))
    assert (joined.fit, joined.why) == (Fit.NOT, column)
    assert joined.words == {"carrier": WORDS[column], "stander": word}


def test_capitals_and_blanks_do_not_count() -> None:
    """'UN ' and 'un' would be two forms."""
    assert judge(collar(), burner(form=" UN ", hand="RIGHT")).fit is Fit.FITS


def test_hand_blank_on_both_sides_is_left_out() -> None:
    """A book that never writes the hand would have no thread that fits."""
    assert judge(collar(hand="", form=" "), burner(hand=" ", form="")).fit is Fit.FITS


def test_hand_blank_on_one_side_is_missing() -> None:
    """A blank would pass for the same hand."""
    joined = judge(collar(), burner(hand=""))
    assert (joined.fit, joined.why, joined.missing) == (Fit.UNKNOWN, "missing", ("stander hand",))


def test_pitch_blank_on_both_sides_is_missing() -> None:
    """Coarse and fine threads of one diameter would pass for the same."""
    joined = judge(
        carrier("thread", {"diameter": exact(22)}), stander("thread", {"diameter": exact(21.7)})
    )
    assert joined.fit is Fit.UNKNOWN
    assert joined.missing == ("carrier pitch", "stander pitch")


def test_wrong_hand_speaks_before_a_missing_size() -> None:
    """What is known to be wrong would be hidden by what is not known."""
    one = carrier("thread", words={"hand": "left"}, label="No. 2")
    other = stander("thread", words={"hand": "right"}, label="No. 2")
    assert judge(one, other).why == "hand"


def test_one_end_of_the_worst_case_is_enough_to_be_less_than_certain() -> None:
    """A pair that can interfere would be called certain because it is never loose."""
    joined = judge(collar("22 ± 0.15 mm"), burner("21.78 ± 0.15 mm"))
    assert (joined.fit, joined.why) == (Fit.FITS, "clearance-likely")


def test_everything_missing_is_named() -> None:
    """The caller would be asked for the diameters and then again for the pitches."""
    joined = judge(carrier("thread"), stander("thread", label="No. 2"))
    assert joined.missing == (
        "carrier diameter",
        "stander diameter",
        "carrier pitch",
        "stander pitch",
    )
