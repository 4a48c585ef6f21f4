"""Sheets to be printed and posted: what stands on them, and their PDF. Knows no lamp."""
