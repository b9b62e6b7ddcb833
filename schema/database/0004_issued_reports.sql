-- Reports that left the program.
INSERT INTO entry_kind (name) VALUES ('issued_report');

-- That a report went out, with which figures. It is made without the vault, so it holds no name.
CREATE TABLE issued_report (
  entry BLOB PRIMARY KEY REFERENCES entry (id),
  term BLOB NOT NULL REFERENCES entry (id),
  report TEXT NOT NULL CHECK (report <> ''),
  choice TEXT NOT NULL,
  version INTEGER NOT NULL CHECK (version >= 1),
  issued TEXT NOT NULL CHECK (issued IS date(issued)),
  figures TEXT NOT NULL,
  digest TEXT NOT NULL CHECK (length(digest) = 64),
  release TEXT NOT NULL
) STRICT, WITHOUT ROWID;

CREATE INDEX issued_report_term ON issued_report (term);

CREATE TRIGGER issued_report_no_update BEFORE UPDATE ON issued_report
BEGIN SELECT RAISE(ABORT, 'rows of issued_report are never changed'); END;

CREATE TRIGGER issued_report_no_delete BEFORE DELETE ON issued_report
BEGIN SELECT RAISE(ABORT, 'rows of issued_report are never changed'); END;

CREATE TRIGGER issued_report_kind BEFORE INSERT ON issued_report
WHEN (SELECT kind FROM entry WHERE id = NEW.entry) IS NOT 'issued_report'
BEGIN SELECT RAISE(ABORT, 'an entry of another kind in issued_report'); END;
