"""Answers as plain dicts and lists, for JSON and for machines that ask."""
