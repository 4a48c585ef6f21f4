from __future__ import annotations

import pytest
from tests.support.halves import carrier, stander

from wickwright.catalogue import lists
from wickwright.catalogue.columns import TABLES
from wickwright.fit.joints import JOINTS, judge
from wickwright.fit.joints.verdict import Fit, Joined
from wickwright.terms.source import SOURCES


def test_every_joint_of_the_book_has_its_rule() -> None:
    """A joint of the fit book would have no rule, or a rule no joint."""
    assert list(JOINTS) == list(lists.JOINTS)


def test_ports_of_different_joints_never_go_together() -> None:
    """A shade's fitter would be tried on a thread."""
    joined = judge(carrier("thread"), stander("fitter"))
    expected = Joined(Fit.NOT, "joint", words={"carrier": "thread", "stander": "fitter"})
    assert joined == expected


@pytest.mark.parametrize("key", JOINTS)
def test_what_a_joint_reads_is_a_column_and_in_its_sketch(key: str) -> None:
    """The sketch would not show a size that decides, or name a column the book does not have."""
    columns = {column.name for column in TABLES["ports"].columns}
    assert set(JOINTS[key].reads) <= columns
    assert all(name in JOINTS[key].sketch for name in JOINTS[key].reads)


@pytest.mark.parametrize("key", JOINTS)
def test_sketches_fit_a_terminal_and_name_their_source(key: str) -> None:
    """A sketch would wrap on a terminal of 80 columns, or a rule would have no source."""
    assert max(map(len, JOINTS[key].sketch.splitlines())) <= 78
    assert JOINTS[key].sketch.isascii()
    assert JOINTS[key].source in SOURCES
