#include "journeys/hostile_books.h"

#include "base/contract.h"

#include <fstream>
#include <sqlite3.h>
#include <sys/stat.h>
#include <unistd.h>

namespace gk::test {

namespace {

void put(const base::Path& file, std::string_view bytes) {
  std::ofstream out(file, std::ios::binary | std::ios::trunc);
  out.write(bytes.data(), static_cast<std::streamsize>(bytes.size()));
}

void overwrite(const base::Path& file, std::streamoff at, std::string_view bytes) {
  std::fstream out(file, std::ios::binary | std::ios::in | std::ios::out);
  out.seekp(at);
  out.write(bytes.data(), static_cast<std::streamsize>(bytes.size()));
}

std::string times(std::size_t count, std::string_view text) {
  std::string all;
  all.reserve(count * text.size());
  for (std::size_t i = 0; i < count; ++i)
    all += text;
  return all;
}

Hostile sql(const std::string& what, const std::string& statements,
            const std::string& code = "store.damaged") {
  return {what, [statements](const base::Path& file) { runAsStranger(file, statements); }, code};
}

Hostile bytes(const std::string& what, std::streamoff at, const std::string& to,
              const std::string& code = "store.damaged") {
  return {what, [at, to](const base::Path& file) { overwrite(file, at, to); }, code};
}

/// Around the guards, and with them in place again, so that the schema is the program's own.
std::string unguarded(const std::string& table, const std::string& change) {
  return "CREATE TEMP TABLE kept AS SELECT sql FROM main.sqlite_schema WHERE type = 'trigger' AND "
         "tbl_name = '" +
         table +
         "'; PRAGMA writable_schema = ON; CREATE TEMP TABLE gone AS SELECT * FROM "
         "main.sqlite_schema WHERE type = 'trigger' AND tbl_name = '" +
         table + "'; DELETE FROM main.sqlite_schema WHERE type = 'trigger' AND tbl_name = '" +
         table + "'; PRAGMA writable_schema = RESET; " + change +
         "; PRAGMA writable_schema = ON; INSERT INTO main.sqlite_schema SELECT * FROM gone; PRAGMA "
         "writable_schema = OFF";
}

constexpr std::string_view magic("\xd9\xd5\x05\xf9\x20\xa1\x63\xd7", 8);

/// Of one page that says the book has one page; a journal that SQLite would play back.
std::string journal(std::string_view super = {}) {
  std::string head(magic);
  head += std::string("\x00\x00\x00\x01", 4); // one page
  head += std::string("\x00\x00\x00\x00", 4); // the sum begins at 0
  head += std::string("\x00\x00\x00\x01", 4); // the book had one page
  head += std::string("\x00\x00\x02\x00", 4); // sectors of 512
  head += std::string("\x00\x00\x10\x00", 4); // pages of 4096
  head.resize(512);
  head += std::string("\x00\x00\x00\x01", 4) + std::string(4096, '\0') + std::string(4, '\0');
  if (super.empty()) return head;
  unsigned sum = 0;
  for (const char c : super)
    sum += static_cast<unsigned char>(c);
  const auto number = [](unsigned value) {
    std::string out;
    for (int shift = 24; shift >= 0; shift -= 8)
      out += static_cast<char>(value >> static_cast<unsigned>(shift) & 0xFFU);
    return out;
  };
  // PENDING_BYTE's page, the name, its length, its sum, and the mark (sqlite.org/fileformat2.html).
  return head + number(0x40000000U / 4096U + 1U) + std::string(super) +
         number(static_cast<unsigned>(super.size())) + number(sum) + std::string(magic);
}

void addRest(std::vector<Hostile>& list) {
  const std::string endless =
      "WITH RECURSIVE n(i) AS (SELECT 1 UNION ALL SELECT i + 1 FROM n) SELECT i FROM n";
  list.push_back({"20,000 tables",
                  [](const base::Path& file) {
                    std::string all = "BEGIN;";
                    for (int i = 0; i < 20000; ++i)
                      all += "CREATE TABLE t" + std::to_string(i) + "(a);";
                    runAsStranger(file, all + "COMMIT");
                  },
                  "store.damaged"});
  list.push_back(sql("a view in place of a view, without end",
                     "DROP VIEW current_entry; CREATE VIEW current_entry AS " + endless));
  list.push_back({"bytes after the end, four GiB of them, sparse",
                  [](const base::Path& file) { std::filesystem::resize_file(file, 1ULL << 32U); },
                  "fine"});
  list.push_back({"the second half is missing",
                  [](const base::Path& file) {
                    std::filesystem::resize_file(file, std::filesystem::file_size(file) / 2);
                  },
                  "store.damaged"});
  list.push_back(
      {"a journal of nonsense beside it",
       [](const base::Path& file) { put(file.string() + "-journal", std::string(5000, '\x5a')); },
       "store.beside"});
  list.push_back({"another file's journal beside it",
                  [](const base::Path& file) { put(file.string() + "-journal", journal()); },
                  "store.unfinished"});
  list.push_back({"a journal that names a file to be deleted",
                  [](const base::Path& file) {
                    const auto victim = file.parent_path() / "victim";
                    put(victim, "letters to parents");
                    put(file.string() + "-journal", journal(victim.string()));
                  },
                  "store.damaged"});
  list.push_back({"a journal that is a link to another file",
                  [](const base::Path& file) {
                    const auto victim = file.parent_path() / "victim";
                    put(victim, "letters to parents");
                    std::filesystem::create_symlink(victim, file.string() + "-journal");
                  },
                  "store.damaged"});
  list.push_back(
      {"a write-ahead log beside it",
       [](const base::Path& file) { put(file.string() + "-wal", std::string(4096, '\x37')); },
       "store.beside"});
  list.push_back({"a link to itself",
                  [](const base::Path& file) {
                    std::filesystem::remove(file);
                    std::filesystem::create_symlink(file, file);
                  },
                  "store.not-a-logbook"});
  list.push_back({"a link to a device without end",
                  [](const base::Path& file) {
                    std::filesystem::remove(file);
                    std::filesystem::create_symlink("/dev/zero", file);
                  },
                  "store.not-a-logbook"});
  list.push_back({"a pipe",
                  [](const base::Path& file) {
                    std::filesystem::remove(file);
                    base::require(::mkfifo(file.c_str(), 0600) == 0, "a pipe");
                  },
                  "store.not-a-logbook"});
  list.push_back({"a folder",
                  [](const base::Path& file) {
                    std::filesystem::remove(file);
                    std::filesystem::create_directory(file);
                  },
                  "store.not-a-logbook"});
}

} // namespace

void runAsStranger(const base::Path& book, const std::string& statements) {
  sqlite3* db = nullptr;
  base::require(sqlite3_open(book.c_str(), &db) == SQLITE_OK, "a stranger's SQLite");
  char* why = nullptr;
  const int code = sqlite3_exec(db, statements.c_str(), nullptr, nullptr, &why);
  const std::string said = why ? why : "";
  sqlite3_free(why);
  sqlite3_close(db);
  base::require(code == SQLITE_OK, "a stranger's SQL failed: " + said);
}

std::vector<Hostile> hostileBooks() {
  const std::string endless =
      "WITH RECURSIVE n(i) AS (SELECT 1 UNION ALL SELECT i + 1 FROM n) SELECT i FROM n";
  const std::string schemaRow = "PRAGMA writable_schema = ON; INSERT INTO sqlite_schema VALUES ";
  std::vector<Hostile> list{
      sql("a table named with SQL in it", "CREATE TABLE \"x; DELETE FROM placement; --\" (entry)"),
      sql("a view without end", "CREATE VIEW endless AS " + endless),
      sql("a trigger that deletes",
          "CREATE TRIGGER gone AFTER INSERT ON entry BEGIN DELETE FROM placement; END"),
      sql("a trigger named as a table",
          "CREATE TRIGGER placement AFTER INSERT ON entry BEGIN DELETE FROM lot; END"),
      sql("a trigger that feeds itself",
          "CREATE TRIGGER more AFTER INSERT ON lot BEGIN INSERT INTO "
          "lot SELECT * FROM lot; END"),
      sql("a full text table", "CREATE VIRTUAL TABLE f USING fts5(a)"),
      sql("a table of a module that nobody has",
          schemaRow + "('table', 'v', 'v', 0, 'CREATE VIRTUAL TABLE v USING nosuch(a)')"),
      sql("a column that is computed, a gigabyte of it",
          "ALTER TABLE lot ADD COLUMN g TEXT AS (hex(zeroblob(500000000)))"),
      sql("an index over an expression", "CREATE INDEX i ON lot (hex(material))"),
      sql("a partial index", "CREATE INDEX i ON lot (material) WHERE material > ''"),
      sql("a CHECK without end",
          "PRAGMA writable_schema = ON; UPDATE sqlite_schema SET sql = replace(sql, ') STRICT', ', "
          "CHECK (length(hex(zeroblob(500000000))) > 0)) STRICT') WHERE name = 'lot'"),
      sql("a collation that nobody has",
          "PRAGMA writable_schema = ON; UPDATE sqlite_schema SET sql = replace(sql, 'STRICT', "
          "'STRICT, x') WHERE name = 'lot'"),
      sql("statistics for the planner", "ANALYZE"),
      sql("a guard is missing", "DROP TRIGGER entry_no_delete"),
      sql("a table is missing",
          "PRAGMA writable_schema = ON; DELETE FROM sqlite_schema WHERE name = "
          "'lot_count'"),
      sql("a name of nine hundred thousand signs",
          "CREATE TABLE \"" + std::string(900000, 'n') + "\" (a)"),
      sql("a schema that is no SQL", schemaRow + "('table', 'v', 'v', 0, 'no SQL at all')"),
      sql("a schema of a hundred thousand brackets",
          schemaRow + "('view', 'v', 'v', 0, 'CREATE VIEW v AS SELECT " + times(100000, "(") + "1" +
              times(100000, ")") + "')"),
      sql("a schema of bytes that are no text",
          schemaRow + "('view', 'v', 'v', 0, CAST(x'435245415445ff' AS TEXT))"),
      sql("two objects on one page",
          "PRAGMA writable_schema = ON; UPDATE sqlite_schema SET rootpage = (SELECT rootpage FROM "
          "sqlite_schema WHERE name = 'lot') WHERE name = 'placement'"),
      sql("another program's mark", "PRAGMA application_id = 7", "store.not-a-logbook"),
      sql("our mark on other tables",
          "PRAGMA writable_schema = ON; DELETE FROM sqlite_schema; CREATE TABLE note (a)"),
      sql("a version to come", "PRAGMA user_version = 99", "store.newer-schema"),
      sql("a version below nothing", "PRAGMA user_version = -3"),
      sql("a row of a hundred million bytes",
          unguarded("child", "UPDATE child SET note = CAST(zeroblob(100000000) AS TEXT)")),
      sql("all placements gone", unguarded("placement", "DELETE FROM placement")),
      bytes("pages of a size that there is none of", 16, "\x01\x23"),
      bytes("pages half reserved", 20, "\xff"),
      bytes("text of the other encoding", 59, "\x02"),
      bytes("a format to come", 47, "\x07"),
      bytes("kept by a write-ahead log", 18, "\x02\x02"),
      {"an empty file", [](const base::Path& file) { put(file, ""); }, "store.not-a-logbook"},
      {"half a head", [](const base::Path& file) { put(file, "SQLite format 3"); },
       "store.not-a-logbook"},
      {"a head and nothing else",
       [](const base::Path& file) { std::filesystem::resize_file(file, 100); }, "store.damaged"},
  };
  addRest(list);
  return list;
}

std::vector<Hostile> hostileLists() {
  const auto text = [](const std::string& what, const std::string& all,
                       const std::string& code = "input.csv") {
    return Hostile{what, [all](const base::Path& file) { put(file, all); }, code};
  };
  const std::string head = "first,last,birth_date,grade\n";
  return {
      text("a million columns", times(1000000, "a,") + "\n"),
      text("a million names of columns",
           [] {
             std::string all;
             for (int i = 0; i < 1000000; ++i)
               all += "c" + std::to_string(i) + ",";
             return all + "\n";
           }()),
      text("a million lines", head + times(1000000, "Mina,Tolliver,2019-03-04,2\n"),
           "file.too-large"),
      text("a hundred thousand short lines", head + times(100000, "a,b,c,d\n")),
      text("a million quotes", head + times(1000000, "\"")),
      text("a quote that never closes", head + "\"" + times(100000, "x\n")),
      // Read as Windows-1252, and said so.
      text("bytes that are no UTF-8", head + "Mina,Tolliver\xff,2019-03-04,2\n", "fine"),
      text("an overlong sign", head + "Mina,\xC0\xAF,2019-03-04,2\n"),
      text("half of a pair", head + "Mina,\xED\xA0\x80,2019-03-04,2\n"),
      text("UTF-16 with its mark", std::string("\xFF\xFE"
                                               "f\0i\0",
                                               6)),
      text("UTF-16 without", std::string("f\0i\0r\0s\0t\0", 10)),
      text("a byte order mark twice", "\xEF\xBB\xBF\xEF\xBB\xBF" + head),
      text("a zero within a name", head + std::string("Mi\0na", 5) + ",T,2019-03-04,2\n"),
      text("a terminal's command in a name", head + "Mi\x1b]0;x\x07,T,2019-03-04,2\n"),
      text("a name that turns the line around", head + "Mi\xE2\x80\xAEna,T,2019-03-04,2\n"),
      text("two hundred thousand brackets", times(200000, "[") + times(200000, "]")),
      text("two hundred thousand tags", times(200000, "<a>")),
      text("entities within entities", "<?xml version=\"1.0\"?><!DOCTYPE a [<!ENTITY b \"" +
                                           times(1000, "x") + "\"><!ENTITY c \"" +
                                           times(1000, "&b;") + "\">]><a>&c;</a>"),
      text("a spreadsheet's own file",
           std::string("PK\x03\x04\x14\0\0\0", 8) + times(9999, "\x01")),
      text("a program", std::string("\x7F"
                                    "ELF\2\1\1\0",
                                    8) +
                            std::string(4096, '\0')),
      text("nothing", ""),
      text("line ends alone", times(1000000, "\r\n")),
      {"seventeen MiB of nothing",
       [](const base::Path& file) {
         put(file, "");
         std::filesystem::resize_file(file, 17U << 20U);
       },
       "file.too-large"},
      {"a pipe",
       [](const base::Path& file) { base::require(::mkfifo(file.c_str(), 0600) == 0, "a pipe"); },
       "file.unreadable"},
      {"a folder", [](const base::Path& file) { std::filesystem::create_directory(file); },
       "file.unreadable"},
      {"a device without end",
       [](const base::Path& file) { std::filesystem::create_symlink("/dev/zero", file); },
       "file.unreadable"},
      {"a link to itself",
       [](const base::Path& file) { std::filesystem::create_symlink(file, file); },
       "file.unreadable"},
  };
}

} // namespace gk::test
