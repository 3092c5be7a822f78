"""What is said of a job, one subject a module: headings, rows, tables and sentences."""
