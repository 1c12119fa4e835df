"""Lab tables from CSV and XLSX into specimens."""
