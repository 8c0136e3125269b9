"""What is kept: tables, ledger, promises, journal, numbered changes, backup."""
