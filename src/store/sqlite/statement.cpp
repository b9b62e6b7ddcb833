#include "store/sqlite/statement.h"

#include "store/sqlite/statement_cache.h"
#include "store/sqlite/trouble.h"

#include <algorithm>
#include <bit>
#include <sqlite3.h>

namespace gk::store {

Statement::Statement(StatementCache& cache, std::string sql, sqlite3_stmt* handle)
    : cache_(&cache), sql_(std::move(sql)), handle_(handle) {}

Statement::Statement(Statement&& other) noexcept
    : cache_(other.cache_), sql_(std::move(other.sql_)),
      handle_(std::exchange(other.handle_, nullptr)) {}

Statement::~Statement() {
  if (handle_ != nullptr) cache_->takeBack(std::move(sql_), handle_);
}

void Statement::check(int code) const {
  if (code != SQLITE_OK) throwTrouble(cache_->db(), code, cache_->file());
}

Statement& Statement::bind(int index, std::int64_t value) {
  check(sqlite3_bind_int64(handle_, index, value));
  return *this;
}

Statement& Statement::bind(int index, double value) {
  check(sqlite3_bind_double(handle_, index, value));
  return *this;
}

Statement& Statement::bind(int index, std::string_view text) {
  // A null pointer would store NULL, not the empty text.
  const char* bytes = text.data() != nullptr ? text.data() : "";
  check(sqlite3_bind_text64(handle_, index, bytes, text.size(), SQLITE_TRANSIENT, SQLITE_UTF8));
  return *this;
}

Statement& Statement::bind(int index, std::span<const std::uint8_t> blob) {
  check(blob.empty()
            ? sqlite3_bind_zeroblob(handle_, index, 0)
            : sqlite3_bind_blob64(handle_, index, blob.data(), blob.size(), SQLITE_TRANSIENT));
  return *this;
}

Statement& Statement::bind(int index, base::LaptopId laptop) {
  return bind(index, std::span<const std::uint8_t>(laptop.uuid().bytes));
}

Statement& Statement::bind(int index, const base::Date& date) {
  return bind(index, std::string_view(date.iso()));
}

Statement& Statement::bind(int index, std::nullopt_t) {
  check(sqlite3_bind_null(handle_, index));
  return *this;
}

bool Statement::step() {
  const int code = sqlite3_step(handle_);
  if (code == SQLITE_ROW) return true;
  if (code == SQLITE_DONE) return false;
  throwTrouble(cache_->db(), code, cache_->file());
}

void Statement::run() {
  base::require(!step(), "a statement run for its effect gave a row");
  reset();
}

void Statement::reset() {
  sqlite3_reset(handle_); // gives again the trouble that step() already threw
}

void Statement::requireParameters(std::size_t count) const {
  base::require(sqlite3_bind_parameter_count(handle_) == static_cast<int>(count),
                "as many values as the statement has parameters");
}

void Statement::requireColumns(std::size_t count) const {
  base::require(sqlite3_column_count(handle_) == static_cast<int>(count),
                "as many types as the statement has columns");
}

bool Statement::isNull(int index) const {
  base::require(index >= 0 && index < sqlite3_data_count(handle_), "a column of the current row");
  return sqlite3_column_type(handle_, index) == SQLITE_NULL;
}

CellView Statement::cell(int index) const {
  switch (sqlite3_column_type(handle_, index)) {
  case SQLITE_NULL:
    return {};
  case SQLITE_INTEGER:
    return {CellType::integer, sqlite3_column_int64(handle_, index), {}};
  case SQLITE_FLOAT:
    return {CellType::real, std::bit_cast<std::int64_t>(sqlite3_column_double(handle_, index)), {}};
  default:
    break;
  }
  // The order that SQLite asks for: first the bytes, which may be converted, then their number.
  // Text is asked for as UTF-8, as it is read everywhere else.
  const bool isText = sqlite3_column_type(handle_, index) == SQLITE_TEXT;
  const auto* bytes = isText ? reinterpret_cast<const char*>(sqlite3_column_text(handle_, index))
                             : static_cast<const char*>(sqlite3_column_blob(handle_, index));
  const auto size = static_cast<std::size_t>(sqlite3_column_bytes(handle_, index));
  if (bytes == nullptr && size > 0) throwTrouble(cache_->db(), SQLITE_NOMEM, cache_->file());
  return {isText ? CellType::text : CellType::blob, 0,
          size == 0 ? std::string_view{} : std::string_view(bytes, size)};
}

void Statement::damaged(int index, std::string_view expected) const {
  // The value itself is left out: it may be what makes the book damaged, and it is a record.
  throw Trouble({base::ErrorCode::storeDamaged, cache_->file() + ": column " +
                                                    sqlite3_column_name(handle_, index) +
                                                    " does not hold " + std::string(expected) +
                                                    "; keep this file and open the latest backup"});
}

void Statement::requireType(int index, int type, std::string_view expected) const {
  base::require(index >= 0 && index < sqlite3_data_count(handle_), "a column of the current row");
  if (sqlite3_column_type(handle_, index) != type) damaged(index, expected);
}

std::int64_t Statement::integer(int index) const {
  requireType(index, SQLITE_INTEGER, "a whole number");
  return sqlite3_column_int64(handle_, index);
}

bool Statement::boolean(int index) const {
  const std::int64_t value = integer(index);
  if (value != 0 && value != 1) damaged(index, "0 or 1");
  return value == 1;
}

double Statement::real(int index) const {
  requireType(index, SQLITE_FLOAT, "a decimal number");
  return sqlite3_column_double(handle_, index);
}

std::string Statement::text(int index) const {
  requireType(index, SQLITE_TEXT, "text");
  const auto* bytes = sqlite3_column_text(handle_, index);
  const auto size = static_cast<std::size_t>(sqlite3_column_bytes(handle_, index));
  if (bytes == nullptr) throwTrouble(cache_->db(), SQLITE_NOMEM, cache_->file());
  return {bytes, bytes + size};
}

std::vector<std::uint8_t> Statement::blob(int index) const {
  requireType(index, SQLITE_BLOB, "a blob");
  const auto* bytes = static_cast<const std::uint8_t*>(sqlite3_column_blob(handle_, index));
  const auto size = static_cast<std::size_t>(sqlite3_column_bytes(handle_, index));
  return size == 0 ? std::vector<std::uint8_t>{} : std::vector<std::uint8_t>(bytes, bytes + size);
}

std::int64_t Statement::keyOf(const base::Uuid& identity) const {
  return cache_->hands().keyOf(identity);
}

base::Uuid Statement::identity(int index) const {
  const auto key = integer(index);
  auto found = cache_->hands().identityOf(key);
  if (!found) found = cache_->freshHands().identityOf(key); // another program may have merged
  if (!found) damaged(index, "an identity");
  return *found;
}

base::LaptopId Statement::hand(int index) const {
  const auto key = integer(index);
  auto found = cache_->hands().laptopOf(key);
  if (!found) found = cache_->freshHands().laptopOf(key);
  if (!found) damaged(index, "the number of a laptop");
  return *found;
}

base::Uuid Statement::bytes16(int index) const {
  requireType(index, SQLITE_BLOB, "an identity");
  base::Uuid uuid;
  if (sqlite3_column_bytes(handle_, index) != static_cast<int>(uuid.bytes.size()))
    damaged(index, "an identity of 16 bytes");
  const auto* bytes = static_cast<const std::uint8_t*>(sqlite3_column_blob(handle_, index));
  std::copy_n(bytes, uuid.bytes.size(), uuid.bytes.begin());
  return uuid;
}

base::Date Statement::date(int index) const {
  const auto date = base::Date::parse(text(index));
  if (!date) damaged(index, "a date");
  return *date;
}

base::Instant Statement::instant(int index) const {
  constexpr std::int64_t last = 5'975'883'311'103; // that an identity can have: in 2159
  const auto utc = integer(index);
  if (utc < 1 || utc > last) damaged(index, "a moment that a logbook can have");
  return {base::Milliseconds(utc)};
}

} // namespace gk::store
