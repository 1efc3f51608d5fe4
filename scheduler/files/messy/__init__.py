"""Tables that people really have: workbooks and untidy text, read cell by cell."""
