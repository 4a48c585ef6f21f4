"""The first tables: calls, fit books, people, sessions, ledger, kept answers."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "0001"
down_revision = None
branch_labels = None
depends_on = None


def upgrade() -> None:
    """Make the tables, those that others point to first."""
    _calls()
    _failed_log_ins()
    _ledger()
    _people()
    _replies()
    _revisions()
    _sessions()
    _call_parts()
    _given()
    _in_force()
    _photos()
    _trail()


def _calls() -> None:
    op.create_table(
        "calls",
        sa.Column("number", sa.Integer(), autoincrement=True, nullable=False),
        sa.Column("version", sa.Integer(), nullable=False),
        sa.Column("state", sa.String(length=10), nullable=False),
        sa.Column("desk", sa.Text(), nullable=False),
        sa.Column("adviser", sa.Text(), nullable=False),
        sa.Column("opened", sa.Text(), nullable=False),
        sa.Column("changed", sa.Text(), nullable=False),
        sa.Column("revision", sa.Text(), nullable=False),
        sa.Column("name", sa.Text(), nullable=False),
        sa.Column("contact", sa.Text(), nullable=False),
        sa.Column("address", sa.Text(), nullable=False),
        sa.Column("said", sa.Text(), nullable=False),
        sa.Column("closing", sa.Text(), nullable=True),
        sa.Column("search", sa.Text(), nullable=False),
        sa.PrimaryKeyConstraint("number", name=op.f("pk_calls")),
        sqlite_autoincrement=True,
    )
    op.create_index(op.f("ix_calls_state"), "calls", ["state"], unique=False)


def _failed_log_ins() -> None:
    op.create_table(
        "failed_log_ins",
        sa.Column("step", sa.Integer(), autoincrement=True, nullable=False),
        sa.Column("key", sa.String(length=64), nullable=False),
        sa.Column("at", sa.Text(), nullable=False),
        sa.PrimaryKeyConstraint("step", name=op.f("pk_failed_log_ins")),
        sqlite_autoincrement=True,
    )
    op.create_index(op.f("ix_failed_log_ins_key"), "failed_log_ins", ["key"], unique=False)


def _ledger() -> None:
    op.create_table(
        "ledger",
        sa.Column("line", sa.Integer(), autoincrement=True, nullable=False),
        sa.Column("at", sa.Text(), nullable=False),
        sa.Column("who", sa.Text(), nullable=False),
        sa.Column("what", sa.Text(), nullable=False),
        sa.Column("where", sa.Text(), nullable=False),
        sa.PrimaryKeyConstraint("line", name=op.f("pk_ledger")),
        sqlite_autoincrement=True,
    )


def _people() -> None:
    op.create_table(
        "people",
        sa.Column("key", sa.String(length=64), nullable=False),
        sa.Column("name", sa.Text(), nullable=False),
        sa.Column("role", sa.String(length=20), nullable=False),
        sa.Column("desk", sa.Text(), nullable=False),
        sa.Column("password", sa.Text(), nullable=False),
        sa.Column("active", sa.Boolean(), nullable=False),
        sa.PrimaryKeyConstraint("key", name=op.f("pk_people")),
    )


def _replies() -> None:
    op.create_table(
        "replies",
        sa.Column("fingerprint", sa.String(length=64), nullable=False),
        sa.Column("key", sa.Text(), nullable=False),
        sa.Column("print", sa.Text(), nullable=False),
        sa.Column("status", sa.Integer(), nullable=False),
        sa.Column("body", sa.LargeBinary(), nullable=False),
        sa.Column("at", sa.Text(), nullable=False),
        sa.PrimaryKeyConstraint("fingerprint", name=op.f("pk_replies")),
    )


def _revisions() -> None:
    op.create_table(
        "revisions",
        sa.Column("place", sa.Integer(), autoincrement=True, nullable=False),
        sa.Column("id", sa.String(length=16), nullable=False),
        sa.Column("loaded", sa.Text(), nullable=False),
        sa.Column("who", sa.Text(), nullable=False),
        sa.Column("name", sa.Text(), nullable=False),
        sa.Column("tables", sa.LargeBinary(), nullable=False),
        sa.PrimaryKeyConstraint("place", name=op.f("pk_revisions")),
        sa.UniqueConstraint("id", name=op.f("uq_revisions_id")),
        sqlite_autoincrement=True,
    )


def _sessions() -> None:
    op.create_table(
        "sessions",
        sa.Column("key", sa.String(length=64), nullable=False),
        sa.Column("person", sa.Text(), nullable=False),
        sa.Column("person_key", sa.String(length=64), nullable=False),
        sa.Column("began", sa.Text(), nullable=False),
        sa.Column("seen", sa.Text(), nullable=False),
        sa.Column("form_key", sa.Text(), nullable=False),
        sa.PrimaryKeyConstraint("key", name=op.f("pk_sessions")),
    )
    op.create_index(op.f("ix_sessions_person_key"), "sessions", ["person_key"], unique=False)


def _call_parts() -> None:
    op.create_table(
        "call_parts",
        sa.Column("call", sa.Integer(), nullable=False),
        sa.Column("part", sa.String(length=64), nullable=False),
        sa.ForeignKeyConstraint(["call"], ["calls.number"], name=op.f("fk_call_parts_call_calls")),
        sa.PrimaryKeyConstraint("call", "part", name=op.f("pk_call_parts")),
    )
    op.create_index(op.f("ix_call_parts_part"), "call_parts", ["part"], unique=False)


def _given() -> None:
    op.create_table(
        "given",
        sa.Column("number", sa.Integer(), autoincrement=True, nullable=False),
        sa.Column("call", sa.Integer(), nullable=False),
        sa.Column("version", sa.Integer(), nullable=False),
        sa.Column("at", sa.Text(), nullable=False),
        sa.Column("who", sa.Text(), nullable=False),
        sa.Column("what", sa.Text(), nullable=False),
        sa.Column("revision", sa.Text(), nullable=False),
        sa.Column("answer", sa.Text(), nullable=False),
        sa.ForeignKeyConstraint(["call"], ["calls.number"], name=op.f("fk_given_call_calls")),
        sa.PrimaryKeyConstraint("number", name=op.f("pk_given")),
        sqlite_autoincrement=True,
    )
    op.create_index(op.f("ix_given_call"), "given", ["call"], unique=False)


def _in_force() -> None:
    op.create_table(
        "in_force",
        sa.Column("step", sa.Integer(), autoincrement=True, nullable=False),
        sa.Column("revision", sa.String(length=16), nullable=False),
        sa.Column("since", sa.Text(), nullable=False),
        sa.Column("signed", sa.Text(), nullable=False),
        sa.Column("reason", sa.Text(), nullable=False),
        sa.ForeignKeyConstraint(
            ["revision"], ["revisions.id"], name=op.f("fk_in_force_revision_revisions")
        ),
        sa.PrimaryKeyConstraint("step", name=op.f("pk_in_force")),
        sqlite_autoincrement=True,
    )
    op.create_index(op.f("ix_in_force_revision"), "in_force", ["revision"], unique=False)


def _photos() -> None:
    op.create_table(
        "photos",
        sa.Column("number", sa.Integer(), autoincrement=True, nullable=False),
        sa.Column("call", sa.Integer(), nullable=False),
        sa.Column("at", sa.Text(), nullable=False),
        sa.Column("who", sa.Text(), nullable=False),
        sa.Column("media", sa.Text(), nullable=False),
        sa.Column("says", sa.Text(), nullable=False),
        sa.Column("body", sa.LargeBinary(), nullable=False),
        sa.ForeignKeyConstraint(["call"], ["calls.number"], name=op.f("fk_photos_call_calls")),
        sa.PrimaryKeyConstraint("number", name=op.f("pk_photos")),
        sqlite_autoincrement=True,
    )
    op.create_index(op.f("ix_photos_call"), "photos", ["call"], unique=False)


def _trail() -> None:
    op.create_table(
        "trail",
        sa.Column("step", sa.Integer(), autoincrement=True, nullable=False),
        sa.Column("call", sa.Integer(), nullable=False),
        sa.Column("version", sa.Integer(), nullable=False),
        sa.Column("at", sa.Text(), nullable=False),
        sa.Column("who", sa.Text(), nullable=False),
        sa.Column("did", sa.Text(), nullable=False),
        sa.Column("before", sa.Text(), nullable=False),
        sa.Column("after", sa.Text(), nullable=False),
        sa.Column("note", sa.Text(), nullable=False),
        sa.Column("standing", sa.Boolean(), nullable=False),
        sa.ForeignKeyConstraint(["call"], ["calls.number"], name=op.f("fk_trail_call_calls")),
        sa.PrimaryKeyConstraint("step", name=op.f("pk_trail")),
        sqlite_autoincrement=True,
    )
    op.create_index(op.f("ix_trail_call"), "trail", ["call"], unique=False)
