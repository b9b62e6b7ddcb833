#pragma once

#include "base/text/printed_code.h"
#include "broken/digest_all.h"
#include "reports/day/close_out_words.h"
#include "session/second_laptop.h"
#include "store/sqlite/connection.h"

namespace gk::test {

inline constexpr const char* hygienistsWords = "heron over the weir";
inline constexpr const char* coordinatorsWords = "seven brass buttons";

/// One child seen; the hygienist and the coordinator each have a key.
struct KeyedClinic : Clinic {
  roster::ChildId mina = child("Mina");
  KeyedClinic() {
    must(session.enterKey({hygienist, {}}, hygienistsWords));
    must(session.enterKey({coordinator, {}}, coordinatorsWords));
    standardVisit(mina);
  }
  roster::DayClosure closure() const { return {day, hygienist, coordinator}; }
  void openKeys() {
    must(session.openKey(hygienist, hygienistsWords));
    must(session.openKey(coordinator, coordinatorsWords));
  }
  void sign() {
    openKeys();
    must(session.signDay(by, closure()));
  }
  std::string code() { return sheetOf(*this).signings.back().code; }
  base::Path copy(const std::string& name) {
    const auto path = *folder / name;
    must(session.backUp(path));
    return path;
  }
};

/// Someone with a tool for SQLite and this program's own rules for digests: every guard is taken
/// away and put back, and each digest remade, or left as it was.
enum class Digests { remade, left };
inline void forge(const base::Path& path, const std::string& sql,
                  Digests digests = Digests::remade) {
  store::Connection book(path, store::Access::readWrite, store::Durability::bulk);
  book.enforceForeignKeys(false);
  std::vector<std::pair<std::string, std::string>> guards;
  {
    auto rows = book.prepare("SELECT name, sql FROM sqlite_schema WHERE type = 'trigger'");
    while (rows.step())
      guards.emplace_back(rows.column<std::string>(0), rows.column<std::string>(1));
  }
  book.execute("BEGIN");
  for (const auto& [name, text] : guards)
    book.execute("DROP TRIGGER " + name);
  book.execute(sql);
  for (const auto& [name, text] : guards)
    book.execute(text);
  if (digests == Digests::remade) digestAll(book);
  book.execute("COMMIT");
  book.finish();
}

inline std::string faultsIn(const base::Path& path, Clinic& clinic) {
  std::string all;
  for (const auto& fault : must(session::Session::inspect(path, {clinic.clock, clinic.random})))
    all += store::sentence(fault) + "\n";
  return all;
}

inline std::string dateWords(const char* iso) {
  return must(base::Date::parse(iso)).words();
}

inline bool says(const std::string& text, const std::string& words) {
  return text.find(words) != std::string::npos;
}

} // namespace gk::test
