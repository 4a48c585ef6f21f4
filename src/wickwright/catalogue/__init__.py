"""The fit book: lamps, parts, ports and the tables they are kept in."""
