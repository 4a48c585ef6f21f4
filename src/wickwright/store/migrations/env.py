"""Run the steps on the connection that is handed in; Alembic loads this file by its name."""

from __future__ import annotations

from alembic import context

connection = context.config.attributes["connection"]
context.configure(
    connection=connection,
    target_metadata=context.config.attributes["tables"],
    render_as_batch=connection.dialect.name == "sqlite",
    compare_type=True,
)
context.run_migrations()
