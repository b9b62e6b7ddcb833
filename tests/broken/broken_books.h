#pragma once

#include "store/book_file.h"

#include <catch2/catch.hpp>
#include <fstream>
#include <string>
#include <vector>

/// Books that must be refused, made on the spot so that each shows what is wrong with it.
namespace gk::test {

inline constexpr base::Instant someMorning{base::Milliseconds(1'794'900'000'000)}; // November 2026

/// A small schema of its own: what is tested here is the opening, not the records.
inline const std::vector<store::Migration>& firstSchema() {
  static const std::vector<store::Migration> steps{
      {1, "jars",
       "CREATE TABLE shelf (id INTEGER NOT NULL PRIMARY KEY) STRICT;\n"
       "CREATE TABLE jar (id INTEGER NOT NULL PRIMARY KEY,\n"
       "  shelf INTEGER NOT NULL REFERENCES shelf (id),\n"
       "  label TEXT NOT NULL) STRICT;\n"}};
  return steps;
}

inline std::vector<store::Migration> secondSchema() {
  auto steps = firstSchema();
  steps.push_back({2, "lids",
                   "ALTER TABLE jar ADD COLUMN lid TEXT;\n"
                   "CREATE TABLE lid (id INTEGER NOT NULL PRIMARY KEY) STRICT;\n"});
  return steps;
}

inline void writeBytes(const base::Path& path, std::string_view bytes) {
  std::ofstream out(path, std::ios::binary | std::ios::trunc);
  out.write(bytes.data(), static_cast<std::streamsize>(bytes.size()));
  REQUIRE(out.flush());
}

inline std::string bytesOf(const base::Path& path) {
  return base::readFile(path).value();
}

inline void overwrite(const base::Path& path, std::streamoff at, std::string_view bytes) {
  std::fstream file(path, std::ios::binary | std::ios::in | std::ios::out);
  file.seekp(at);
  file.write(bytes.data(), static_cast<std::streamsize>(bytes.size()));
  REQUIRE(file.flush());
}

/// A whole book of `firstSchema` with one shelf and so many jars.
inline void writeBook(const base::Path& path, int jars = 3) {
  auto book = store::createBook(path, store::Durability::bulk, someMorning, firstSchema());
  REQUIRE(book);
  book->execute("BEGIN; INSERT INTO shelf (id) VALUES (1)");
  for (int jar = 1; jar <= jars; ++jar)
    book->prepare("INSERT INTO jar (id, shelf, label) VALUES (?1, ?2, ?3)")
        .bindAll(jar, 1, std::string(200, 'j'))
        .run();
  book->execute("COMMIT");
}

inline void writeTextFile(const base::Path& path) {
  writeBytes(path, "date,school,children\n2026-11-17,Larkmere,18\n" + std::string(200, '\n'));
}

/// Shorter than any SQLite file, yet begins like one.
inline void writeStump(const base::Path& path) {
  writeBytes(path, "SQLite format 3");
}

inline void writeOtherProgramsDatabase(const base::Path& path) {
  writeBytes(path, "");
  store::Connection other(path, store::Access::readWrite, store::Durability::bulk);
  other.execute("CREATE TABLE note (text TEXT)");
}

inline void writeNewerBook(const base::Path& path) {
  writeBook(path);
  store::Connection book(path, store::Access::readWrite, store::Durability::bulk);
  book.execute("PRAGMA user_version = 9");
}

/// Ours by its mark, but its version says that no schema was ever made.
inline void writeBookWithoutVersion(const base::Path& path) {
  writeBook(path);
  store::Connection book(path, store::Access::readWrite, store::Durability::bulk);
  book.execute("PRAGMA user_version = 0");
}

/// The end is missing, as after a copy that was interrupted.
inline void writeTruncatedBook(const base::Path& path) {
  writeBook(path, 400);
  std::filesystem::resize_file(path, 5 * 4096);
}

/// Pages in the middle overwritten, as by a failing disk.
inline void writeScribbledBook(const base::Path& path) {
  writeBook(path, 400);
  overwrite(path, 6L * 4096, std::string(4096, '\x5a'));
}

/// A step was edited after it was applied: it makes the same tables by another text.
inline std::vector<store::Migration> editedSchema() {
  static const auto edited = std::string(firstSchema().front().sql) + "-- and jars go on it\n";
  return {{1, "jars", edited}};
}

} // namespace gk::test
