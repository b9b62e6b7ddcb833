-- Each entry keeps which act of the session wrote it and where in the program: that bounds what undo
-- takes back. Empty in entries that are older.
ALTER TABLE entry ADD COLUMN verb TEXT NOT NULL DEFAULT '';
ALTER TABLE entry ADD COLUMN station TEXT NOT NULL DEFAULT '';
