"""Files in and out: the fit book as a folder or a workbook, and order files."""
