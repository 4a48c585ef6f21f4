"""The command line: one small module per command, and modules that lay out what is printed."""
