"""Sheets of paper as PDF; knows its own records, nothing of lamps."""
