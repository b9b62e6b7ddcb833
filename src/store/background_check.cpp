#include "store/background_check.h"

#include <sqlite3.h>

namespace gk::store {

namespace {

void checkPages(sqlite3* db, const std::string& file) {
  sqlite3_stmt* raw = nullptr;
  int code = sqlite3_prepare_v2(db, "PRAGMA quick_check(1)", -1, &raw, nullptr);
  const std::unique_ptr<sqlite3_stmt, decltype(&sqlite3_finalize)> check(raw, &sqlite3_finalize);
  if (code == SQLITE_OK) code = sqlite3_step(raw);
  if (code != SQLITE_ROW) throwTrouble(db, code, file);
  const std::string line(reinterpret_cast<const char*>(sqlite3_column_text(raw, 0)));
  if (line != "ok")
    throw Trouble({base::ErrorCode::storeDamaged,
                   file + ": " + line + "; keep this file and open the latest backup"});
}

} // namespace

void BackgroundCheck::Closer::operator()(sqlite3* db) const {
  sqlite3_close_v2(db);
}

BackgroundCheck::BackgroundCheck(const base::Path& path) {
  sqlite3* raw = nullptr;
  const int code = sqlite3_open_v2(
      path.c_str(), &raw, SQLITE_OPEN_READONLY | SQLITE_OPEN_NOMUTEX | SQLITE_OPEN_EXRESCODE,
      "unix-none"); // the way of reading that takes no lock
  db_.reset(raw);
  if (code != SQLITE_OK) throwTrouble(raw, code, path.string());
  answer_ = std::async(std::launch::async, [raw, file = path.string()] {
              return guarded([&] { checkPages(raw, file); });
            }).share();
}

bool BackgroundCheck::isOver() const {
  return answer_.wait_for(std::chrono::seconds(0)) == std::future_status::ready;
}

} // namespace gk::store
