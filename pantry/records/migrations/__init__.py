"""The tables' history: every change of them is a migration, from the first table on."""
